"""What calls come to: each person's calls in their order in time, cut into pieces, rated, and padded.

Overtime of a calendar day turns at midnight by the house's clocks; rest and days in a row go by the working day, which
turns in the early morning (rest.py). The order in which calls are given does not matter.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from crew.core.hours.combine import combined
from crew.core.hours.meals import has_short_meal, is_meal, joined, late_from
from crew.core.hours.minimums import increments, is_recall, minimum_of, reporting_pay
from crew.core.hours.notice import start_problem
from crew.core.hours.overtime import Overtime
from crew.core.hours.pieces import Piece, pieces
from crew.core.hours.records import (
    DOUBLE,
    FLAGS,
    STRAIGHT,
    HourCount,
    Part,
    Rules,
    Source,
    Stretch,
    WorkedCall,
)
from crew.core.hours.rest import DaysInARow, has_rested, is_short, working_day
from crew.core.hours.rounding import stretch_to_step
from venue.core.names import name_key

ONE_HOUR = 60


def count_hours(calls: Iterable[WorkedCall], rules: Rules, zone: ZoneInfo) -> tuple[HourCount, ...]:
    """Each call's hours, in the order given. Calls of one name, however spaced or cased, are one person's."""
    given = list(calls)
    by_person: defaultdict[str, list[int]] = defaultdict(list)
    for index, call in enumerate(given):
        by_person[name_key(call.person)].append(index)
    found: dict[int, HourCount] = {}
    for indexes in by_person.values():
        person = _Person(rules, zone)
        for index in sorted(indexes, key=lambda index: (given[index].start, given[index].end)):
            found[index] = person.count(given[index])
    return tuple(found[index] for index in range(len(given)))


@dataclass
class _Tallying:
    """One call while it is counted."""

    call: WorkedCall
    parts: list[Part] = field(default_factory=list)
    flags: set[str] = field(default_factory=set)
    is_seventh_day: bool = False

    @property
    def worked(self) -> int:
        return sum(part.minutes for part in self.parts if part.source == "worked")

    @property
    def last_rate(self) -> Decimal:
        """The rate of the last minute worked; straight where none was."""
        return next((part.rate for part in reversed(self.parts) if part.source == "worked"), STRAIGHT)


class _Person:
    """One person's calls, told in their order: what one leaves behind bears on the next."""

    def __init__(self, rules: Rules, zone: ZoneInfo) -> None:
        self._rules, self._zone = rules, zone
        self._overtime = Overtime(rules)
        self._in_a_row = DaysInARow()
        self._worked_on: Counter[date] = Counter()
        self._before: WorkedCall | None = None
        self._run: Stretch | None = None

    def count(self, call: WorkedCall) -> HourCount:
        """What the call comes to."""
        tallying = _Tallying(call, flags=set(call.flags))
        self._begin(tallying)
        stretches = [stretch_to_step(each, self._rules.rounding, self._zone) for each in joined(call.stretches)]
        for nth, stretch in enumerate(stretches):
            self._work(tallying, stretch, is_first=nth == 0)
        self._pad(tallying)
        self._look_back(tallying)
        self._before = call
        told = tuple(flag for flag in FLAGS if flag in tallying.flags)
        return HourCount(tuple(tallying.parts), call, told)

    def _begin(self, tallying: _Tallying) -> None:
        """What stands between this call and the one before."""
        before, call = self._before, tallying.call
        if before is not None and has_rested(before, call, self._rules):
            self._overtime.turn()
        if is_short(before, call, self._rules, self._zone):
            tallying.flags |= {"short-rest", "forced-call"}
        if is_recall(before, call, self._rules):
            tallying.flags.add("recall")
        if problem := start_problem(call.start, self._rules, self._zone):
            tallying.flags.add(problem)
        day = working_day(call.start, self._rules.day_turns, self._zone)
        if self._in_a_row.reach(day) and self._rules.seventh_day_rate is not None:
            tallying.is_seventh_day = True
            tallying.flags.add("seventh-day")

    def _work(self, tallying: _Tallying, stretch: Stretch, *, is_first: bool) -> None:
        """One stretch between meals; work right after the call before has had no meal either."""
        self._run = Stretch(self._since(stretch), stretch.end)
        late_at = late_from(self._run.start, self._rules)
        is_late = False
        for piece in pieces(stretch, self._rules, self._zone, late_at):
            self._count_piece(tallying, piece)
            is_late = is_late or (piece.is_late and piece.minutes > 0)
        if is_late:
            tallying.flags.add("late-meal" if is_first else "second-meal-late")
            if self._rules.meal_penalty == "one-hour":
                self._pay(tallying, ONE_HOUR, STRAIGHT, "meal-penalty")

    def _since(self, stretch: Stretch) -> datetime:
        """Since when there was no meal."""
        is_unbroken = self._run is not None and not is_meal(self._run.end, stretch.start)
        return self._run.start if self._run is not None and is_unbroken else stretch.start

    def _count_piece(self, tallying: _Tallying, piece: Piece) -> None:
        premiums = list(self._premiums(tallying, piece))
        for minutes, overtime in self._overtime.count(piece.day, piece.minutes):
            rate = combined([*premiums, *([] if overtime is None else [overtime])], self._rules.combine)
            tallying.parts.append(Part(piece.day, minutes, rate, "worked", counts=True))

    def _premiums(self, tallying: _Tallying, piece: Piece) -> Iterator[Decimal]:
        """The rates that the piece has for what it is; the flags say so."""
        rules = self._rules
        if piece.minutes and piece.is_night and rules.night is not None:
            tallying.flags.add("night")
            yield rules.night.rate
        if piece.minutes and piece.day in rules.holidays:
            tallying.flags.add("holiday")
            yield from [] if rules.holiday_rate is None else [rules.holiday_rate]
        if tallying.is_seventh_day and rules.seventh_day_rate is not None:
            yield rules.seventh_day_rate
        if piece.is_late and rules.meal_penalty == "double-until-meal":
            yield DOUBLE

    def _pad(self, tallying: _Tallying) -> None:
        """What is paid although nobody worked: an increment at the rate in which it began, a minimum by `pad_rate`."""
        rules, worked, last = self._rules, tallying.worked, tallying.last_rate
        pad_rate = last if rules.pad_rate == "last" else STRAIGHT
        minimum = minimum_of(tallying.call, rules, "recall" in tallying.flags)
        added = increments(worked, minimum, rules.increment)
        reporting = reporting_pay(tallying.call, worked, rules)
        self._pay(tallying, added, last, "increment")
        self._pay(tallying, max(minimum, reporting) - worked - added, pad_rate, "minimum")
        if reporting > max(minimum, worked + added):
            tallying.flags.add("reporting-time")

    def _pay(self, tallying: _Tallying, minutes: int, rate: Decimal, source: Source) -> None:
        if minutes <= 0:
            return
        day = tallying.parts[-1].day if tallying.parts else tallying.call.start.astimezone(self._zone).date()
        counts = source != "meal-penalty" and self._rules.counted == "paid"
        tallying.parts.append(Part(day, minutes, rate, source, counts))
        if counts:
            self._overtime.count(day, minutes)

    def _look_back(self, tallying: _Tallying) -> None:
        """What is known only once the call is counted."""
        day = working_day(tallying.call.start, self._rules.day_turns, self._zone)
        self._worked_on[day] += tallying.worked
        if self._rules.long_day is not None and self._worked_on[day] > self._rules.long_day:
            tallying.flags.add("long-day")
        if has_short_meal(tallying.call.stretches):
            tallying.flags.add("short-meal")
