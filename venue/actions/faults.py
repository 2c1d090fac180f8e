"""Faults: reported, corrected, closed by what was done."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from venue.actions.editing import change
from venue.actions.locking import lock
from venue.actions.log import write_log
from venue.core.frame_numbers import FrameProblem, as_list, read_frames
from venue.errors import AlreadyClosed, Invalid
from venue.history import Actor, record
from venue.judging import require_done
from venue.models import Fault, LogEntry, Unit
from venue.models.faults import Limit, Means
from venue.models.upkeep import LogKind
from venue.storing import store, store_version
from venue.wording_faults import FRAME_PROBLEMS

FACTS = ("part", "means", "danger", "limit_kind", "frames_out", "limit")


@transaction.atomic
def report_fault(*, actor: Actor, unit: Unit, means: str, at: datetime, seen_by: str = "", **facts: str) -> Fault:
    """A fault of the unit, seen at an instant. With a danger the unit is out of service, whatever `means` says.

    `facts`: part, danger, limit_kind, frames_out, limit. Raises Invalid by field, AlreadyEnded, LiesAhead.
    """
    require_done(at, unit.house.time_zone)
    lock(Unit, [unit])
    told = told_facts(unit, {"means": means, **facts})
    fault = store(Fault(unit=unit, opened_at=at, opened_by=seen_by or actor.name, **told))
    record(actor, "fault.reported", fault, house=unit.house, tag=unit.tag, **told)
    return fault


@transaction.atomic
def change_fault(*, actor: Actor, fault: Fault, seen: int, values: Mapping[str, str]) -> None:
    """Correct what a standing fault says. Raises Invalid by field, AlreadyClosed, StaleVersion."""
    _require_standing(fault)
    told = told_facts(fault.unit, {name: values.get(name, getattr(fault, name)) for name in FACTS})
    change(actor=actor, row=fault, house=fault.unit.house, seen=seen, values=told)


@transaction.atomic
def close_fault(
    *, actor: Actor, fault: Fault, seen: int, at: datetime, done: str, by: str = "", parts: str = ""
) -> LogEntry:
    """The fault is no more: what was done goes into the log.

    A danger is closed by a named person only: `by` is never taken from the actor then. Raises Invalid,
    AlreadyClosed, StaleVersion.
    """
    _require_standing(fault)
    _require_closing(fault, at, done, by)
    unit, who = fault.unit, by.strip() or actor.name
    facts: dict[str, Any] = {"by": who, "text": done, "parts": parts}
    entry = write_log(actor=actor, house=unit.house, unit=unit, kind=LogKind.REPAIR, at=at, **facts)
    fault.closed_at, fault.closed_by, fault.closing = at, who, entry
    store_version(fault, ["closed_at", "closed_by", "closing"], seen)
    record(actor, "fault.closed", fault, house=unit.house, tag=unit.tag, part=fault.part, by=who, done=done)
    return entry


def _require_standing(fault: Fault) -> None:
    stored = Fault.objects.get(pk=fault.pk)
    if stored.closed_at is not None:
        raise AlreadyClosed(stored)


def _require_closing(fault: Fault, at: datetime, done: str, by: str) -> None:
    problems = {}
    if not done.strip():
        problems["done"] = [_("Write what was done.")]
    if fault.danger and not by.strip():
        problems["by"] = [_("Write the name of the person who answers for it: a danger is closed by name only.")]
    if at < fault.opened_at:
        problems["at"] = [_("It is closed before it was seen. Write a later time.")]
    if problems:
        raise Invalid(problems)


def told_facts(unit: Unit, facts: Mapping[str, str]) -> dict[str, str]:
    """The columns that the facts come to; those that do not belong to what it means stay empty.

    Raises Invalid by field.
    """
    told = {**dict.fromkeys(FACTS, ""), **{name: value.strip() for name, value in facts.items()}}
    if told["danger"]:
        told["means"] = Means.OUT.value
    if told["means"] != Means.LIMITED:
        told["limit_kind"] = ""
    told["frames_out"] = _frames(unit, told) if told["limit_kind"] == Limit.FRAMES else ""
    _require_words(told)
    return told


def _frames(unit: Unit, told: Mapping[str, str]) -> str:
    try:
        return as_list(read_frames(told["frames_out"], unit.frames))
    except FrameProblem as problem:
        facts = {"found": problem.found, "unit": unit.tag, "frames": unit.frames or _("50")}
        raise Invalid({"frames_out": [str(FRAME_PROBLEMS[problem.code]) % facts]}) from problem


def _require_words(told: Mapping[str, str]) -> None:
    """Nobody should have to guess what is wrong."""
    if told["means"] == Means.LIMITED and not told["limit_kind"]:
        raise Invalid({"limit_kind": [_("Choose what the unit can't do.")]})
    if told["limit_kind"] == Limit.IRIS and not told["limit"]:
        raise Invalid({"limit": [_("Write at which size the iris is fixed, such as head and shoulders.")]})
    if told["limit_kind"] == Limit.OTHER and not told["limit"]:
        raise Invalid({"limit": [_("Write what the unit can't do.")]})
    if told["means"] == Means.USABLE and not told["limit"]:
        raise Invalid({"limit": [_("Write the note that whoever uses the unit should read.")]})
    if not any(told[name] for name in ("danger", "limit_kind", "part", "limit")):
        raise Invalid({"part": [_("Choose the part, or write in words what is wrong.")]})
