"""What the pages of a call's day show of its people, and where they lead."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from urllib.parse import urlencode

from django.urls import reverse

from crew.core.call_sheet import CallSheet, SheetLine
from crew.day_rows import DayRow
from crew.hour_rows import attended_day, meal_due, rules_of
from crew.models import Call
from crew.rule_book import RuleBook
from crew.sheet_content import draft_of
from crew.wording.day import clock_words, late_words, meal_words, state_words, times_words
from venue.core.labels import label_key
from venue.core.local_time import shown
from venue.models import Event
from venue.wording import event_sentence


@dataclass(frozen=True)
class Meal:
    """The next meal of somebody who is here, in words."""

    words: str
    is_overdue: bool


NO_MEALS: Mapping[int, Meal] = {}


@dataclass(frozen=True)
class ShownRow:
    """Somebody on the page, in words: label, own call time, what is written; `another` finds a substitute.

    `meal` is there where one is due.
    """

    row: DayRow
    label: str
    position: str
    call: str
    state: str
    late: str
    times: tuple[str, ...]
    another: str
    meal: Meal | None = None

    @property
    def is_off(self) -> bool:
        """Whether the person is on the call no more."""
        return self.row.line.has_ended


def shown_rows(
    call: Call, rows: Sequence[DayRow], sheet: CallSheet | None = None, meals: Mapping[int, Meal] = NO_MEALS
) -> list[ShownRow]:
    """The rows in words, house labels from the sheet: by default as it would be issued now."""
    lines = (sheet or draft_of(call).sheet).lines
    lights = {(label_key(light.number), light.seat): light for light in lines}
    return [
        _shown(call, row, lights.get((row.line.number_key, row.line.seat)), meals.get(row.line.person_id or 0))
        for row in rows
    ]


def _shown(call: Call, row: DayRow, light: SheetLine | None, meal: Meal | None) -> ShownRow:
    return ShownRow(
        row=row,
        label=light.label if light else "",
        position=light.position if light else "",
        call=clock_words(row.call_at, call.zone, call.call_date),
        state=state_words(row.presence),
        late=late_words(row.presence),
        times=tuple(times_words(row, call.zone, call.call_date)),
        another=address_for_another(call, row),
        meal=meal,
    )


def meals_due(call: Call, rows: Iterable[DayRow], book: RuleBook, now: datetime) -> dict[int, Meal]:
    """By person, when each who is at work is due a meal by the rules in force; nobody where no rule asks for one."""
    here = (row for row in rows if row.presence.state == "in")
    return {row.line.person_id: meal for row in here if (meal := _meal(call, row, book, now))}  # type: ignore[misc]


def _meal(call: Call, row: DayRow, book: RuleBook, now: datetime) -> Meal | None:
    assert row.attendance is not None
    day = attended_day(row.attendance, call, row.call_at)
    due = meal_due(day, rules_of(day, book))
    return None if due is None else Meal(meal_words(due, now, call.zone, call.call_date), now >= due)


def address_for_another(call: Call, row: DayRow) -> str:
    """Where somebody else is found for who is late and not gone, or did not come; nothing for all others."""
    is_to_replace = row.presence.state == "no-show" or (row.is_open and row.presence.late_min)
    if row.line.has_ended or not is_to_replace:
        return ""
    seat = urlencode({"number": row.line.number_key, "seat": row.line.seat})
    return f"{reverse('crew:line_who', args=[call.ref])}?{seat}"


def to_fill(call: Call) -> int:
    """How many lines nobody is on."""
    return call.lines.standing().filter(person__isnull=True).count()


def day_history(row: DayRow, zone: str) -> list[str]:
    """What was written of the person's day, the latest first."""
    if row.attendance is None:
        return []
    lines: Iterable[Event] = Event.objects.about("attendance", row.attendance.ref).order_by("-pk")[:50]
    return [f"{shown(line.at, zone)} · {line.actor_name} {event_sentence(line)}" for line in lines]
