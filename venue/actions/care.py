"""Care: plans made, changed, ended; what is due recorded as done with one tap, and taken back."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from venue.actions.editing import change
from venue.actions.locking import lock
from venue.care import due_of, hours_of, settle_house
from venue.errors import AlreadyDone
from venue.history import Actor, record
from venue.models import CareItem, CarePlan, House, LogEntry, Unit
from venue.storing import end, store
from venue.use import use_of


@transaction.atomic
def add_care_plan(*, actor: Actor, house: House, what: str, covers: str, at: datetime, **facts: Any) -> CarePlan:
    """A plan, due at once for everything that it covers. Raises Invalid."""
    plan = store(CarePlan(house=house, what=what, covers=covers, **facts))
    settle_house(house, at)
    record(actor, "careplan.added", plan, house=house, what=what)
    return plan


@transaction.atomic
def change_care_plan(*, actor: Actor, plan: CarePlan, seen: int, values: Mapping[str, Any], at: datetime) -> None:
    """Change a plan; what was done stays done. Raises StaleVersion, Invalid."""
    change(actor=actor, row=plan, house=plan.house, seen=seen, values=values)
    settle_house(plan.house, at)


@transaction.atomic
def end_care_plan(*, actor: Actor, plan: CarePlan, at: datetime, reason: str) -> None:
    """Nothing is due by the plan any more. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(plan, at=at, reason=reason)
    settle_house(plan.house, at)
    record(actor, "careplan.ended", plan, house=plan.house, what=plan.what, reason=reason)


@transaction.atomic
def care_done(*, actor: Actor, item: CareItem, at: datetime, by: str = "", text: str = "") -> LogEntry:
    """The care was done: a log entry, and hours and days begin anew. Raises AlreadyDone if somebody was faster."""
    if item.unit is not None:
        lock(Unit, [item.unit])
    item = CareItem.objects.select_for_update(of=("self",)).select_related("plan", "unit", "house").get(pk=item.pk)
    if item.ended_at is not None:
        raise AlreadyDone(item)
    hours = hours_of([item.unit_id]).get(item.unit_id) if item.unit_id else None
    entry = store(_entry(actor, item, at, by, text))
    item.ended_at = at
    item.save(update_fields=["ended_at"])
    after = CareItem(plan=item.plan, house=item.house, unit=item.unit, entry=entry)
    after.last_done_at, after.last_done_h = at, hours
    _date(after)
    after.save()
    about = item.unit.tag if item.unit is not None else item.plan.accessory
    record(actor, "care.done", after, house=item.house, what=item.plan.what, about=about)
    return entry


def _entry(actor: Actor, item: CareItem, at: datetime, by: str, text: str) -> LogEntry:
    return LogEntry(
        house=item.house,
        unit=item.unit,
        accessory="" if item.unit is not None else item.plan.accessory,
        kind=item.plan.log_kind,
        at=at,
        by=by or actor.name,
        text=text or item.plan.what,
        entered_by=actor.name,
    )


def _date(item: CareItem) -> None:
    now, ids = timezone.now(), [item.unit_id] if item.unit_id else []
    hours, per_day = hours_of(ids), use_of(item.house, ids, now)
    found = due_of(item, hours.get(item.unit_id or 0), per_day.get(item.unit_id or 0), now, item.house.time_zone)
    item.due_on, item.due_h = found.on, found.at_h


def undo_done(entry: LogEntry, at: datetime) -> None:
    """The entry was struck out: what it recorded as done falls due as it did before, unless it was done again since.

    Inside the caller's transaction.
    """
    item = CareItem.objects.standing().filter(entry=entry).select_related("plan", "unit", "house").first()
    if item is None:
        return
    before = CareItem.objects.filter(Q(entry__isnull=True) | Q(entry__struck_at__isnull=True), plan=item.plan)
    before = before.filter(unit=item.unit, ended_at__isnull=False)
    earlier = before.select_related("plan", "unit", "house").order_by("-ended_at", "-pk").first()
    item.ended_at = at
    item.save(update_fields=["ended_at"])
    again = CareItem(plan=item.plan, house=item.house, unit=item.unit)
    if earlier is not None:
        again.last_done_at, again.last_done_h = earlier.last_done_at, earlier.last_done_h
        again.entry = earlier.entry
    _date(again)
    again.save()
