"""How long the lamps last, in sentences."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse
from django.utils import dateformat
from django.utils.translation import gettext as _

from shows.models import ShowEvent
from shows.outlook import LampOutlook, SpareNeed
from venue.core.local_time import wall_time
from venue.models import House
from venue.wording_hours import hours_words, life_words, stock_words


@dataclass(frozen=True)
class LampLine:
    """One lamp in its unit: how far it is, and when it passes its limits."""

    tag: str
    url: str
    serial: str
    life: str
    booked: str
    limits: tuple[str, ...]


@dataclass(frozen=True)
class SpareLine:
    """One kind: what is there, and what will be wanted until an order arrives."""

    name: str
    stock: str
    need: str
    is_short: bool


def lamp_lines(house: House, found: Iterable[LampOutlook], tags: dict[int, tuple[str, str]]) -> list[LampLine]:
    """The lamps in the order given. `tags`: tag and reference of each unit by its primary key."""
    return [_lamp_line(house, each, *tags[each.count.unit_id or 0]) for each in found]


def _lamp_line(house: House, each: LampOutlook, tag: str, ref: str) -> LampLine:
    outlook = each.outlook
    return LampLine(
        tag,
        reverse("venue:unit_detail", args=[house.slug, ref]),
        each.count.lamp.serial,
        life_words(each.count.hours, each.stop_h, outlook.remaining_h),
        _("%(hours)s h are booked for it.") % {"hours": hours_words(outlook.booked_h)},
        tuple(_limits(house, each)),
    )


def _limits(house: House, each: LampOutlook) -> Iterable[str]:
    outlook = each.outlook
    if outlook.state == "unknown":
        yield _("No rated hours are on file, so nobody can tell how long it lasts.")
    if outlook.state == "ok" and outlook.warns_at is not None:
        yield _("Warns %(when)s.") % {"when": _when(house, outlook.warns_at, each.warns_in)}
    if outlook.state == "stop":
        yield _("It is past its stop: change it. Only a named person may decide otherwise, with the maker's word.")
    elif outlook.stops_at is not None:
        yield _("Passes its stop %(when)s.") % {"when": _when(house, outlook.stops_at, each.stops_in)}
    elif each.stop_h is not None:
        yield _("By what is booked and the usual use no end is in sight.")


def _when(house: House, at: datetime, event: ShowEvent | None) -> str:
    """ "in The Weathervane Revue, Thu, Nov 26, 8:00 PM", or the day by the usual use."""
    if event is None:
        day = dateformat.format(wall_time(at, house.time_zone), "F j, Y")
        return _("about %(day)s, by the usual use") % {"day": day}
    starts = dateformat.format(event.starts_wall, "D, M j, g:i A")
    facts = {"show": event.engagement.name, "kind": event.get_kind_display(), "at": starts}
    return _("in %(show)s, %(kind)s of %(at)s") % facts


def spare_line(need: SpareNeed) -> SpareLine:
    """The kind's stock, and until when an order would take."""
    kind = need.stock.kind
    stock = stock_words(need.state, need.stock.on_shelf, kind.on_order, need.stock.keep)
    return SpareLine(kind.name, stock, _need(need), need.state != "ok")


def _need(need: SpareNeed) -> str:
    if need.lead_days is None:
        return _("How many days an order takes is not on file.")
    if need.demand is None or need.reorder is None:
        return _("None is fitted.")
    facts = {"days": need.lead_days, "mean": f"{need.demand.mean:.1f}", "point": f"{need.reorder.point:.1f}"}
    told = _("An order takes %(days)s days; until then about %(mean)s will be wanted. Order at %(point)s or fewer.")
    return told % facts
