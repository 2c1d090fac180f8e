"""The day of a call: in, out, meals, who did not come, and corrections.

Each verb locks the call first, so that its attendances and meals have one writer at a time. Times are whole minutes.
A verb for several leaves out those to whom it can't apply and says why; where it applies to nobody it is refused.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from django.db import transaction

from crew.actions.filling import put_at_spot_talk
from crew.core.day import is_far
from crew.day_rows import attendances_of, meals_of
from crew.errors import FarFromCall, NobodyMarked
from crew.models import Attendance, Call, CallLine, MealBreak, Person
from crew.models.day import Absence
from venue.core.local_time import shown
from venue.errors import LiesAhead
from venue.history import Actor, record
from venue.storing import store

Left = tuple[str, str]
"""A name, and the code of why a verb did not apply: a key of `crew.wording.left`."""


@dataclass
class Marked:
    """To whom a verb applied, by name, and whom it left out."""

    done: list[str] = field(default_factory=list)
    left: list[Left] = field(default_factory=list)


Act = Callable[[Attendance], str]
"""Changes the row, not stored yet; the code of what forbids it, or nothing."""


@transaction.atomic
def sign_in(*, actor: Actor, call: Call, lines: Sequence[CallLine], at: datetime, now: datetime) -> Marked:
    """These came. Raises NobodyMarked, LiesAhead, FarFromCall, Invalid."""

    def come(row: Attendance) -> str:
        if row.absence or row.in_at is not None:
            return "absent" if row.absence == Absence.NO_SHOW else "in-already"
        row.in_at = at
        return ""

    return _mark(actor, call, lines, now, "day.in", come, at=at)


@transaction.atomic
def sign_out(
    *,
    actor: Actor,
    call: Call,
    lines: Sequence[CallLine],
    at: datetime,
    now: datetime,
    home: bool = False,
    note: str = "",
) -> Marked:
    """These left; `home` says that they were sent home. Raises as `sign_in`."""

    def leave(row: Attendance) -> str:
        why = _not_here(row) or _not_after(row, at)
        if not why:
            row.out_at = at
            row.absence, row.note = (Absence.SENT_HOME, note) if home else (row.absence, row.note)
        return why

    return _mark(actor, call, lines, now, "day.sent_home" if home else "day.out", leave, at=at)


@transaction.atomic
def begin_meal(*, actor: Actor, call: Call, lines: Sequence[CallLine], at: datetime, now: datetime) -> Marked:
    """These went to a meal. Raises as `sign_in`."""

    def go(row: Attendance) -> str:
        why = _not_here(row) or _meal_problem(row, at, None)
        if not why:
            store(MealBreak(attendance=row, starts_at=at))
        return why

    return _mark(actor, call, lines, now, "day.meal_began", go, at=at)


@transaction.atomic
def end_meal(*, actor: Actor, call: Call, lines: Sequence[CallLine], at: datetime, now: datetime) -> Marked:
    """These came back from a meal. Raises as `sign_in`."""

    def come_back(row: Attendance) -> str:
        meal = _open_meal(row)
        if meal is None or at <= meal.starts_at:
            return "no-meal" if meal is None else "meal-not-after"
        meal.ends_at = at
        store(meal)
        return ""

    return _mark(actor, call, lines, now, "day.meal_over", come_back, at=at)


@transaction.atomic
def add_meal(
    *, actor: Actor, call: Call, lines: Sequence[CallLine], starts: datetime, ends: datetime, now: datetime
) -> Marked:
    """These had a meal from one instant to another. Raises as `sign_in`."""

    def eat(row: Attendance) -> str:
        why = ("not-in" if row.in_at is None else "") or _meal_problem(row, starts, ends)
        if not why:
            store(MealBreak(attendance=row, starts_at=starts, ends_at=ends))
        return why

    return _mark(actor, call, lines, now, "day.meal", eat, starts=starts, ends=ends)


@transaction.atomic
def mark_not_come(*, actor: Actor, call: Call, lines: Sequence[CallLine], now: datetime, note: str = "") -> Marked:
    """These did not come. Raises NobodyMarked, Invalid."""

    def miss(row: Attendance) -> str:
        if row.absence or row.in_at is not None:
            return "absent" if row.absence == Absence.NO_SHOW else "in-already"
        row.absence, row.note = Absence.NO_SHOW, note
        return ""

    return _mark(actor, call, lines, now, "day.not_come", miss)


@transaction.atomic
def add_extra_hand(
    *, actor: Actor, call: Call, person: Person, at: datetime | None, now: datetime, reason: str = ""
) -> CallLine:
    """Somebody more on the call, without a number; in at `at` if given. Raises as `put_at_spot_talk` and `sign_in`.

    After the call time they are called from when they came, else from now; no later than the expected end.
    """
    called_at = min(at or now, call.ends_at)
    own = {"called_at": called_at} if called_at > call.call_at else {}
    line = put_at_spot_talk(actor=actor, call=call, person=person, at=now, reason=reason, **own)
    if at is not None:
        sign_in(actor=actor, call=call, lines=[line], at=at, now=now)
    return line


def require_day_of(call: Call, at: datetime, now: datetime) -> None:
    """Raise LiesAhead or FarFromCall unless the instant can be one of the call's day."""
    if at > now:
        raise LiesAhead(at, call.zone)
    if is_far(at, call.call_at):
        raise FarFromCall(at, call.call_at, call.zone)


def lock_day(call: Call) -> None:
    """Nobody else writes anything of the call's day until the transaction ends."""
    Call._base_manager.select_for_update().get(pk=call.pk)


def _mark(
    actor: Actor, call: Call, lines: Sequence[CallLine], now: datetime, verb: str, act: Act, **times: datetime
) -> Marked:
    """Apply the verb to everybody on the lines, with a line of history each."""
    for at in times.values():
        require_day_of(call, at, now)
    lock_day(call)
    written, marked = dict(attendances_of(call)), Marked()
    told = {name: shown(at, call.zone) for name, at in times.items()}
    for line in lines:
        assert line.person is not None
        row = written.setdefault(line.person_id or 0, Attendance(line=line))
        if why := act(row):
            marked.left.append((line.person.name, why))
            continue
        store(row)
        marked.done.append(line.person.name)
        facts = {"name": line.person.name, "show": call.engagement.name, **told}
        record(actor, verb, row, house=call.engagement.house, **facts)
    if not marked.done:
        raise NobodyMarked(marked.left)
    return marked


def _not_here(row: Attendance) -> str:
    """Why somebody can neither leave nor go to a meal."""
    if row.in_at is None:
        return "not-in"
    if row.out_at is not None:
        return "out-already"
    return "at-meal" if _open_meal(row) else ""


def _open_meal(row: Attendance) -> MealBreak | None:
    return next((meal for meal in meals_of(row) if meal.ends_at is None), None)


def _not_after(row: Attendance, at: datetime) -> str:
    """Whether somebody would leave before coming, or before the end of a meal."""
    is_before_meal = any(meal.ends_at and at < meal.ends_at for meal in meals_of(row))
    return "not-after" if is_before_meal or (row.in_at and at <= row.in_at) else ""


def _meal_problem(row: Attendance, starts: datetime, ends: datetime | None) -> str:
    """Why a meal can't have been then; one without an end is going on."""
    if ends is not None and ends <= starts:
        return "meal-not-after"
    left = row.out_at
    if row.in_at is None or starts < row.in_at or (left is not None and (ends or left) > left):
        return "meal-outside"
    taken = ((meal.starts_at, meal.ends_at) for meal in meals_of(row))
    clash = any((end is None or starts < end) and (ends is None or start < ends) for start, end in taken)
    return "meal-taken" if clash else ""
