"""manage.py lamp_hours: each unit's lamp, its hours, and the show in which it passes its stop."""

from datetime import datetime
from decimal import Decimal
from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone
from django.utils.translation import gettext as _

from shows.lamp_hours import UnitLamp, unit_lamps
from shows.models import ShowEvent
from shows.outlook import LampOutlook
from venue.core.local_time import shown
from venue.errors import NotFound
from venue.house_file.times import NotATime, read_instant, written_instant
from venue.management.command import Answer, AnswerCommand, CommandRefused, Options
from venue.models import House


class Command(AnswerCommand):
    help = _("Tell the hours of every lamp in a house, and which of them pass their stop at which booked event.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("slug", metavar="SLUG", help=_("the house's short name in addresses"))
        parser.add_argument(
            "--as-of",
            metavar="TIME",
            help=_("reckon as it was then: a time with its offset, such as 2026-02-01T23:10:00-06:00"),
        )

    def answer(self, options: Options) -> Answer:
        slug, as_of = options["slug"], options["as_of"]
        house = House.objects.filter(slug=slug).first()
        if house is None:
            raise NotFound(_("house"), slug)
        at = timezone.now() if as_of is None else _instant(as_of)
        units = unit_lamps(house, at, as_of=as_of is not None)
        document = [_document(each, at, house.time_zone) for each in units]
        return Answer(document, "\n".join(_line(each, house.time_zone) for each in units))


def _instant(text: str) -> datetime:
    try:
        return read_instant(text)
    except NotATime as error:
        line = _("--as-of: “%(text)s” is no time with an offset; write one such as 2026-02-01T23:10:00-06:00")
        raise CommandRefused([line % {"text": text}]) from error


def _document(each: UnitLamp, at: datetime, zone: str) -> dict[str, Any]:
    """The unit's entry; null where there is no lamp, or no rated hours to tell by."""
    told = dict(_NO_LAMP) if each.lamp is None else _lamp_document(each.lamp, zone)
    return {**_IN_ORDER, **told, "unit": each.unit.tag, "booked_h": float(each.calendar.hours(at))}


_NO_LAMP = {"state": "unknown"}
_IN_ORDER: dict[str, Any] = dict.fromkeys(
    (
        *("unit", "lamp", "hours", "strikes", "rated_h", "warn_h", "stop_h", "remaining_h", "state"),
        *("booked_h", "passes_stop_at", "passes_stop_in"),
    )
)


def _lamp_document(lamp: LampOutlook, zone: str) -> dict[str, Any]:
    count, found, stops_at = lamp.count, lamp.outlook, lamp.outlook.stops_at
    return {
        "lamp": count.lamp.serial,
        "hours": _number(count.hours),
        "strikes": count.strikes,
        "rated_h": count.lamp.kind.rated_h,
        "warn_h": _number(lamp.warn_h),
        "stop_h": _number(lamp.stop_h),
        "remaining_h": _number(found.remaining_h),
        "state": found.state,
        "passes_stop_at": None if stops_at is None else written_instant(stops_at, zone),
        "passes_stop_in": None if lamp.stops_in is None else _event(lamp.stops_in),
    }


def _number(hours: Decimal | None) -> float | None:
    return None if hours is None else float(hours)


def _event(event: ShowEvent) -> dict[str, str]:
    return {"show": event.engagement.name, "event": str(event)}


def _line(each: UnitLamp, zone: str) -> str:
    lamp = each.lamp
    if lamp is None:
        return _("%(unit)s: no lamp on file") % {"unit": each.unit.tag}
    facts = {"unit": each.unit.tag, "lamp": lamp.count.lamp.serial, "hours": lamp.count.hours}
    if lamp.stop_h is None:
        return _("%(unit)s: lamp %(lamp)s, %(hours)s h, no rated hours on file") % facts
    facts |= {"stop": lamp.stop_h, "left": lamp.outlook.remaining_h}
    line = _("%(unit)s: lamp %(lamp)s, %(hours)s h of %(stop)s h, %(left)s h left") % facts
    return f"{line}; {_end_words(each, zone)}" if lamp.outlook.stops_at else line


def _end_words(each: UnitLamp, zone: str) -> str:
    """When it passes its stop; called only where that is known."""
    lamp = each.lamp
    at = lamp.outlook.stops_at if lamp else None
    if lamp is None or at is None:
        return ""
    if lamp.outlook.state == "stop":
        return _("past its stop")
    if lamp.stops_in is None:
        return _("passes its stop on %(at)s by the usual use") % {"at": shown(at, zone)}
    facts = {"at": shown(at, zone), "show": lamp.stops_in.engagement.name, "event": str(lamp.stops_in)}
    return _("passes its stop on %(at)s in %(show)s: %(event)s") % facts
