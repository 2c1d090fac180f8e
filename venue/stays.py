"""Where units were, are and will be."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.db.models import OuterRef, Q, QuerySet, Subquery

from venue.core.local_time import house_day_starts
from venue.models import House, Placement, Unit

MOST_SHOWN = 20


@dataclass(frozen=True)
class UnitStays:
    """One unit's stays: where it is (None: nowhere), where it will be, where it was, the last first.

    `mark` is `stays_mark`; `are_more` whether it has more past stays than are here.
    """

    now: Placement | None
    ahead: tuple[Placement, ...]
    past: tuple[Placement, ...]
    are_more: bool
    mark: str


@dataclass(frozen=True)
class Whereabouts:
    """Where a unit was on one house day: its stays of that day in order, the one before and the one after."""

    unit: Unit
    stays: tuple[Placement, ...]
    before: Placement | None
    after: Placement | None


def stays_of(unit: Unit, now: datetime, most: int = MOST_SHOWN) -> UnitStays:
    """The unit's stays, the past ones as far as `most`. Three queries."""
    rows = unit.placements.real().select_related("place__position")
    standing = list(rows.not_over_by(now).order_by("starts_at"))
    past = list(rows.filter(ends_at__lte=now).order_by("-starts_at", "-pk")[: most + 1])
    for stay in (*standing, *past):
        stay.unit = unit
    return UnitStays(
        now=next((stay for stay in standing if stay.starts_at <= now), None),
        ahead=tuple(stay for stay in standing if stay.starts_at > now),
        past=tuple(past[:most]),
        are_more=len(past) > most,
        mark=stays_mark(unit),
    )


def last_stays(unit_keys: Iterable[int], before: datetime) -> dict[int, Placement]:
    """The last stay of each unit that was over by the instant, by the unit's key. Two queries."""
    own = Placement.objects.real().filter(unit=OuterRef("pk"), ends_at__lte=before)
    last = own.order_by("-ends_at", "-pk").values("pk")[:1]
    keys = Unit.objects.filter(pk__in=list(unit_keys)).order_by().annotate(last=Subquery(last)).values_list("last")
    rows = Placement.objects.select_related("place__position").filter(pk__in=[key for (key,) in keys if key])
    return {stay.unit_id: stay for stay in rows}


def stays_mark(unit: Unit) -> str:
    """What changes with every change to the unit's stays: a form about a move carries it."""
    last = unit.placements.order_by("-pk").values_list("pk", flat=True).first()
    versions = sum(unit.placements.values_list("version", flat=True))
    return f"{last or 0}-{versions}"


def house_day_span(house: House, day: date) -> tuple[datetime, datetime]:
    """From when until when the house's day lasts."""
    turns_at, zone = house.day_turns_at, house.time_zone
    return house_day_starts(day, zone, turns_at), house_day_starts(day + timedelta(days=1), zone, turns_at)


def units_known_on(house: House, start: datetime) -> QuerySet[Unit]:
    """The units that were not off the books before the instant."""
    return house.units.filter(Q(ended_at__isnull=True) | Q(ended_at__gt=start))


def whereabouts(units: Iterable[Unit], start: datetime, end: datetime) -> list[Whereabouts]:
    """Where each unit was from start to end. Two queries, however many units."""
    shown = {unit.pk: unit for unit in units}
    aside = _beside(list(shown), start, end)
    wanted = {pk for pair in aside.values() for pk in pair if pk}
    during = Q(starts_at__lt=end) & (Q(ends_at__isnull=True) | Q(ends_at__gt=start))
    rows = Placement.objects.real().filter(during | Q(pk__in=wanted), unit__in=shown)
    by_unit: dict[int, list[Placement]] = {pk: [] for pk in shown}
    for stay in rows.select_related("place__position").order_by("starts_at", "pk"):
        stay.unit = shown[stay.unit_id]
        by_unit[stay.unit_id].append(stay)
    return [_of_unit(shown[pk], stays, aside.get(pk, (None, None))) for pk, stays in by_unit.items()]


def _beside(units: Sequence[int], start: datetime, end: datetime) -> dict[int, tuple[int | None, int | None]]:
    """For each unit the keys of its last stay before and of its first one after."""
    own = Placement.objects.real().filter(unit=OuterRef("pk"))
    before = own.filter(ends_at__lte=start).order_by("-ends_at", "-pk").values("pk")[:1]
    after = own.filter(starts_at__gte=end).order_by("starts_at", "pk").values("pk")[:1]
    rows = Unit.objects.filter(pk__in=units).order_by().annotate(before=Subquery(before), after=Subquery(after))
    return {pk: (first, last) for pk, first, last in rows.values_list("pk", "before", "after")}


def _of_unit(unit: Unit, stays: Sequence[Placement], aside: tuple[int | None, int | None]) -> Whereabouts:
    by_key = {stay.pk: stay for stay in stays}
    before, after = (by_key.get(key) if key else None for key in aside)
    return Whereabouts(unit, tuple(stay for stay in stays if stay.pk not in aside), before, after)
