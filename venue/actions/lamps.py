"""Lamps: fitted, taken out, ended, and a named person's decision to burn one past its stop."""

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.db.models import Q
from django.utils.translation import gettext as _

from venue.actions.locking import lock
from venue.actions.log import write_log
from venue.actions.meters import start_run, write_reading
from venue.core.hours import Mark
from venue.errors import AlreadyEnded, FittedThen, InUse, Invalid, NoMeter, NotFitted, WrongHouse
from venue.history import Actor, record
from venue.judging import find_meter, last_before, require_done
from venue.models import Fitting, House, Lamp, LampDecision, LampKind, LampTally, Meter, Reading, Unit
from venue.models.lamps import Fate
from venue.models.meters import Cause
from venue.models.upkeep import LogKind
from venue.relamps import RelampAnswers
from venue.storing import end, store
from venue.tallies import retally, retally_lamps
from venue.wording_hours import hours_words

GONE = frozenset({Fate.SPENT, Fate.BROKEN, Fate.RETURNED})
"""Fates after which the lamp is the house's no more."""


@dataclass(frozen=True)
class _Shown:
    """What somebody read on the meter at a relamp, and said about it."""

    in_h: Decimal | None
    out_h: Decimal | None
    strikes: int | None
    was_reset: bool | None
    confirmed: bool


@dataclass(frozen=True)
class _Ends:
    """The readings at a relamp: of the lamp that goes out, and of the one that comes in."""

    out: Reading | None = None
    into: Reading | None = None


@transaction.atomic
def add_lamp(
    *,
    actor: Actor,
    kind: LampKind,
    serial: str,
    came_with_h: Decimal = Decimal(0),
    came_with_strikes: int = 0,
    is_from_spares: bool = False,
) -> Lamp:
    """A lamp on the shelf, under its serial; `is_from_spares`: one of those counted without. Raises AlreadyExists,
    Invalid, AlreadyEnded.
    """
    if kind.ended_at is not None:
        raise AlreadyEnded(kind, kind.ended_at)
    lamp = Lamp(house=kind.house, kind=kind, serial=serial, came_with_h=came_with_h)
    lamp.came_with_strikes = came_with_strikes
    store(lamp)
    if is_from_spares:
        _take_spare(kind)
    record(actor, "lamp.added", lamp, house=lamp.house, serial=serial, kind=kind.name)
    retally_lamps([lamp])
    return lamp


@transaction.atomic
def end_lamp(*, actor: Actor, lamp: Lamp, at: datetime, fate: str, reason: str = "") -> None:
    """A lamp from the shelf is the house's no more. Raises InUse while it is fitted, AlreadyEnded, Invalid."""
    lamp = _held(lamp)
    fitting = lamp.fittings.still_open().select_related("lamp", "unit").first()
    if fitting is not None:
        raise InUse(fitting)
    if fate not in GONE:
        raise Invalid({"fate": [_("Say what became of it.")]})
    end(lamp, at=at, reason=_end_words(fate, reason))
    record(actor, "lamp.ended", lamp, house=lamp.house, serial=lamp.serial, reason=lamp.ended_reason)


@transaction.atomic
def fit_lamp(
    *,
    actor: Actor,
    unit: Unit,
    at: datetime,
    lamp: Lamp | None = None,
    kind: LampKind | None = None,
    serial: str = "",
    meter_in_h: Decimal | None = None,
    meter_out_h: Decimal | None = None,
    strikes: int | None = None,
    was_reset: bool | None = None,
    reason: str = "",
    out_reason: str = "",
    fate: str = "",
    by: str = "",
    answers: RelampAnswers | None = None,
    confirmed: bool = False,
) -> Fitting:
    """A lamp from the shelf, or a spare of the kind under a new serial, goes into the unit; one inside comes out.

    `meter_out_h` is what the meter showed as the old lamp came out, `meter_in_h` as the new one went in; one will
    do. A lower `meter_in_h` means that the meter was reset (another run begins), unless `was_reset` is False. A
    relamp entered late takes over the end of the fitting that it parts. The log entry stays open where a lamp
    under pressure wants answers. Raises Overlap if the lamp is elsewhere then, FittedThen, NoMeter, LiesAhead,
    ReadingRefused, ReadingQuestioned unless `confirmed`, AlreadyEnded, WrongHouse, Invalid.
    """
    lock(Unit, [unit])
    require_done(at, unit.house.time_zone)
    before = _fitting_to_part(unit, at)
    new = _lamp_to_fit(actor, unit.house, lamp, kind, serial)
    ends = _read_ends(actor, unit, at, _Shown(meter_in_h, meter_out_h, strikes, was_reset, confirmed))
    fitting = Fitting(lamp=new, unit=unit, from_at=at, from_reading=ends.into, reason=reason)
    _part(before, fitting, ends.out, out_reason, fate)
    store(fitting)
    _follow_fate(fitting)
    _log(actor, fitting, by, answers)
    _tell(actor, fitting, before)
    retally(unit)
    return fitting


@transaction.atomic
def take_out(
    *,
    actor: Actor,
    unit: Unit,
    at: datetime,
    meter_out_h: Decimal | None = None,
    strikes: int | None = None,
    out_reason: str = "",
    fate: str = Fate.SHELF,
    by: str = "",
    confirmed: bool = False,
) -> Fitting:
    """The unit's lamp comes out and none goes in. Raises NotFitted, else as `fit_lamp`."""
    lock(Unit, [unit])
    require_done(at, unit.house.time_zone)
    fitting = fitting_at(unit, at)
    if fitting is None or fitting.until_at is not None or fitting.from_at == at:
        raise NotFitted(unit)
    _held(fitting.lamp)
    ends = _read_ends(actor, unit, at, _Shown(None, meter_out_h, strikes, False, confirmed))
    _end_fitting(fitting, at, ends.out, out_reason, fate)
    _log_out(actor, fitting, at, by)
    facts = {"serial": fitting.lamp.serial, "reason": out_reason, "at": at}
    record(actor, "lamp.taken_out", fitting, house=unit.house, tag=unit.tag, **facts)
    retally(unit)
    return fitting


@transaction.atomic
def decide_past_stop(
    *, actor: Actor, lamp: Lamp, at: datetime, by: str, makers_source: str, reason: str, until_h: Decimal
) -> LampDecision:
    """A named person's decision that the lamp burns on past its stop, until so many lamp hours.

    Raises Invalid without the name, the maker's source or a reason, or if the hours are burned already.
    """
    lamp = _held(lamp)
    tally = LampTally.objects.filter(lamp=lamp).first()
    if tally is not None and until_h <= tally.hours:
        burned = _("The lamp has burned %(hours)s h already. Write more, or take it out.")
        raise Invalid({"until_h": [burned % {"hours": hours_words(tally.hours)}]})
    decision = LampDecision(lamp=lamp, at=at, by=by.strip(), makers_source=makers_source.strip(), reason=reason.strip())
    decision.until_h = until_h
    store(decision)
    facts = {"serial": lamp.serial, "by": decision.by, "until": hours_words(until_h), "source": decision.makers_source}
    record(actor, "lamp.decided", decision, house=lamp.house, **facts)
    return decision


def fitting_at(unit: Unit, at: datetime) -> Fitting | None:
    """The lamp in the unit at the instant."""
    fittings = unit.fittings.real().filter(Q(until_at__isnull=True) | Q(until_at__gt=at), from_at__lte=at)
    return fittings.select_related("lamp__kind", "unit__house").first()


def _fitting_to_part(unit: Unit, at: datetime) -> Fitting | None:
    """The fitting in which another is to begin. Raises FittedThen if it began at that very time."""
    before = fitting_at(unit, at)
    if before is not None and before.from_at == at:
        raise FittedThen(before)
    return before


def _held(lamp: Lamp) -> Lamp:
    """The stored lamp, held until the transaction ends. Raises AlreadyEnded."""
    held = Lamp.objects.select_for_update().select_related("kind", "house").get(pk=lamp.pk)
    if held.ended_at is not None:
        raise AlreadyEnded(held, held.ended_at)
    return held


def _lamp_to_fit(actor: Actor, house: House, lamp: Lamp | None, kind: LampKind | None, serial: str) -> Lamp:
    if lamp is None:
        if kind is None:
            raise Invalid({"lamp": [_("Choose the lamp, or its kind with a new serial.")]})
        lamp = add_lamp(actor=actor, kind=kind, serial=serial, is_from_spares=True)
    if lamp.house_id != house.pk:
        raise WrongHouse(lamp, house)
    return _held(lamp)


def _take_spare(kind: LampKind) -> None:
    """One spare fewer on the shelf; a count that was wrong stays at zero."""
    stored = LampKind.objects.select_for_update().get(pk=kind.pk)
    if stored.spares:
        stored.spares -= 1
        store(stored)


def _read_ends(actor: Actor, unit: Unit, at: datetime, shown: _Shown) -> _Ends:
    """The readings at both ends, judged and stored; none in a unit without a meter."""
    meter = find_meter(unit, at)
    at_end = shown.out_h if shown.in_h is None else shown.in_h
    if meter is None and at_end is None:
        return _Ends()
    if meter is None:
        raise NoMeter(unit, at, unit.house.time_zone)
    if at_end is None:
        raise Invalid({"meter_in_h": [_("Write what the meter shows.")]})
    before = last_before(meter, at).hours if shown.out_h is None else shown.out_h
    if shown.was_reset or (shown.was_reset is None and at_end < before):
        return _reset(actor, meter, at, at_end, shown)
    if shown.out_h is not None and at_end != shown.out_h:
        message = _("The meter showed %(out)s h as the old lamp came out. Say if it was reset or changed.")
        raise Invalid({"meter_in_h": [message % {"out": hours_words(shown.out_h)}]})
    reading = write_reading(actor, meter, Mark(at, at_end, shown.strikes), Cause.FITTING, shown.confirmed)
    return _Ends(reading, reading)


def _reset(actor: Actor, meter: Meter, at: datetime, starts_h: Decimal, shown: _Shown) -> _Ends:
    """The meter was reset at the relamp: what it showed before closes its run, and another begins."""
    out = Reading.objects.counting().filter(meter=meter, at=at).first()
    if shown.out_h is not None:
        out = write_reading(actor, meter, Mark(at, shown.out_h, shown.strikes), Cause.FITTING, shown.confirmed)
    run = start_run(meter, at, starts_h, note=_("reset at a relamp"))
    first = Reading(meter=run, at=at, hours=starts_h, cause=Cause.FITTING, entered_by=actor.name)
    facts = {"tag": meter.unit.tag, "shows": hours_words(starts_h), "closing": hours_words(shown.out_h), "at": at}
    record(actor, "meter.reset", run, house=meter.unit.house, **facts)
    return _Ends(out, store(first))


def _part(before: Fitting | None, new: Fitting, out: Reading | None, out_reason: str, fate: str) -> None:
    """The fitting in which the new one begins ends there; the new one takes over the end that it had.

    In an empty unit the new one stays until the next on file.
    """
    if before is None:
        following = new.unit.fittings.real().filter(from_at__gt=new.from_at).order_by("from_at").first()
        if following is not None:
            new.until_at, new.until_reading = following.from_at, following.from_reading
        return
    new.until_at, new.until_reading = before.until_at, before.until_reading
    new.out_reason, new.fate = before.out_reason, before.fate
    _end_fitting(before, new.from_at, out, out_reason, fate or Fate.SHELF)


def _end_fitting(fitting: Fitting, at: datetime, reading: Reading | None, out_reason: str, fate: str) -> None:
    ended_by_fate = fitting.fate in GONE
    fitting.until_at, fitting.until_reading, fitting.out_reason, fitting.fate = at, reading, out_reason, Fate(fate)
    store(fitting)
    if ended_by_fate:
        fitting.lamp.ended_at, fitting.lamp.ended_reason = None, ""
    _follow_fate(fitting)


def _follow_fate(fitting: Fitting) -> None:
    """A lamp that came out spent, broken or sent back is the house's no more from then on."""
    lamp = fitting.lamp
    if fitting.fate in GONE and fitting.until_at is not None:
        lamp.mark_ended(fitting.until_at, _end_words(fitting.fate, fitting.out_reason))
    store(lamp)


def _end_words(fate: str, reason: str) -> str:
    label = str(Fate(fate).label)
    return f"{label}: {reason}"[:200] if reason.strip() else label


def _tell(actor: Actor, fitting: Fitting, before: Fitting | None) -> None:
    unit, serial = fitting.unit, fitting.lamp.serial
    facts = {"tag": unit.tag, "serial": serial, "out": before.lamp.serial if before else "", "at": fitting.from_at}
    record(actor, "lamp.changed" if before else "lamp.fitted", fitting, house=unit.house, **facts)


def _log(actor: Actor, fitting: Fitting, by: str, answers: RelampAnswers | None) -> None:
    """The relamp in the log, open until a lamp under pressure has its answers."""
    unit, lamp, reading = fitting.unit, fitting.lamp, fitting.from_reading
    facts: dict[str, Any] = {"by": by, "text": fitting.reason, "meter_h": None if reading is None else reading.hours}
    facts["parts"] = _("lamp %(serial)s, %(kind)s") % {"serial": lamp.serial, "kind": lamp.kind.name}
    facts |= {"fitting": fitting, "unit": unit, "answers": answers}
    write_log(actor=actor, house=unit.house, kind=LogKind.RELAMP, at=fitting.from_at, **facts)


def _log_out(actor: Actor, fitting: Fitting, at: datetime, by: str) -> None:
    unit, reading = fitting.unit, fitting.until_reading
    text = _("Lamp %(serial)s was taken out. %(why)s") % {"serial": fitting.lamp.serial, "why": fitting.out_reason}
    facts: dict[str, Any] = {"by": by, "text": text.strip(), "meter_h": None if reading is None else reading.hours}
    write_log(actor=actor, house=unit.house, unit=unit, at=at, kind=LogKind.OTHER, fitting=fitting, **facts)
