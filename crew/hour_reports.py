"""Hours of a call, a person, a show and a week as one kind of report: for a page, for a spreadsheet, for paper."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date, datetime
from itertools import pairwise

from django.utils.translation import gettext as _

from crew.core.hours.records import Part, Tally
from crew.core.hours.rounding import hours_in, two_places
from crew.core.hours_report import HoursLine, HoursReport
from crew.hour_rows import Counted, Hours, hours_of_call, hours_of_days, hours_of_show, parts_in
from crew.models import Call, Person, Roster
from crew.rule_book import RuleBook
from crew.sheet_content import event_words
from crew.wording.day import waiting_at_words
from crew.wording.hour_values import flags_words, rates_words
from crew.wording.hours import call_title, days_title, show_title, week_title
from shows.models import Engagement
from venue.core.csv_text import Cell
from venue.core.local_time import wall_time
from venue.out.table import Column, Table

Parts = Callable[[Counted], tuple[Part, ...]]
"""Which parts of somebody's day belong to the report."""


def call_report(call: Call, book: RuleBook, printed_at: datetime) -> HoursReport:
    """Everybody's hours on the call; `printed_at` is a wall time, here as in all others."""
    title = call_title(call.engagement.name, event_words(call.event), call.call_date)
    return _report(title, call.roster, hours_of_call(call, book), _whole, printed_at)


def show_report(roster: Roster, show: Engagement, book: RuleBook, printed_at: datetime) -> HoursReport:
    """Everybody's hours on all calls of the roster for the show."""
    title = show_title(show.name, show.starts_on, show.ends_on)
    return _report(title, roster, hours_of_show(roster, show, book), _whole, printed_at)


def person_report(person: Person, first: date, last: date, book: RuleBook, printed_at: datetime) -> HoursReport:
    """One person's hours from one day to another, both among them."""
    hours = hours_of_days(person.roster, first, last, book, person)
    return _report(
        days_title(person.name, first, last),
        person.roster,
        hours,
        lambda each: parts_in(each, first, last),
        printed_at,
    )


def week_report(roster: Roster, first: date, last: date, book: RuleBook, printed_at: datetime) -> HoursReport:
    """The hours of everybody on the roster's calls in the week of these days."""
    hours = hours_of_days(roster, first, last, book)
    return _report(week_title(first), roster, hours, lambda each: parts_in(each, first, last), printed_at)


def _whole(each: Counted) -> tuple[Part, ...]:
    return each.count.parts


def _report(title: str, roster: Roster, hours: Hours, parts: Parts, printed_at: datetime) -> HoursReport:
    done, still = hours
    waiting = (f"{day.person}, {day.call.engagement.name}, {waiting_at_words(day)}" for day in still)
    lines = tuple(_line(each, parts(each)) for each in done)
    return HoursReport(title, roster.name, lines, tuple(waiting), printed_at)


def _line(each: Counted, parts: tuple[Part, ...]) -> HoursLine:
    day, call = each.day, each.day.call
    stretches, zone = each.count.call.stretches, call.zone
    breaks = pairwise(stretches)
    return HoursLine(
        person_ref=day.person_ref,
        person=day.person,
        show_ref=call.engagement.ref,
        show=call.engagement.name,
        event=event_words(call.event),
        house=call.engagement.house.name,
        came=wall_time(each.count.call.start, zone),
        left=wall_time(each.count.call.end, zone),
        meals=tuple((wall_time(one.end, zone), wall_time(other.start, zone)) for one, other in breaks),
        tally=Tally(parts),
        flags=each.count.flags,
    )


def hours_table(report: HoursReport) -> Table:
    """The report as a list for a spreadsheet: a line a person and call."""
    names = (
        *(_("person"), _("show"), _("event"), _("house"), _("work from"), _("until"), _("meals")),
        *(_("worked h"), _("paid h"), _("counted h"), _("straight h"), _("by rate"), _("to know")),
    )
    columns = tuple(Column(name) for name in names)
    return Table("hours", report.title, columns, lambda: _cells(report.lines), _("No hours are counted here."))


def _cells(lines: Iterable[HoursLine]) -> Iterator[tuple[Cell, ...]]:
    for line in lines:
        tally = line.tally
        hours = (two_places(hours_in(each)) for each in (tally.worked, tally.paid, tally.counted, tally.straight))
        meals = "; ".join(f"{starts:%H:%M} – {ends:%H:%M}" for starts, ends in line.meals)
        times = (f"{line.came:%Y-%m-%d %H:%M}", f"{line.left:%Y-%m-%d %H:%M}", meals)
        names = (line.person, line.show, line.event, line.house)
        yield (*names, *times, *hours, rates_words(tally.by_rate), flags_words(line.flags))
