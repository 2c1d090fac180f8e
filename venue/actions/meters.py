"""Meters: put on a unit, replaced, reset. A meter that is reset ends, and another starts at what it shows then."""

from datetime import datetime
from decimal import Decimal

from django.db import transaction
from django.utils.translation import gettext as _

from venue.actions.locking import lock
from venue.core.hours import Mark, judge_reading
from venue.errors import Invalid, ReadingRefused
from venue.history import Actor, record
from venue.judging import last_before, meter_at, require_addable, require_done, require_sound
from venue.ledgers import mark_of, run_of
from venue.models import HoursAdded, Meter, Reading, Unit
from venue.models.meters import Cause, Counts
from venue.storing import store
from venue.tallies import retally
from venue.wording_hours import hours_words


@transaction.atomic
def put_meter(
    *,
    actor: Actor,
    unit: Unit,
    at: datetime,
    starts_h: Decimal = Decimal(0),
    counts: str = Counts.LAMP,
    note: str = "",
) -> Meter:
    """A meter counts on the unit from the instant on, or until the next one that is on file.

    Raises Overlap if another counts then, LiesAhead, AlreadyEnded, Invalid.
    """
    lock(Unit, [unit])
    require_done(at, unit.house.time_zone)
    following = unit.meters.filter(starts_at__gt=at).first()
    ends_at = None if following is None else following.starts_at
    meter = Meter(unit=unit, starts_at=at, ends_at=ends_at, starts_h=starts_h, counts=Counts(counts), note=note)
    store(meter)
    record(actor, "meter.put", meter, house=unit.house, tag=unit.tag, shows=hours_words(starts_h), at=at)
    retally(unit)
    return meter


@transaction.atomic
def replace_meter(
    *,
    actor: Actor,
    unit: Unit,
    at: datetime,
    closing_h: Decimal | None,
    starts_h: Decimal = Decimal(0),
    gap_h: Decimal | None = None,
    counts: str = "",
    note: str = "",
    confirmed: bool = False,
) -> Meter:
    """Another meter counts from the instant on, or the same one after a reset.

    `closing_h` is what the old one showed, None where nobody could read it: then `gap_h` are the hours burned
    since its last reading, kept as hours added. Readings after the instant become the new meter's. Raises
    NoMeter, ReadingRefused, ReadingQuestioned unless `confirmed`, LiesAhead, AlreadyEnded, Invalid.
    """
    lock(Unit, [unit])
    require_done(at, unit.house.time_zone)
    if closing_h is not None and gap_h is not None:
        raise Invalid({"gap_h": [_("The closing reading counts these hours already. Write one of the two.")]})
    old = meter_at(unit, at)
    if closing_h is not None:
        write_reading(actor, old, Mark(at, closing_h), Cause.METER, confirmed)
    elif gap_h is not None:
        _bridge(actor, old, at, gap_h, confirmed)
    new = start_run(old, at, starts_h, counts=counts, note=note)
    facts = {"closing": hours_words(closing_h), "gap": hours_words(gap_h), "shows": hours_words(starts_h), "at": at}
    verb = "meter.replaced" if closing_h is not None else "meter.bridged" if gap_h is not None else "meter.lost"
    record(actor, verb, new, house=unit.house, tag=unit.tag, **facts)
    retally(unit)
    return new


def write_reading(actor: Actor, meter: Meter, mark: Mark, cause: str, confirmed: bool) -> Reading:
    """The reading of the meter, judged and stored; one of the same hours at that instant is taken as it is."""
    there = Reading.objects.counting().filter(meter=meter, at=mark.at, hours=mark.hours).first()
    if there is not None and mark.strikes in (None, there.strikes):
        return there
    require_sound(meter, mark, confirmed=confirmed, zone=meter.unit.house.time_zone)
    return enter_reading(actor, meter, mark, cause)


def enter_reading(actor: Actor, meter: Meter, mark: Mark, cause: str) -> Reading:
    """A reading that was judged already, stored."""
    reading = Reading(meter=meter, at=mark.at, hours=mark.hours, strikes=mark.strikes, cause=Cause(cause))
    reading.entered_by = actor.name
    return store(reading)


def start_run(old: Meter, at: datetime, starts_h: Decimal, *, counts: str = "", note: str = "") -> Meter:
    """The meter ends at the instant and another begins, which takes over the readings made after it.

    Raises ReadingRefused if those do not fit it.
    """
    later = Reading.objects.filter(meter=old, at__gt=at)
    new = Meter(unit=old.unit, starts_at=at, ends_at=old.ends_at, starts_h=starts_h, note=note)
    new.counts = Counts(counts or old.counts)
    first = later.filter(struck_at__isnull=True).first()
    if first is not None:
        _require_fit(new, first)
    old.ends_at = at
    store(old)
    store(new)
    later.update(meter=new)
    return new


def _require_fit(new: Meter, first: Reading) -> None:
    problems = judge_reading(run_of(new).start, None, mark_of(first))
    refusals = [problem for problem in problems if not problem.is_question]
    if refusals:
        raise ReadingRefused(refusals, new.unit.house.time_zone)


def _bridge(actor: Actor, old: Meter, at: datetime, gap_h: Decimal, confirmed: bool) -> None:
    """The hours of a dead meter's gap, as somebody knows them."""
    zone, since = old.unit.house.time_zone, last_before(old, at).at
    require_addable(since, at, gap_h, None, confirmed=confirmed, zone=zone)
    why = _("the meter was dead, and these hours bridge the gap to its replacement")
    store(HoursAdded(unit=old.unit, at=at, hours=gap_h, why=why, entered_by=actor.name))
