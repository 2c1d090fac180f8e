"""Care items: one for each care plan and each unit that it covers, with the date on which care falls due.

An item follows from its plan, from when it was done last and from the unit's hours; `settle` derives it anew
whenever one of these changes.
"""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta
from decimal import Decimal

from django.db.models import QuerySet
from django.utils import timezone

from venue.core.care import SOON_DAYS, Due, DueState, due
from venue.core.local_time import wall_time
from venue.core.names import name_key
from venue.core.sources import source_of
from venue.models import CareItem, CarePlan, House, Unit, UnitTally
from venue.models.upkeep import Covers
from venue.use import use_of

DERIVED = ("due_on", "due_h")


def settle(unit: Unit, now: datetime | None = None) -> None:
    """Make, end and date the unit's items, inside the caller's transaction; the number of queries is constant."""
    items = CareItem.objects.standing().filter(unit=unit)
    _settle(unit.house, [unit], items, [], now or timezone.now())


def settle_house(house: House, now: datetime | None = None) -> None:
    """Make, end and date every item of the house, those of accessories too."""
    items = CareItem.objects.standing().filter(house=house)
    accessories = house.care_plans.standing().filter(covers=Covers.ACCESSORY)
    _settle(house, list(house.units.standing()), items, list(accessories), now or timezone.now())


def _settle(
    house: House, units: Sequence[Unit], items: QuerySet[CareItem], accessories: Sequence[CarePlan], now: datetime
) -> None:
    plans = list(house.care_plans.standing().exclude(covers=Covers.ACCESSORY))
    every: dict[tuple[int, int | None], tuple[CarePlan, Unit | None]] = {
        (plan.pk, unit.pk): (plan, unit) for plan in plans for unit in units if does_cover(plan, unit)
    }
    every |= {(plan.pk, None): (plan, None) for plan in accessories}
    there = {(item.plan_id, item.unit_id): item for item in items.select_related("plan")}
    over = [item.pk for key, item in there.items() if key not in every]
    if over:
        CareItem.objects.filter(pk__in=over).update(ended_at=now)
    new = [CareItem(plan=plan, house=house, unit=unit) for key, (plan, unit) in every.items() if key not in there]
    stay = [item for key, item in there.items() if key in every]
    changed = _dated(house, [*new, *stay], now)
    CareItem.objects.bulk_update([item for item in changed if not item._state.adding], DERIVED)
    CareItem.objects.bulk_create(new)


def does_cover(plan: CarePlan, unit: Unit) -> bool:
    """Whether the plan is for the unit, which may have ended."""
    if unit.has_ended:
        return False
    if plan.covers == Covers.SOURCE:
        return is_same_source(plan.source, unit.source)
    return plan.covers == Covers.ALL or (plan.covers == Covers.UNIT and plan.unit_id == unit.pk)


def is_same_source(one: str, other: str) -> bool:
    """Whether two texts name one light source, in whatever words."""
    known = source_of(one)
    return known == source_of(other) if known else name_key(one) == name_key(other)


def _dated(house: House, items: Sequence[CareItem], now: datetime) -> list[CareItem]:
    """Give each item its dates; those that were changed."""
    ids = {item.unit_id for item in items if item.unit_id and item.plan.every_h is not None}
    per_day = use_of(house, ids, now) if ids else {}
    hours = hours_of(ids) if ids else {}
    changed = []
    for item in items:
        found = due_of(item, hours.get(item.unit_id or 0), per_day.get(item.unit_id or 0), now, house.time_zone)
        if (item.due_on, item.due_h) != (found.on, found.at_h):
            item.due_on, item.due_h = found.on, found.at_h
            changed.append(item)
    return changed


def hours_of(unit_ids: Iterable[int]) -> dict[int, Decimal]:
    """The unit hours of each unit that has some on file."""
    return dict(UnitTally.objects.filter(unit__in=set(unit_ids)).values_list("unit_id", "hours"))


def due_of(item: CareItem, hours: Decimal | None, per_day: float | None, now: datetime, zone: str) -> Due:
    """When the item is due, by the unit's hours and its use."""
    plan = item.plan
    done_at, done_h = item.last_done_at, item.last_done_h
    return due(plan.every_h, plan.every_days, done_at, done_h, hours, per_day, now, zone)


def state_of(item: CareItem, hours: Decimal | None, now: datetime, zone: str) -> DueState:
    """How pressing the item is now: by days and hours that went by, then by the date that was foretold.

    A foretold date that passes makes it due, never overdue: only hours that were read do.
    """
    state = due_of(item, hours, None, now, zone).state
    if item.due_on is None or state in ("overdue", "due"):
        return state
    return _by_date(state, item.due_on, wall_time(now, zone).date())


def is_foretold(item: CareItem) -> bool:
    """Whether the date follows from use: the item's days, where it has some, end on another one."""
    if item.due_h is None or item.last_done_at is None or item.due_on is None:
        return False
    days = item.plan.every_days
    return days is None or item.due_on != _last_day(item, days)


def _last_day(item: CareItem, days: int) -> date:
    assert item.last_done_at is not None
    return wall_time(item.last_done_at, item.house.time_zone).date() + timedelta(days=days)


def _by_date(state: DueState, due_on: date, today: date) -> DueState:
    if due_on <= today:
        return "due"
    return "soon" if state == "soon" or (due_on - today).days <= SOON_DAYS else "later"
