"""Why somebody fits a line, what keeps somebody off it, and why a line stays open, in words."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime

from django.utils import dateformat
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from crew.candidates import Asked
from crew.core.filling.proposal import Unfilled
from crew.core.filling.ranking import Ranked
from crew.core.filling.records import Bar, Wanted
from crew.line_needs import Seat
from crew.models import CertificationKind
from crew.models.rosters import Experience
from shows.wording.numbers import words_and
from venue.core.local_time import wall_time

Kinds = Mapping[int, CertificationKind]


def line_words(asked: Asked, seat: Seat) -> str:
    """ "show 3", "at spot talk", "spare"."""
    light, line = asked.lights.get(seat), asked.standing.get(seat)
    if line is not None:
        return str(line)
    return _("show %(number)s") % {"number": light.number if light else seat[0]}


def bar_words(bar: Bar, kinds: Kinds, zone: str) -> str:
    """ "booked 6:00 PM to 10:00 PM", "short rest until 9:00 AM", "Climb and harness only through Mar 2"."""
    if bar.code == "left":
        return _("left the roster")
    if bar.code == "booked":
        return _("booked %(starts)s to %(ends)s") % _both(bar.starts, bar.ends, zone)
    if bar.code == "short-rest":
        return _rest_words(bar, zone)
    if bar.code == "day-off":
        return _off_words(bar)
    if bar.code == "declined":
        return _("said no to this call")
    told = {"kind": kinds[bar.kind or 0].name, "day": _day(bar.day)}
    if bar.code == "certification-missing":
        return _("no %(kind)s on file") % told
    return _("%(kind)s only through %(day)s") % told


def _rest_words(bar: Bar, zone: str) -> str:
    if bar.is_next:
        return _("short rest before the call on %(starts)s") % {"starts": when(bar.starts, zone)}
    return _("short rest until %(until)s") % {"until": when(bar.until, zone)}


def _off_words(bar: Bar) -> str:
    if bar.day == bar.last:
        return _("day off, %(day)s") % {"day": _day(bar.day)}
    return _("days off, %(first)s to %(last)s") % {"first": _day(bar.day), "last": _day(bar.last)}


def _both(starts: datetime | None, ends: datetime | None, zone: str) -> dict[str, str]:
    """The end without its day where that is the day of the start."""
    if starts is None or ends is None:
        return {"starts": when(starts, zone), "ends": when(ends, zone)}
    is_one_day = wall_time(starts, zone).date() == wall_time(ends, zone).date()
    last = dateformat.format(wall_time(ends, zone), "g:i A") if is_one_day else when(ends, zone)
    return {"starts": when(starts, zone), "ends": last}


def when(instant: datetime | None, zone: str) -> str:
    """ "Mar 3, 6:00 PM" by the zone's clocks."""
    return dateformat.format(wall_time(instant, zone), "M j, g:i A") if instant else ""


def _day(day: date | None) -> str:
    return dateformat.format(day, "M j, Y") if day else ""


def bars_words(bars: Iterable[Bar], kinds: Kinds, zone: str, *, stops: bool) -> list[str]:
    """Those that keep somebody off, or those that are only told."""
    return [bar_words(bar, kinds, zone) for bar in bars if bar.is_stop == stops]


def fit_words(who: Ranked, wanted: Wanted, asked: Asked, list_place: int | None = None) -> list[str]:
    """Why somebody fits the line, the most important first; `list_place` on the roster's list, from 1."""
    ran, seat, fit = who.somebody.ran, (wanted.number, wanted.seat), who.fit
    found = []
    if seat in ran.on_seat:
        told = {"line": line_words(asked, seat), "day": _day(wall_time(ran.last_on_seat[seat], asked.call.zone).date())}
        found.append((_("on %(line)s last, %(day)s") if not fit.not_last else _("was on %(line)s, %(day)s")) % told)
    if ran.calls:
        text = ngettext("%(count)s call of this show", "%(count)s calls of this show", ran.calls)
        found.append(text % {"count": ran.calls})
    if who.somebody.experience:
        found.append(_("follow spots: %(words)s") % {"words": Experience(who.somebody.experience).label})
    if not fit.unit_unknown:
        found.append(_("knows the unit"))
    if list_place is not None:
        found.append(_("number %(place)s on the list") % {"place": list_place})
    hours = round(who.somebody.minutes / 60)
    found.append(ngettext("%(count)s hour in 4 weeks", "%(count)s hours in 4 weeks", hours) % {"count": hours})
    return found


def unfilled_words(why: Unfilled, kinds: Kinds) -> str:
    """ "Nobody has Climb and harness." or "3 booked, 2 without Climb and harness." """
    if why.nobody_has:
        names = words_and([kinds[kind].name for kind in why.nobody_has])
        return _("Nobody has %(names)s through that day.") % {"names": names}
    if why.taken:
        return _("Whoever could come is proposed for another line.")
    counts = counts_words(why.kept_off)
    return _("Nobody can come: %(counts)s.") % {"counts": counts} if counts else _("Nobody is left on the roster.")


def counts_words(kept_off: Mapping[str, int]) -> str:
    """ "3 booked, 2 with a day off"."""
    texts = {
        "left": _("%(count)s left the roster"),
        "booked": _("%(count)s booked"),
        "short-rest": _("%(count)s short of rest"),
        "day-off": _("%(count)s with a day off"),
        "certification-missing": _("%(count)s without a certification"),
        "certification-expired": _("%(count)s with a certification that ends before"),
    }
    return ", ".join(text % {"count": kept_off[code]} for code, text in texts.items() if kept_off.get(code))


def summary(people: Sequence[Ranked]) -> str:
    """ "12 can come. 3 can't: 2 booked, 1 with a day off." """
    can_come = sum(who.can_come for who in people)
    text = ngettext("%(count)s person can come.", "%(count)s people can come.", can_come) % {"count": can_come}
    first = [next(bar.code for bar in who.bars if bar.is_stop) for who in people if not who.can_come]
    if not first:
        return text
    told = {"count": len(first), "counts": counts_words(Counter(first))}
    return text + " " + _("%(count)s can't: %(counts)s.") % told


def needs_words(wanted: Wanted, kinds: Kinds) -> str:
    """ "Asks for Climb and harness, Arc-lamp handling (only told)."; empty where it asks for nothing."""
    if not wanted.needs:
        return ""
    names = [
        kinds[need.kind].name if need.is_required else _("%(kind)s (not required)") % {"kind": kinds[need.kind].name}
        for need in sorted(wanted.needs, key=lambda need: not need.is_required)
    ]
    return capfirst(_("asks for %(names)s.") % {"names": words_and(names)})
