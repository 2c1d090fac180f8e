"""The maintenance log: entries written, changed, struck out, relamps answered, pictures attached."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from venue.actions.care import undo_done
from venue.actions.editing import change
from venue.core.attached import clean_name, type_of
from venue.errors import AlreadyStruck, Invalid
from venue.history import Actor, record
from venue.judging import require_done
from venue.models import Attachment, Fault, House, LogEntry, Unit
from venue.models.upkeep import MAX_BYTES, LogKind
from venue.relamps import RelampAnswers, stays_open
from venue.storing import check_columns, store, store_version, with_names

MOST_ATTACHED = 20


@transaction.atomic
def write_log(
    *,
    actor: Actor,
    house: House,
    kind: str,
    at: datetime,
    unit: Unit | None = None,
    answers: RelampAnswers | None = None,
    **facts: Any,
) -> LogEntry:
    """What was done to the unit, or to an `accessory`. `by` is the actor unless named.

    A relamp of a lamp under pressure stays open until its questions are answered. Raises Invalid, LiesAhead.
    """
    require_done(at, house.time_zone)
    facts["by"] = facts.get("by") or actor.name
    columns = (answers or RelampAnswers()).columns() if kind == "relamp" else {}
    entry = LogEntry(house=house, kind=kind, at=at, unit=unit, entered_by=actor.name, **facts, **columns)
    entry.is_open = stays_open(entry)
    store(entry)
    record(actor, "log.written", entry, house=house, **_named(entry))
    return entry


@transaction.atomic
def change_log(*, actor: Actor, entry: LogEntry, seen: int, values: Mapping[str, Any]) -> None:
    """Correct what the entry says. Raises AlreadyStruck, StaleVersion, Invalid."""
    _require_counting(entry)
    _require_free(entry, values)
    change(actor=actor, row=entry, house=entry.house, seen=seen, values=values)


@transaction.atomic
def strike_log(*, actor: Actor, entry: LogEntry, seen: int, at: datetime, reason: str) -> None:
    """Strike a mistaken entry out; it stays to be read, with the reason.

    Care that it recorded as done falls due as before; a fault that it closed stands again; the light that it
    measured counts no more. Raises AlreadyStruck, StaleVersion, Invalid without a reason or where a lamp is
    fitted by it.
    """
    _require_counting(entry)
    _require_no_lamp(entry)
    if not reason.strip():
        raise Invalid({"struck_reason": [_("Say why it is struck out.")]})
    struck: dict[str, Any] = {"struck_at": at, "struck_by": actor.name, "struck_reason": reason, "is_open": False}
    for field, value in struck.items():
        setattr(entry, field, value)
    store_version(entry, struck, seen)
    del struck["is_open"]
    for reading in entry.light_readings.counting():
        for field, value in struck.items():
            setattr(reading, field, value)
        reading.save(update_fields=list(struck))
    undo_done(entry, at)
    for fault in Fault.objects.filter(closing=entry):
        _open_again(actor, fault)
    record(actor, "log.struck", entry, house=entry.house, **_named(entry), reason=reason)


@transaction.atomic
def answer_relamp(*, actor: Actor, entry: LogEntry, seen: int, answers: RelampAnswers) -> None:
    """Answer what is known of a relamp. It closes once all four are answered and the lamp is aligned.

    Raises Invalid if it is no relamp, AlreadyStruck, StaleVersion.
    """
    _require_counting(entry)
    if entry.kind != "relamp":
        raise Invalid({"__all__": [_("Only a relamp has these questions.")]})
    columns = answers.columns()
    for field, value in columns.items():
        setattr(entry, field, value)
    entry.is_open = stays_open(entry)
    store_version(entry, [*columns, "is_open"], seen)
    verb = "relamp.answered" if entry.is_open else "relamp.closed"
    record(actor, verb, entry, house=entry.house, **_named(entry), answers=columns)


@transaction.atomic
def attach(*, actor: Actor, entry: LogEntry, name: str, content: bytes, at: datetime) -> Attachment:
    """Keep a picture or a PDF with the entry, as it came; its type is told by its first bytes, never by its name.

    Raises Invalid for other files, empty ones and those above 5 MB, AlreadyStruck.
    """
    _require_counting(entry)
    content_type = _type_required(content)
    LogEntry.objects.select_for_update().get(pk=entry.pk)  # two at once don't both become the last one
    if entry.attachments.count() >= MOST_ATTACHED:
        message = _("An entry keeps up to %(most)s files. Write another entry for more.") % {"most": MOST_ATTACHED}
        raise Invalid({"file": [message]})
    kept = Attachment(
        entry=entry,
        name=clean_name(name, content_type),
        content_type=content_type,
        size=len(content),
        content=content,
        added_at=at,
        added_by=actor.name,
    )
    check_columns(kept, exclude={"content"})
    with_names(kept, kept.save)
    record(actor, "log.attached", entry, house=entry.house, **_named(entry), file=kept.name)
    return kept


def _type_required(content: bytes) -> str:
    if not content:
        raise Invalid({"file": [_("The file is empty. Choose another.")]})
    if len(content) > MAX_BYTES:
        raise Invalid({"file": [_("The file is larger than 5 MB. Choose a smaller picture.")]})
    found = type_of(content)
    if found is None:
        raise Invalid({"file": [_("This is no JPEG, PNG or WebP picture and no PDF. Choose one of these.")]})
    return found


def _require_counting(entry: LogEntry) -> None:
    if entry.is_struck:
        raise AlreadyStruck(entry)


def is_tied(entry: LogEntry) -> bool:
    """Whether other rows follow from what the entry is and when it was: a lamp, a fault, care or a light reading."""
    if entry.fitting_id is not None or entry.kind == LogKind.RELAMP:
        return True
    return any(rows.exists() for rows in (entry.closes, entry.care_items, entry.light_readings))


def _require_free(entry: LogEntry, values: Mapping[str, Any]) -> None:
    kept = {"kind", "at", "before_lux", "after_lux"} & set(values)
    if kept and is_tied(LogEntry.objects.get(pk=entry.pk)):
        message = _("Other records follow from this entry. Strike it out and write it anew.")
        raise Invalid({name: [message] for name in sorted(kept)})


def _require_no_lamp(entry: LogEntry) -> None:
    fitting = entry.fitting
    if fitting is not None and fitting.until_at != fitting.from_at:
        message = _("This relamp fitted %(fitting)s. Take that back first, then strike out the entry.")
        raise Invalid({"__all__": [message % {"fitting": fitting}]})


def _open_again(actor: Actor, fault: Fault) -> None:
    fault.closed_at, fault.closed_by, fault.closing = None, "", None
    store(fault)
    unit = fault.unit
    record(actor, "fault.stands_again", fault, house=unit.house, tag=unit.tag, part=str(fault))


def _named(entry: LogEntry) -> dict[str, Any]:
    return {"kind": entry.kind, "about": entry.unit.tag if entry.unit is not None else entry.accessory}
