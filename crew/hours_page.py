"""Hours in words: each person of a call, and a roster's week as page, list and paper."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise

from django.utils.translation import gettext as _

from crew.core.hours.records import Rules, Tally
from crew.core.hours.rounding import hours_in, two_places
from crew.core.hours_report import HoursLine, HoursReport
from crew.hour_rows import Attended, Counted, RuleBook, hours_of_call, hours_of_week, meal_due, parts_in
from crew.models import Call, Roster
from crew.sheet_content import event_words
from crew.wording.day import clock_words, due_words, minimum_words, waiting_words
from crew.wording.hour_values import flags_words, hours_words, rates_words
from crew.wording.hours import FLAG_SENTENCES
from venue.core.csv_text import Cell
from venue.core.local_time import wall_time
from venue.out.table import Column, Table


@dataclass(frozen=True)
class ShownHours:
    """One person of a call: times, hours to two places, what to know; the texts are in words already."""

    name: str
    times: str
    worked: str
    paid: str
    counted: str
    rates: str
    straight: str
    flags: str
    minimum: str
    due: str


@dataclass(frozen=True)
class CallHours:
    """A call's people with their hours, who is still to come, what the flags mean."""

    rows: tuple[ShownHours, ...]
    waiting: tuple[tuple[str, str], ...]
    legend: tuple[tuple[str, str], ...]


def call_hours(call: Call, book: RuleBook) -> CallHours:
    """The hours of the call as far as they can be counted, by the rules of its house."""
    done, still = hours_of_call(call, book)
    rules = book.of(call.engagement.house_id)
    waiting = ((day.person, " · ".join(filter(None, [waiting_words(day), _due(day, call, rules)]))) for day in still)
    flags = dict.fromkeys(flag for each in done for flag in each.count.flags)
    legend = tuple((flags_words([flag]), str(FLAG_SENTENCES[flag])) for flag in flags)
    return CallHours(tuple(_shown(each, call) for each in done), tuple(waiting), legend)


def _shown(each: Counted, call: Call) -> ShownHours:
    day, count = each.day, each.count
    return ShownHours(
        name=day.person,
        times=_span(day, call.call_date),
        worked=hours_words(count.worked),
        paid=hours_words(count.paid),
        counted=hours_words(count.counted),
        rates=rates_words(count.by_rate),
        straight=hours_words(count.straight),
        flags=flags_words(count.flags),
        minimum=minimum_words(each.minimum),
        due=_due(day, call, each.rules),
    )


def _span(day: Attended, base: date) -> str:
    """ "7:00 PM – 9:40 PM": the work that counts."""
    zone = day.call.zone
    ends = clock_words(day.row.out_at, zone, base) if day.row.out_at else "…"
    return f"{clock_words(day.starts, zone, base)} – {ends}"


def _due(day: Attended, call: Call, rules: Rules) -> str:
    due = meal_due(day, rules)
    return "" if due is None else due_words(due, day.since_meal, call.zone, call.call_date)


def hours_report(roster: Roster, week: date, book: RuleBook, *, now: datetime, zone: str) -> HoursReport:
    """The week that begins on that date; `zone` is whose clocks say when it was printed."""
    done, still = hours_of_week(roster, week, book)
    waiting = (f"{day.person}, {day.call.engagement.name}: {waiting_words(day)}" for day in still)
    lines = tuple(_line(each, week) for each in done)
    return HoursReport(roster.name, week, lines, tuple(waiting), wall_time(now, zone))


def _line(each: Counted, week: date) -> HoursLine:
    day, call = each.day, each.day.call
    stretches, zone = each.count.call.stretches, call.zone
    breaks = pairwise(stretches)
    return HoursLine(
        person_key=day.row.line.person_id or 0,
        person=day.person,
        show_key=call.engagement_id,
        show=call.engagement.name,
        event=event_words(call.event),
        house=call.engagement.house.name,
        came=wall_time(each.count.call.start, zone),
        left=wall_time(each.count.call.end, zone),
        meals=tuple((wall_time(one.end, zone), wall_time(other.start, zone)) for one, other in breaks),
        tally=Tally(parts_in(each, week)),
        flags=each.count.flags,
    )


def hours_table(report: HoursReport) -> Table:
    """The report as a list for a spreadsheet: a line a person and call."""
    names = (
        *(_("person"), _("show"), _("event"), _("house"), _("work from"), _("until"), _("meals")),
        *(_("worked h"), _("paid h"), _("counted h"), _("straight h"), _("by rate"), _("to know")),
    )
    columns = tuple(Column(name) for name in names)
    title = _("Hours of %(roster)s, week of %(week)s") % {"roster": report.roster, "week": report.week}
    return Table("hours", title, columns, lambda: _cells(report.lines), _("Nobody worked in this week."))


def _cells(lines: Iterable[HoursLine]) -> Iterator[tuple[Cell, ...]]:
    for line in lines:
        tally = line.tally
        hours = (two_places(hours_in(each)) for each in (tally.worked, tally.paid, tally.counted, tally.straight))
        meals = "; ".join(f"{starts:%H:%M} – {ends:%H:%M}" for starts, ends in line.meals)
        times = (f"{line.came:%Y-%m-%d %H:%M}", f"{line.left:%Y-%m-%d %H:%M}", meals)
        names = (line.person, line.show, line.event, line.house)
        yield (*names, *times, *hours, rates_words(tally.by_rate), flags_words(line.flags))


def weeks_beside(week: date) -> tuple[date, date]:
    """The weeks before and after."""
    return week - timedelta(days=7), week + timedelta(days=7)
