"""Whether a show can run, and what stops it: read from the rows, told as codes and data."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from functools import cached_property

from django.db.models import QuerySet

from crew.core.call_sheet import CallSheet, SheetLine
from crew.models import Call
from crew.sheet_content import SheetState, numbering_at, state_of
from shows.fit import Decided, fit_of
from shows.lines import ShowLine, Verdict
from shows.models import ShowEvent
from venue.core.local_time import house_day
from venue.models import House

TOLD_BY_THE_NUMBERS = frozenset({"no-place", "unit-out", "danger", "lamp-past-stop"})
"""Findings that readiness tells from the lines of the sheet already."""

MOST_READ = 200
"""Events looked through for the next ones; more than any group of houses plays within a day."""


@dataclass(frozen=True)
class Stop:
    """One thing that stops a show. `numbers` are the show numbers that it is about, `units` the unit of each."""

    code: str
    numbers: tuple[str, ...] = ()
    sentence: str = ""
    units: tuple[str, ...] = ()


@dataclass(frozen=True)
class Readiness:
    """An event with its call, if one is made, and its day as the house counts days."""

    event: ShowEvent
    today: date
    call: Call | None
    state: SheetState | None = field(repr=False)
    verdict: Verdict = field(repr=False)
    numbers: tuple[tuple[str, str], ...]
    """Show number and the house label that it is at, empty where it has no place."""
    out: tuple[tuple[str, str], ...] = ()
    """Show number and its unit, where that is out of service."""
    open: tuple[Decided, ...] = ()
    """What else stops the show where it does not fit the house, and nobody decided."""

    @property
    def day(self) -> date:
        house = self.event.engagement.house
        return house_day(self.event.starts_at, self.event.zone, house.day_turns_at)

    @property
    def sheet(self) -> CallSheet | None:
        return self.state.draft.sheet if self.state else None

    @cached_property
    def stops(self) -> tuple[Stop, ...]:
        """What stops it, the first to be put right first; nothing if it can run."""
        return (*self._numbering(), *self._crew())

    def _numbering(self) -> Iterator[Stop]:
        if not self.numbers:
            yield Stop("no-paperwork")
        if self.verdict.kind in {"fix", "ask"}:
            yield Stop(self.verdict.kind, sentence=self.verdict.sentence)
        elif unplaced := tuple(number for number, label in self.numbers if not label):
            yield Stop("unplaced", unplaced)
        if self.out:
            numbers, units = zip(*self.out, strict=True)
            yield Stop("unit-out", numbers, units=units)
        if self.open:
            yield Stop("fit", tuple(dict.fromkeys(each.finding.number for each in self.open)))

    def _crew(self) -> Iterator[Stop]:
        if self.state is None or self.sheet is None:
            yield Stop("no-call")
            return
        if self.sheet.to_fill:
            yield Stop("to-fill", tuple(self.sheet.open_numbers))
        if self.state.code != "current":
            yield Stop(self.state.code)


def next_shows(houses: QuerySet[House], now: datetime, most: int) -> list[ShowEvent]:
    """The next shows in the houses, tonight's until the house's day turns."""
    events = ShowEvent.objects.standing().filter(kind="show", engagement__ended_at__isnull=True)
    near = events.filter(engagement__house__in=houses, starts_at__gt=now - timedelta(days=1))
    related = near.select_related("engagement__house", "engagement__setup").order_by("starts_at", "pk")
    return [event for event in related[:MOST_READ] if _is_to_come(event, now)][:most]


def _is_to_come(event: ShowEvent, now: datetime) -> bool:
    turns_at = event.engagement.house.day_turns_at
    return house_day(event.starts_at, event.zone, turns_at) >= house_day(now, event.zone, turns_at)


def readiness(event: ShowEvent, now: datetime) -> Readiness:
    """The event's readiness now; the same number of queries however many lights."""
    today = house_day(now, event.zone, event.engagement.house.day_turns_at)
    call = Call.objects.standing().filter(event=event).order_by("call_at", "pk").first()
    if call is None:
        lines, verdict = numbering_at(event.engagement, event.starts_at)
        return Readiness(event, today, None, None, verdict, _labels(lines), _out(lines), open_findings(event, now))
    call.event, call.engagement = event, event.engagement
    state = state_of(call)
    found = state.draft.sheet.lines
    verdict, still_open = state.draft.verdict, open_findings(event, now)
    return Readiness(event, today, call, state, verdict, _labels(found), _out(found), still_open)


def open_findings(event: ShowEvent, now: datetime) -> tuple[Decided, ...]:
    """What stops the event's show on the house and is undecided, but for what the sheet's lines tell already."""
    found = fit_of(event.engagement, event.starts_at, now)
    return tuple(each for each in found.open if each.finding.code not in TOLD_BY_THE_NUMBERS)


def _labels(lines: Iterable[ShowLine] | Iterable[SheetLine]) -> tuple[tuple[str, str], ...]:
    return tuple((line.number, line.label) for line in lines)


def _out(lines: Iterable[ShowLine] | Iterable[SheetLine]) -> tuple[tuple[str, str], ...]:
    return tuple((line.number, line.unit) for line in lines if line.stops)
