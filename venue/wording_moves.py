"""Where a unit is, was or will be, in words."""

from dataclasses import dataclass
from datetime import datetime

from django.utils import dateformat
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from venue.core.local_time import wall_time
from venue.models import Placement, Unit
from venue.models.units import Elsewhere
from venue.stays import UnitStays, Whereabouts


def moment_words(instant: datetime, zone: str) -> str:
    """ "Mar 2, 2026, 6:30 PM" by the house's clocks."""
    return dateformat.format(wall_time(instant, zone), "M j, Y, g:i A")


def where_words(stay: Placement) -> str:
    """ "at Rear booth, place 2", "in the shop (new iris)", "lent to Marlow Hall"."""
    if stay.place is not None:
        return _("at %(place)s") % {"place": stay.place}
    if stay.elsewhere == Elsewhere.LENT:
        return _("lent to %(whom)s") % {"whom": stay.elsewhere_words}
    where = str(stay.get_elsewhere_display())
    return _("%(where)s (%(why)s)") % {"where": where, "why": stay.elsewhere_words} if stay.elsewhere_words else where


def stay_sentence(stay: Placement, now: datetime, zone: str) -> str:
    """ "In the shop (new iris) since Mar 2, 2026, 9:00 AM, until Mar 9, 2026, 5:00 PM." """
    told = {"where": where_words(stay), "since": moment_words(stay.starts_at, zone)}
    if stay.starts_at > now:
        said = _("Planned %(where)s from %(since)s") % told
    elif stay.ends_at is not None and stay.ends_at <= now:
        said = _("%(where)s from %(since)s") % told
    else:
        said = _("%(where)s since %(since)s") % told
    if stay.ends_at is None:
        return f"{capfirst(said)}."
    until = {"said": capfirst(said), "until": moment_words(stay.ends_at, zone)}
    return _("%(said)s, until %(until)s.") % until


def nowhere_sentence(last: Placement | None, zone: str) -> str:
    """That no stay says where the unit is; if it was to be back from elsewhere, that too."""
    if last is None or last.place_id is not None or last.ends_at is None:
        return _("Stands nowhere.")
    told = {"where": where_words(last), "until": moment_words(last.ends_at, zone)}
    return _("It was %(where)s until %(until)s. Is it back? Say where it stands.") % told


def hire_sentence(unit: Unit, today: datetime) -> str:
    """From whom the unit is hired, and when it goes back; empty for the house's own. `today` by the house's clocks."""
    if not unit.hired_from:
        return ""
    told = {"whom": unit.hired_from, "on": dateformat.format(unit.back_on, "M j, Y") if unit.back_on else ""}
    if unit.back_on is None:
        return _("Hired from %(whom)s; when it goes back is not recorded.") % told
    if unit.back_on <= today.date():
        return _("Hired from %(whom)s, to go back on %(on)s: is it on its way? Then take it off the books.") % told
    return _("Hired from %(whom)s; goes back on %(on)s.") % told


@dataclass(frozen=True)
class DayLines:
    """What a page says of one unit on one day: each stay of that day, the one before, the one after (or empty)."""

    unit: Unit
    stays: tuple[str, ...]
    before: str
    after: str


def whereabouts_lines(found: Whereabouts, start: datetime, end: datetime, zone: str) -> DayLines:
    """Where the unit was from start to end; the time of a move is told where it was on that day."""
    before, after = found.before, found.after
    return DayLines(
        unit=found.unit,
        stays=tuple(_on_the_day(stay, start, end, zone) for stay in found.stays),
        before=_aside(_("Before: %(where)s, until %(at)s."), before, before.ends_at, zone) if before else "",
        after=_aside(_("Then: %(where)s, from %(at)s."), after, after.starts_at, zone) if after else "",
    )


def _on_the_day(stay: Placement, start: datetime, end: datetime, zone: str) -> str:
    told = {"where": capfirst(where_words(stay)), "since": moment_words(stay.starts_at, zone)}
    is_there_all_day = stay.ends_at is None or stay.ends_at >= end
    if is_there_all_day:
        return (_("%(where)s, since %(since)s.") if stay.starts_at <= start else _("%(where)s, from %(since)s.")) % told
    until = {**told, "until": moment_words(stay.ends_at or end, zone)}
    return _("%(where)s, from %(since)s until %(until)s.") % until


def _aside(words: str, stay: Placement, at: datetime | None, zone: str) -> str:
    return words % {"where": where_words(stay), "at": moment_words(at, zone) if at else "…"}


@dataclass(frozen=True)
class ShownStays:
    """A unit's stays in sentences: where it is, what is planned, where it was."""

    now: Placement | None
    sentence: str
    ahead: tuple[tuple[Placement, str], ...]
    past: tuple[str, ...]
    are_more: bool


def shown_stays(stays: UnitStays, now: datetime, zone: str) -> ShownStays:
    """What the unit's pages say of its stays. No query."""
    last = stays.past[0] if stays.past else None
    return ShownStays(
        now=stays.now,
        sentence=stay_sentence(stays.now, now, zone) if stays.now else nowhere_sentence(last, zone),
        ahead=tuple((stay, stay_sentence(stay, now, zone)) for stay in stays.ahead),
        past=tuple(stay_sentence(stay, now, zone) for stay in stays.past),
        are_more=stays.are_more,
    )
