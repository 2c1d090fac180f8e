"""What meters showed, and hours added where none counts: entered, undone, struck out with a reason.

Nothing depends on the order of entry: a late reading slots into its place, and the tallies are derived anew.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta
from decimal import Decimal

from django.db import transaction
from django.db.models import Q, QuerySet
from django.utils.translation import gettext as _

from venue.actions.locking import lock
from venue.actions.meters import enter_reading, write_reading
from venue.core.hours import Mark
from venue.errors import (
    AddedBesideMeter,
    AlreadyStruck,
    Invalid,
    PointedAt,
    TooLateToUndo,
)
from venue.history import Actor, record
from venue.judging import find_meter, last_before, meter_at, require_addable, require_done, require_sound
from venue.models import Fitting, HoursAdded, Meter, Reading, Unit
from venue.models.meters import Cause
from venue.storing import store
from venue.tallies import retally
from venue.wording_hours import hours_words

UNDO_WITHIN = timedelta(hours=1)
A_MOMENT = timedelta(microseconds=1)


@transaction.atomic
def read_meter(
    *,
    actor: Actor,
    unit: Unit,
    at: datetime,
    hours: Decimal,
    strikes: int | None = None,
    cause: str = Cause.FORM,
    confirmed: bool = False,
) -> Reading:
    """What the unit's meter showed at an instant, now or earlier.

    Raises ReadingRefused if that can't be beside the readings before and after it, ReadingQuestioned if it is
    odd and not `confirmed`; NoMeter, LiesAhead, AlreadyEnded, Invalid.
    """
    lock(Unit, [unit])
    require_done(at, unit.house.time_zone)
    meter = meter_at(unit, at)
    require_sound(meter, Mark(at, hours, strikes), confirmed=confirmed, zone=unit.house.time_zone)
    reading = enter_reading(actor, meter, Mark(at, hours, strikes), cause)
    record(actor, "reading.taken", reading, house=unit.house, tag=unit.tag, shows=hours_words(hours), at=at)
    retally(unit)
    return reading


@transaction.atomic
def add_hours(
    *,
    actor: Actor,
    unit: Unit,
    at: datetime,
    hours: Decimal,
    strikes: int | None = None,
    why: str = "",
    confirmed: bool = False,
) -> HoursAdded:
    """Hours that the unit burned up to the instant without a meter that told them.

    Raises ReadingRefused if they are more than the clock allows since the last entry; unless `confirmed`,
    ReadingQuestioned if they are many and AddedBesideMeter if a meter counts then; LiesAhead, AlreadyEnded,
    Invalid.
    """
    lock(Unit, [unit])
    require_done(at, unit.house.time_zone)
    _require_addable(unit, at, hours, strikes, confirmed)
    added = HoursAdded(unit=unit, at=at, hours=hours, strikes=strikes, why=why, entered_by=actor.name)
    store(added)
    record(actor, "hours.added", added, house=unit.house, tag=unit.tag, hours=hours_words(hours), at=at)
    retally(unit)
    return added


def _require_addable(unit: Unit, at: datetime, hours: Decimal, strikes: int | None, confirmed: bool) -> None:
    meter, zone = find_meter(unit, at), unit.house.time_zone
    if meter is not None and not confirmed:
        raise AddedBesideMeter(unit)
    require_addable(_known_until(unit, meter, at), at, hours, strikes, confirmed=confirmed, zone=zone)


def _known_until(unit: Unit, meter: Meter | None, at: datetime) -> datetime | None:
    """Up to when the unit's hours are known before the instant; None: since nobody knows when."""
    added = HoursAdded.objects.counting().filter(unit=unit, at__lte=at).last()
    over = unit.meters.filter(ends_at__lte=at).order_by("ends_at").last()
    known = [None if added is None else added.at, None if over is None else over.ends_at]
    known.append(None if meter is None else last_before(meter, at - A_MOMENT).at)
    return max((instant for instant in known if instant is not None), default=None)


@transaction.atomic
def strike_reading(
    *, actor: Actor, reading: Reading, at: datetime, reason: str, instead_h: Decimal | None = None
) -> Reading | None:
    """The reading was a mistake: it counts no more and stays in the book with the reason.

    `instead_h` is what the meter showed, as a reading in its place, which is returned and which relamps go by
    from then on. Raises PointedAt if a relamp goes by the reading and nothing takes its place, ReadingRefused,
    AlreadyStruck, Invalid without a reason, AlreadyEnded.
    """
    unit = reading.meter.unit
    lock(Unit, [unit])
    pointing = list(_pointing(reading))
    if pointing and instead_h is None:
        raise PointedAt(reading, pointing[0])
    _strike(actor, reading, at, reason)
    instead = None
    if instead_h is not None:
        mark = Mark(reading.at, instead_h, reading.strikes)
        instead = write_reading(actor, reading.meter, mark, reading.cause, confirmed=True)
        _point(pointing, reading, instead)
    facts = {"shows": hours_words(reading.hours), "instead": hours_words(instead_h), "reason": reason}
    verb = "reading.struck" if instead is None else "reading.corrected"
    record(actor, verb, reading, house=unit.house, tag=unit.tag, **facts)
    retally(unit)
    return instead


@transaction.atomic
def strike_hours(*, actor: Actor, added: HoursAdded, at: datetime, reason: str) -> None:
    """The hours were a mistake: they count no more. Raises AlreadyStruck, Invalid without a reason, AlreadyEnded."""
    lock(Unit, [added.unit])
    _strike(actor, added, at, reason)
    unit, facts = added.unit, {"hours": hours_words(added.hours), "reason": reason}
    record(actor, "hours.struck", added, house=unit.house, tag=unit.tag, **facts)
    retally(unit)


@transaction.atomic
def undo_entry(*, actor: Actor, entry: Reading | HoursAdded, now: datetime) -> None:
    """Take back the entry just made. Raises TooLateToUndo if it is not the actor's own last one, AlreadyStruck."""
    unit = entry.unit if isinstance(entry, HoursAdded) else entry.meter.unit
    lock(Unit, [unit])
    if not may_undo(entry, unit, actor.name, now):
        raise TooLateToUndo
    _strike(actor, entry, now, _("taken back at once"))
    verb = "hours.undone" if isinstance(entry, HoursAdded) else "reading.undone"
    record(actor, verb, entry, house=unit.house, tag=unit.tag, shows=hours_words(entry.hours))
    retally(unit)


def may_undo(entry: Reading | HoursAdded, unit: Unit, name: str, now: datetime) -> bool:
    """Whether the entry is the last one for the unit, made by this person within the hour, and nothing goes by it."""
    if entry.entered_by != name or now - entry.entered_at > UNDO_WITHIN:
        return False
    if isinstance(entry, Reading) and _pointing(entry).exists():
        return False
    since = {"entered_at__gt": entry.entered_at, "struck_at__isnull": True}
    later = Reading.objects.filter(meter__unit=unit, **since)
    return not (later.exists() or HoursAdded.objects.filter(unit=unit, **since).exists())


def _pointing(reading: Reading) -> "QuerySet[Fitting]":
    rows = Fitting.objects.real().filter(Q(from_reading=reading) | Q(until_reading=reading))
    return rows.select_related("lamp", "unit")


def _point(fittings: Sequence[Fitting], old: Reading, new: Reading) -> None:
    for fitting in fittings:
        if fitting.from_reading_id == old.pk:
            fitting.from_reading = new
        if fitting.until_reading_id == old.pk:
            fitting.until_reading = new
        store(fitting)


def _strike(actor: Actor, entry: Reading | HoursAdded, at: datetime, reason: str) -> None:
    """Strike the stored row out, whatever the copy at hand says."""
    if not reason.strip():
        raise Invalid({"reason": [_("Say why it is struck out.")]})
    struck = {"struck_at": at, "struck_by": actor.name, "struck_reason": reason}
    if not type(entry).objects.counting().filter(pk=entry.pk).update(**struck):
        raise AlreadyStruck(entry)
    for name, value in struck.items():
        setattr(entry, name, value)
