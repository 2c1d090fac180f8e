"""After the show: the hours and strikes of its units and what failed, all of it or none."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.db import transaction
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from shows.actions.arrival import Found, failure_facts
from shows.after import Night, UnitDay, nights_of
from shows.errors import EnteredAlready, NightChanged, UnitsRefused
from shows.models import Engagement
from shows.models.arrival import CheckResult
from shows.wording.after import entry_words
from venue.actions import add_hours, read_meter, report_fault
from venue.actions.locking import lock
from venue.errors import DomainError, Invalid
from venue.history import Actor, record
from venue.judging import require_done
from venue.models import Fault, Unit


@dataclass(frozen=True)
class Told:
    """What somebody tells of a unit: hours burned, or what its meter shows [h]; `strikes` in that time, or so far.

    `failed` is an item of the arrival check that the unit fails, told by `note`. `confirmed`: what is odd is right.
    """

    unit: Unit
    hours: Decimal | None = None
    meter_h: Decimal | None = None
    strikes: int | None = None
    confirmed: bool = False
    failed: str = ""
    note: str = ""
    frames_out: str = ""

    @property
    def has_hours(self) -> bool:
        return self.hours is not None or self.meter_h is not None


@dataclass(frozen=True)
class Stored:
    """How many units' hours were stored, and the faults that were opened."""

    units: int
    faults: tuple[Fault, ...]


@transaction.atomic
def enter_after(
    *, actor: Actor, engagement: Engagement, day: date, told: Sequence[Told], at: datetime, now: datetime
) -> Stored:
    """Enter what was burned at the show's events of a day, up to the instant, and open a fault for what failed.

    Raises UnitsRefused with all that is wrong by the unit, then nothing is stored; NightChanged where the units are
    not the day's; LiesAhead; Invalid for the instant, or where nothing is told; AlreadyEnded.
    """
    lock(Unit, [each.unit for each in told])
    night = next((night for night in nights_of(engagement, now) if night.day == day), None)
    if night is None:
        raise NightChanged
    there = {each.unit.pk: each for each in night.units}
    if any(each.unit.pk not in there for each in told):
        raise NightChanged
    _require_sense(night, told, at, engagement.house.time_zone)
    refusals, faults = _enter_all(actor, engagement, day, [(each, there[each.unit.pk]) for each in told], at)
    if refusals:
        raise UnitsRefused(refusals)
    units = [each.unit.tag for each in told if each.has_hours]
    if units:
        facts = {"show": engagement.name, "day": day.isoformat(), "units": ", ".join(units)}
        record(actor, "after.entered", engagement, house=engagement.house, **facts)
    return Stored(len(units), tuple(faults))


def _require_sense(night: Night, told: Sequence[Told], at: datetime, zone: str) -> None:
    if not any(each.has_hours or each.failed for each in told):
        raise Invalid({"__all__": [_("There is nothing to store. Write hours, a meter's reading, or what failed.")]})
    require_done(at, zone)
    if any(each.has_hours for each in told) and not night.span.covers(at):
        words = _("Write a time after the start of the day's last event that began, and before the house's next event.")
        raise Invalid({"at": [words]})


def _enter_all(
    actor: Actor, engagement: Engagement, day: date, told: Sequence[tuple[Told, UnitDay]], at: datetime
) -> tuple[dict[int, list[DomainError]], list[Fault]]:
    """Enter what can be; what was refused by the unit, and the faults that were opened."""
    refusals: dict[int, list[DomainError]] = defaultdict(list)
    faults: list[Fault] = []
    why = f"{engagement.name}, {date_format(day, 'M j, Y')}"
    for each, there in told:
        try:
            _enter_hours(actor, each, there, at, why)
        except DomainError as refusal:
            refusals[each.unit.pk].append(refusal)
        try:
            faults += _open_fault(actor, each, there, at)
        except DomainError as refusal:
            refusals[each.unit.pk].append(refusal)
    return dict(refusals), faults


def _enter_hours(actor: Actor, told: Told, there: UnitDay, at: datetime, why: str) -> None:
    """Enter what was told of the unit's hours, if nothing covers them yet. `why` says what they were burned for."""
    if not told.has_hours:
        return
    if there.is_entered:
        raise EnteredAlready(entry_words(there.entries[-1], there.unit.house.time_zone))
    facts = {"actor": actor, "unit": there.unit, "at": at, "strikes": told.strikes, "confirmed": told.confirmed}
    if told.meter_h is not None:
        read_meter(hours=told.meter_h, **facts)  # type: ignore[arg-type]
    elif told.hours is not None:
        add_hours(hours=told.hours, why=why, **facts)  # type: ignore[arg-type]


def _open_fault(actor: Actor, told: Told, there: UnitDay, at: datetime) -> list[Fault]:
    """The fault that is opened, none where nothing failed or the same stands already."""
    if not told.failed:
        return []
    facts = failure_facts(told.failed, Found(CheckResult.FAIL, told.note, told.frames_out))
    if any(fault.part == facts["part"] and fault.limit == facts["limit"] for fault in there.faults):
        return []
    return [report_fault(actor=actor, unit=there.unit, at=at, seen_by=actor.name, **facts)]
