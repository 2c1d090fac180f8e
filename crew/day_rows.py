"""The people of a call as they stand on its day, in a fixed number of queries.

A day is a person's, not a line's: whoever changes from one number to another stays signed in.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Prefetch

from crew.core.day import Presence, presence
from crew.models import Attendance, Call, CallLine, MealBreak


@dataclass(frozen=True)
class DayRow:
    """Somebody on the call: the line that stands, or the last one; the own call time; what is written of the day."""

    line: CallLine
    call_at: datetime
    attendance: Attendance | None
    meals: tuple[MealBreak, ...]
    presence: Presence

    @property
    def name(self) -> str:
        return self.line.person.name if self.line.person else ""

    @property
    def in_at(self) -> datetime | None:
        return self.attendance.in_at if self.attendance else None

    @property
    def out_at(self) -> datetime | None:
        return self.attendance.out_at if self.attendance else None

    @property
    def is_open(self) -> bool:
        """Whether something is still to happen: neither gone nor marked as not come."""
        return self.presence.state in {"expected", "in", "meal"}


def day_rows(call: Call, now: datetime) -> list[DayRow]:
    """Everybody who is on the call, by number; behind them whoever is on it no more but was there, or did not come."""
    written = attendances_of(call)
    standing: list[CallLine] = []
    gone: dict[int, CallLine] = {}
    for line in call.lines.filter(person__isnull=False).select_related("person").order_by("sort_key", "seat", "pk"):
        if not line.has_ended:
            standing.append(line)
        elif line.person_id in written:
            gone[line.person_id] = line  # type: ignore[index]
    standing.sort(key=lambda line: not line.number_key)  # those with a number first, each in its order
    here = {line.person_id for line in standing}
    lines = [*standing, *(line for person, line in gone.items() if person not in here)]
    return [_row(call, line, written.get(line.person_id or 0), now) for line in lines]


def attendances_of(call: Call) -> Mapping[int, Attendance]:
    """What is written of the day, by person, each with its standing meals as `meals_taken`."""
    meals = Prefetch("meals", MealBreak.objects.standing(), to_attr="meals_taken")
    rows = Attendance.objects.filter(line__call=call).select_related("line__person").prefetch_related(meals)
    return {row.line.person_id: row for row in rows.order_by("pk")}  # type: ignore[misc]


def meals_of(row: Attendance | None) -> tuple[MealBreak, ...]:
    """The standing meals of a row of `attendances_of`, in their order; a row not stored yet has none."""
    return tuple(getattr(row, "meals_taken", ()))


def _row(call: Call, line: CallLine, row: Attendance | None, now: datetime) -> DayRow:
    call_at, meals = line.own_at or call.call_at, meals_of(row)
    stands = presence(
        call_at=call_at,
        in_at=row.in_at if row else None,
        out_at=row.out_at if row else None,
        is_at_meal=any(meal.ends_at is None for meal in meals),
        absence=row.absence if row else "",
        now=now,
        late_after=call.roster.late_after_min,
    )
    return DayRow(line, call_at, row, meals, stands)
