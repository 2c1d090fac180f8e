"""Names and references of the book, and values of it that are right one by one but not together."""

from collections.abc import Iterable, Iterator

from venue.core.attached import type_of
from venue.core.names import name_key
from venue.house_file.book.naming import EntryNames
from venue.house_file.checking.names import LAMP, LAMP_KIND, named_once
from venue.house_file.paths import Path
from venue.house_file.problems import Problem
from venue.house_file.records.care import CarePlanRecord, EntryName, FaultRecord, LogRecord
from venue.house_file.records.file import Book
from venue.house_file.sound import SoundPart

MOST_BYTES_ATTACHED = 5 * 1024 * 1024
LONGEST_TEXT = 2000
_FOR_COVERS = {"unit": {"unit"}, "source": {"source"}, "all": set[str](), "accessory": {"accessory"}}


def book_problems(part: SoundPart, book: Book) -> Iterator[Problem]:
    """What is wrong with the book but its ledger."""
    yield from named_once([((*kind.path, "name"), kind.name) for kind in book.lamp_kinds], LAMP_KIND)
    yield from named_once([((*lamp.path, "serial"), lamp.serial) for lamp in book.lamps], LAMP)
    for kind in book.lamp_kinds:
        if kind.warn_at > kind.stop_at:
            yield Problem((*kind.path, "warn_at"), "warns-after-stop", {"warn": kind.warn_at, "stop": kind.stop_at})
    for fault in book.faults:
        yield from _fault_problems(fault)
    for entry in book.log:
        yield from _log_problems(entry)
    yield from _plan_problems(book)
    if part.is_whole("lamps", "log"):
        yield from _unknown_fittings(book)
        yield from _unknown_entries(book)


# -- faults --------------------------------------------------------------------------------------------


def _fault_problems(fault: FaultRecord) -> Iterator[Problem]:
    if fault.closed_at is not None and fault.closed_at < fault.opened_at:
        yield Problem((*fault.path, "closed"), "closed-before-opened")
    if fault.danger and fault.means != "out":
        yield Problem((*fault.path, "means"), "danger-is-out")
    if fault.danger and fault.closed_at is not None and not fault.closed_by:
        yield Problem((*fault.path, "closed_by"), "danger-closed-by-name")
    for name in ("closed_by", "entry"):
        if getattr(fault, name) and fault.closed_at is None:
            yield Problem((*fault.path, "closed"), "closed-says-when")
    yield from _limit_problems(fault)


def _limit_problems(fault: FaultRecord) -> Iterator[Problem]:
    if fault.limit_kind and fault.means != "limited":
        yield Problem((*fault.path, "limit_kind"), "limit-without-limited")
    elif (fault.means == "limited" and not fault.limit_kind) or (fault.limit_kind == "other" and not fault.limit):
        yield Problem((*fault.path, "limit"), "limited-says-how")
    if (fault.limit_kind == "frames") != bool(fault.frames_out):
        code = "frames-out-which" if fault.limit_kind == "frames" else "frames-out-of-frames"
        yield Problem((*fault.path, "frames_out"), code)


# -- log -----------------------------------------------------------------------------------------------


def _log_problems(entry: LogRecord) -> Iterator[Problem]:
    if bool(entry.unit) == bool(entry.accessory):
        yield Problem((*entry.path, "unit"), "unit-or-accessory")
    if len(entry.text) > LONGEST_TEXT:
        yield Problem((*entry.path, "text"), "text-too-long-with-kind", {"most": LONGEST_TEXT})
    if entry.kind != "relamp" and entry.is_open:
        yield Problem((*entry.path, "open"), "only-of-a-relamp")
    for attached in entry.attachments:
        if type_of(attached.content) is None or len(attached.content) > MOST_BYTES_ATTACHED:
            yield Problem((*attached.path, "content"), "not-attachable")


def _unknown_fittings(book: Book) -> Iterator[Problem]:
    known = {(each.lamp_key, each.unit_key, each.from_at) for each in book.fittings}
    serials = {lamp.key for lamp in book.lamps}
    for entry in book.log:
        if entry.fitting is None:
            continue
        lamp = name_key(entry.fitting.lamp)
        if lamp not in serials:
            yield Problem((*entry.fitting.path, "lamp"), "unknown-lamp", {"value": entry.fitting.lamp})
        elif (lamp, name_key(entry.unit), entry.fitting.from_at) not in known:
            yield Problem((*entry.fitting.path, "from"), "unknown-fitting", {"value": entry.fitting.lamp})


def _unknown_entries(book: Book) -> Iterator[Problem]:
    """Entries that faults, light readings and care name: of the same unit, time and kind, as many as counted."""
    names = EntryNames(book.log)
    for about, name in _entry_names(book):
        if name is not None and names.entry(about, name) is None:
            yield Problem(name.path, "unknown-entry", {"kind": name.kind})


def _entry_names(book: Book) -> Iterator[tuple[tuple[str, str], EntryName | None]]:
    yield from (((each.unit_key, ""), each.entry) for each in book.faults)
    yield from (((each.unit_key, ""), each.entry) for each in book.light_readings)
    for plan in book.care_plans:
        yield from ((plan.about_of(done), done.entry) for done in plan.done)


# -- care plans ----------------------------------------------------------------------------------------


def _plan_problems(book: Book) -> Iterator[Problem]:
    yield from _twice((plan.path, (name_key(plan.what), plan.about)) for plan in book.care_plans if not plan.ended_at)
    for plan in book.care_plans:
        yield from _covers_problems(plan)
        if plan.every_h is None and plan.every_days is None:
            yield Problem((*plan.path, "every_days"), "hours-or-days")
        if plan.covers == "accessory" and plan.every_h is not None:
            yield Problem((*plan.path, "every_h"), "hours-are-for-units")
        yield from _twice((done.path, done.unit_key) for done in plan.done if not done.ended_at)
        for done in plan.done:
            if (plan.covers == "accessory") == bool(done.unit):
                yield Problem((*done.path, "unit"), "done-for-what")


def _covers_problems(plan: CarePlanRecord) -> Iterator[Problem]:
    wanted = _FOR_COVERS[plan.covers]
    for name in ("unit", "source", "accessory"):
        if bool(getattr(plan, name)) != (name in wanted):
            code = "covers-needs" if name in wanted else "covers-without"
            yield Problem((*plan.path, name), code, {"covers": plan.covers, "key": name})


def _twice(named: Iterable[tuple[Path, object]]) -> Iterator[Problem]:
    seen = set()
    for path, thing in named:
        if thing in seen:
            yield Problem(path, "there-already")
        seen.add(thing)
