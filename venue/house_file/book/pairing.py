"""Which thing of a file is which stored one, and the file laid over what is stored.

A thing is matched by all that it says first, then by less and less, each stored one once: two entries of one unit and
instant stay two.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from venue.core.labels import label_key
from venue.core.names import name_key
from venue.house_file.book.limits import limit_over, with_known_limit
from venue.house_file.keys import AnyWritten, Written, keys_of
from venue.house_file.records import (
    AddedRecord,
    AreaRecord,
    AttachmentRecord,
    BlockageRecord,
    CarePlanRecord,
    CircuitRecord,
    DecisionRecord,
    DoneRecord,
    ElsewhereRecord,
    FaultRecord,
    FilterRecord,
    FittingRecord,
    LampKindRecord,
    LampRecord,
    LightRecord,
    LogRecord,
    MeterRecord,
    ReadingRecord,
    SizeRecord,
    UnitRecord,
)
from venue.house_file.records.file import BOOK, Book
from venue.house_file.typed import without_stale_texts

KeyOf = Callable[[Any], object]
"""What tells a thing from others; None: it is not to be matched by that."""


def _counting(reading: Any) -> object:
    return (reading.unit_key, reading.at, reading.closes_meter) if reading.counts else None


def _what_and_where(blockage: Any) -> tuple[str, str]:
    return name_key(blockage.name), label_key(blockage.place)


_KEYS: Mapping[type[Written], Sequence[KeyOf]] = {
    UnitRecord: [lambda unit: unit.key],
    CircuitRecord: [lambda circuit: circuit.key],
    FilterRecord: [lambda color: color.key],
    SizeRecord: [lambda size: size.key],
    AreaRecord: [lambda area: area.key],
    BlockageRecord: [
        lambda each: (*_what_and_where(each), each.corners, each.pan_from_deg, each.pan_to_deg, each.noted_on),
        lambda each: (*_what_and_where(each), each.corners, each.pan_from_deg),
        lambda each: _what_and_where(each),
    ],
    LampKindRecord: [lambda kind: kind.key],
    LampRecord: [lambda lamp: lamp.key],
    FittingRecord: [lambda fitting: (fitting.unit_key, fitting.from_at)],
    DecisionRecord: [lambda decision: decision],
    MeterRecord: [lambda meter: (meter.unit_key, meter.starts_at)],
    ReadingRecord: [
        lambda each: (each.unit_key, each.at, each.hours, each.strikes, each.struck_at, each.closes_meter),
        lambda each: (each.unit_key, each.at, each.hours),
        _counting,
    ],
    AddedRecord: [
        lambda each: (each.unit_key, each.at, each.hours, each.why, each.struck_at),
        lambda each: (each.unit_key, each.at, each.hours),
        lambda each: (each.unit_key, each.at) if each.counts else None,
    ],
    FaultRecord: [
        lambda fault: (fault.unit_key, name_key(fault.part), fault.opened_at, fault.means, fault.limit_kind),
        lambda fault: (fault.unit_key, name_key(fault.part), fault.opened_at),
    ],
    LogRecord: [
        lambda entry: (entry.about, entry.at, entry.kind, entry.text, entry.struck_at),
        lambda entry: (entry.about, entry.at, entry.kind),
        lambda entry: (entry.about, entry.at),
    ],
    AttachmentRecord: [lambda attached: (attached.name, attached.content)],
    CarePlanRecord: [
        lambda plan: (name_key(plan.what), plan.about, plan.ended_at),
        lambda plan: (name_key(plan.what), plan.about),
    ],
    DoneRecord: [
        lambda done: (done.unit_key, done.last_done_at, done.ended_at),
        lambda done: (done.unit_key, done.last_done_at),
        lambda done: done.unit_key if done.ended_at is None else None,
    ],
    LightRecord: [
        lambda each: (each.unit_key, each.at, each.setting, each.lux, each.distance_m, each.struck_at),
        lambda each: (each.unit_key, each.at, each.setting, each.lux, each.distance_m),
        lambda each: (each.unit_key, each.at) if each.counts else None,
    ],
    ElsewhereRecord: [lambda stay: stay.key],
}
_NAMES: Mapping[str, Callable[[str], str]] = {
    "unit": name_key,
    "kind": name_key,
    "lamp": name_key,
    "place": label_key,
}
"""Fields that name something else, with how people compare them: another spelling is no change."""


def paired(stored: Sequence[AnyWritten], file: Sequence[AnyWritten]) -> list[AnyWritten | None]:
    """For each thing of the file the stored one that it is; None: a new one."""
    found: dict[int, AnyWritten] = {}
    left = list(stored)
    for key_of in _KEYS[type(file[0])] if file else ():
        waiting: dict[object, list[AnyWritten]] = defaultdict(list)
        for each in reversed(left):
            waiting[key_of(each)].append(each)
        for index, each in enumerate(file):
            key = key_of(each)
            if index not in found and key is not None and waiting.get(key):
                found[index] = waiting[key].pop()
        taken = {id(each) for each in found.values()}
        left = [each for each in left if id(each) not in taken]
    return [found.get(index) for index in range(len(file))]


def laid_over(stored: Sequence[AnyWritten], file: Sequence[AnyWritten]) -> tuple[AnyWritten, ...]:
    """The things of the file, each with what it does not say taken from the stored one that it is."""
    return tuple(_over(old, new) for old, new in zip(paired(stored, file), file, strict=True))


def _over(stored: AnyWritten | None, file: AnyWritten) -> AnyWritten:
    if stored is None:
        return file
    file = _as_meant(stored, file)
    values: dict[str, Any] = {}
    for each in keys_of(type(file)):
        ours, theirs = getattr(stored, each.field), getattr(file, each.field)
        if each.field not in file.given:
            values[each.field] = ours
        elif each.is_list:
            values[each.field] = laid_over(ours, theirs)
        elif each.part is not None and isinstance(ours, Written) and theirs is not None:
            values[each.field] = _over(ours, theirs)
        elif each.field in _NAMES and _NAMES[each.field](ours) == _NAMES[each.field](theirs):
            values[each.field] = ours
    laid = without_stale_texts(replace(file, **values, row=stored.row), stored, file.given)
    return _without_stale_limit(laid) if isinstance(laid, FaultRecord) else laid


def _as_meant(stored: Any, file: Any) -> Any:
    return limit_over(stored, file) if isinstance(file, FaultRecord) else file


def _without_stale_limit(laid: Any) -> Any:
    """A fault that is not limited any more has no limit."""
    if laid.means != "limited":
        return replace(laid, limit_kind="", frames_out="")
    return with_known_limit(laid)


def book_over(stored: Book, file: Book) -> Book:
    """The file's book with every value that it does not give taken from the stored one.

    A meter that no file names counts only where none is stored.
    """
    laid = Book(**{name: laid_over(getattr(stored, name), getattr(file, name)) for name in BOOK})
    with_meter = {meter.unit_key for meter in stored.meters}
    meters = [each for each in laid.meters if each.row or not each.is_implied or each.unit_key not in with_meter]
    return replace(laid, meters=tuple(meters))


def everything(stored: Book, laid: Book) -> Book:
    """What will be in the book: the file's things as laid over the stored ones, and those only stored."""
    return Book(**{name: _with_rest(getattr(stored, name), getattr(laid, name)) for name in BOOK})


def _with_rest(stored: Iterable[AnyWritten], laid: Sequence[AnyWritten]) -> tuple[AnyWritten, ...]:
    by_row = {each.row: each for each in stored}
    found = [_with_rest_inside(by_row.pop(each.row), each) if each.row else each for each in laid]
    return (*found, *by_row.values())


def _with_rest_inside(stored: AnyWritten, laid: AnyWritten) -> AnyWritten:
    lists = [each.field for each in keys_of(type(laid)) if each.is_list]
    values: dict[str, Any] = {name: _with_rest(getattr(stored, name), getattr(laid, name)) for name in lists}
    return replace(laid, **values) if values else laid
