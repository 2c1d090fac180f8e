"""Faults, log entries and files for tests, each in one call."""

from typing import Any

from tests.factories import ACTOR, NOON
from venue.actions import add_care_plan, attach, report_fault, write_log
from venue.models import Fault, LogEntry, Unit

PNG = b"\x89PNG\r\n\x1a\n" + b"\0" * 32
JPEG = b"\xff\xd8\xff\xe0" + b"\0" * 32
WEBP = b"RIFF\x24\0\0\0WEBPVP8 " + b"\0" * 32
PDF = b"%PDF-1.4\n%%EOF\n"
ANSWERED = {"isolated": True, "cooled": True, "protected": True, "aligned": True}


def a_fault(unit: Unit, means: str = "limited", **facts: Any) -> Fault:
    """A fault seen at noon; limited without more: its douser leaks."""
    if means == "limited":
        facts = {"limit_kind": "blackout", "part": "douser", **facts}
    return report_fault(actor=ACTOR, unit=unit, means=means, **{"at": NOON, **facts})


def an_entry(unit: Unit, kind: str = "clean", **facts: Any) -> LogEntry:
    """What was done at noon."""
    return write_log(actor=ACTOR, house=unit.house, unit=unit, kind=kind, **{"at": NOON, **facts})


def cared(unit: Unit) -> dict[str, Any]:
    """What the book's addresses name, made for the unit: a fault, an open relamp with a file, a plan and its item."""
    entry = an_entry(unit, "relamp")
    plan = add_care_plan(actor=ACTOR, house=unit.house, what="look", covers="unit", unit=unit, every_days=7, at=NOON)
    file = attach(actor=ACTOR, entry=entry, name="lamp.png", content=PNG, at=NOON)
    rows = {"fault": a_fault(unit), "entry": entry, "file": file, "plan": plan, "item": plan.items.get()}
    return {name: row.ref for name, row in rows.items()}
