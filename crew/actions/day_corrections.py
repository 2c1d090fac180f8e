"""Correcting what is written of somebody's day: the whole of it as a form shows it, the old values in the history."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise

from django.db import transaction
from django.utils.translation import gettext as _

from crew.actions.day import lock_day, require_day_of
from crew.day_rows import attendances_of, meals_of
from crew.models import Attendance, Call, CallLine, MealBreak
from venue.core.local_time import shown, wall_time
from venue.errors import Invalid
from venue.history import Actor, record
from venue.storing import end, store, store_version

Meal = tuple[datetime, datetime | None]


@dataclass(frozen=True)
class DayFacts:
    """All that is written of one person's day; `meals` in their order, an open one without an end."""

    in_at: datetime | None = None
    out_at: datetime | None = None
    absence: str = ""
    note: str = ""
    meals: tuple[Meal, ...] = ()

    @property
    def instants(self) -> list[datetime]:
        found = [self.in_at, self.out_at, *(edge for meal in self.meals for edge in meal)]
        return [instant for instant in found if instant is not None]


@transaction.atomic
def correct_day(*, actor: Actor, call: Call, line: CallLine, facts: DayFacts, seen: int, now: datetime) -> None:
    """The day is as given; `seen` is the version that was shown, 0 where nothing was written yet.

    Raises StaleVersion, LiesAhead, FarFromCall, Invalid.
    """
    for instant in facts.instants:
        require_day_of(call, instant, now)
    _check_times(facts)
    _check_meals(facts)
    lock_day(call)
    row = attendances_of(call).get(line.person_id or 0) or Attendance(line=line)
    was = facts_of(row)
    _take(row, facts, seen)
    _take_meals(row, facts.meals, now)
    if was == facts:
        return
    name = line.person.name if line.person else ""
    values = {"was": _words(was, call.zone), "now": _words(facts, call.zone)}
    record(actor, "day.corrected", row, house=call.engagement.house, name=name, show=call.engagement.name, **values)


def facts_of(row: Attendance | None) -> DayFacts:
    """What is written, of a row of `attendances_of`; nothing where there is none."""
    if row is None:
        return DayFacts()
    meals = tuple((meal.starts_at, meal.ends_at) for meal in meals_of(row))
    return DayFacts(row.in_at, row.out_at, row.absence, row.note, meals)


def _take(row: Attendance, facts: DayFacts, seen: int) -> None:
    row.in_at, row.out_at, row.absence, row.note = facts.in_at, facts.out_at, facts.absence, facts.note
    if row._state.adding:
        store(row)
    else:
        store_version(row, ("in_at", "out_at", "absence", "note"), seen)


def _take_meals(row: Attendance, wanted: Sequence[Meal], now: datetime) -> None:
    """Meals that are not wanted any more end as entered by mistake, before those that are new come."""
    standing = {(meal.starts_at, meal.ends_at): meal for meal in meals_of(row)}
    for meal in (meal for key, meal in standing.items() if key not in wanted):
        meal.ends_at = meal.starts_at
        end(meal, at=now, reason=_("corrected"), also=("ends_at",))
    for starts, ends in (key for key in wanted if key not in standing):
        store(MealBreak(attendance=row, starts_at=starts, ends_at=ends))


def _check_times(facts: DayFacts) -> None:
    """Raise Invalid where somebody left without coming, or no later than that."""
    if facts.out_at is not None and (facts.in_at is None or facts.out_at <= facts.in_at):
        raise Invalid({"out_at": [_("The time out is not after the time in. Write a later one, or the time in.")]})


def _check_meals(facts: DayFacts) -> None:
    """Raise Invalid unless each meal has a length, lies within the day, and overlaps no other."""
    problems = []
    if any(ends is not None and ends <= starts for starts, ends in facts.meals):
        problems.append(_("The meal ends before it starts. Write a later end."))
    if any(_is_outside(meal, facts) for meal in facts.meals):
        problems.append(_("A meal lies between the times in and out."))
    if any(one[1] is None or other[0] < one[1] for one, other in pairwise(sorted(facts.meals, key=_starts))):
        problems.append(_("Two meals overlap. Write other times."))
    if problems:
        raise Invalid({"meals": problems})


def _is_outside(meal: Meal, facts: DayFacts) -> bool:
    starts, ends = meal
    if facts.in_at is None or starts < facts.in_at:
        return True
    return facts.out_at is not None and (ends is None or ends > facts.out_at)


def _starts(meal: Meal) -> datetime:
    return meal[0]


def _words(facts: DayFacts, zone: str) -> str:
    """ "2026-03-03 18:31 – 23:02 (20:00 – 20:30)": times alone, in no language."""
    if facts.in_at is None:
        return facts.absence or "–"
    day = shown(facts.in_at, zone)
    meals = ", ".join(f"{_clock(starts, zone)} – {_clock(ends, zone)}" for starts, ends in facts.meals)
    told = f"{day} – {_clock(facts.out_at, zone)}" + (f" ({meals})" if meals else "")
    return f"{told}, {facts.absence}" if facts.absence else told


def _clock(instant: datetime | None, zone: str) -> str:
    return f"{wall_time(instant, zone):%H:%M}" if instant else "…"
