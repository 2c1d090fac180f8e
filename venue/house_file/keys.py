"""Records whose fields stand in the file under keys: what each key holds follows from the type of its field.

A field is named as the column that keeps it; `As` gives its key another name. A key that is only ours is left out of
a file where it says nothing but its default; a field apart has no key; what is written always may be null.
"""

import base64
from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import MISSING, Field, dataclass, field, fields, is_dataclass
from datetime import date, datetime, time
from decimal import ROUND_HALF_UP, Decimal
from enum import Enum, auto
from functools import cached_property
from inspect import get_annotations
from types import UnionType
from typing import Annotated, Any, TypeVar, Union, get_args, get_origin, get_type_hints

from venue.core.polygons import Corner, Polygon
from venue.house_file.paths import Path
from venue.house_file.times import read_day, read_instant, written_instant

Given = frozenset[str]
NOTHING: Given = frozenset()
HUNDREDTH = Decimal("0.01")
ZERO = Decimal("0.00")


Held = TypeVar("Held")


@dataclass(frozen=True)
class As:
    """The key under which a field stands."""

    name: str


class Mark(Enum):
    """What a field is, if it is not simply one of the published format."""

    OURS = auto()
    APART = auto()
    ALWAYS = auto()


OURS, APART, ALWAYS = Mark.OURS, Mark.APART, Mark.ALWAYS
Ours = Annotated[Held, OURS]


@dataclass(frozen=True, kw_only=True)
class Written:
    """A thing as a file writes it: where it stands there, which of its fields the file itself gives.

    `row` is the primary key under which it is stored already, None where it is not.
    """

    path: Annotated[Path, APART] = field(default=(), compare=False, repr=False)
    given: Annotated[Given, APART] = field(default=NOTHING, compare=False, repr=False)
    row: Annotated[int | None, APART] = field(default=None, compare=False, repr=False)

    def as_written(self) -> "Written":
        """The record as a file says it, where that differs from how it is kept."""
        return self


AnyWritten = TypeVar("AnyWritten", bound=Written)


@dataclass(frozen=True)
class Key:
    """A field and its key. `part` is the record inside it, `is_list` whether it holds several of them."""

    field: str
    name: str
    is_told: bool
    is_always: bool
    default: Any
    read: Callable[[Any], Any]
    part: type[Written] | None
    is_list: bool

    @property
    def is_required(self) -> bool:
        return self.default is MISSING


@dataclass(frozen=True)
class Shape:
    """The keys of a kind of record, and what follows from them."""

    keys: tuple[Key, ...]
    _given: dict[tuple[str, ...], Given] = field(default_factory=dict)

    @cached_property
    def required(self) -> frozenset[str]:
        return frozenset(each.name for each in self.keys if each.is_required)

    @cached_property
    def plain_fields(self) -> tuple[str, ...]:
        """The fields that hold one value each."""
        return tuple(each.field for each in self.keys if each.part is None)

    def fields_given(self, names: tuple[str, ...]) -> Given:
        """The fields that these keys stand for; most entries of a section have the same."""
        if names not in self._given:
            self._given[names] = frozenset(each.field for each in self.keys if each.name in names)
        return self._given[names]


_SHAPES: dict[type[Written], Shape] = {}


def shape_of(kind: type[Written]) -> Shape:
    """The shape of a kind of record."""
    if kind not in _SHAPES:
        _SHAPES[kind] = Shape(_keys(kind))
    return _SHAPES[kind]


def keys_of(kind: type[Written]) -> tuple[Key, ...]:
    """The keys of a kind of record in the order of the format: its own ones, then those that it shares."""
    return shape_of(kind).keys


def _keys(kind: type[Written]) -> tuple[Key, ...]:
    hints = get_type_hints(kind, include_extras=True)
    order = dict.fromkeys(name for each in kind.__mro__ for name in get_annotations(each))
    known = {each.name: each for each in fields(kind)}
    keys = (_key(known[name], hints[name]) for name in order)
    return tuple(each for each in keys if each is not None)


def _key(each: "Field[Any]", hint: Any) -> Key | None:
    marks, hint = (hint.__metadata__, hint.__origin__) if get_origin(hint) is Annotated else ((), hint)
    if APART in marks:
        return None
    is_tuple = get_origin(hint) is tuple
    held = get_args(hint)[0] if is_tuple or get_origin(hint) in (Union, UnionType) else hint
    part = held if is_dataclass(held) else None
    is_list = is_tuple and part is not None
    read = _READERS.get(held, lambda value: value)
    name = next((mark.name for mark in marks if isinstance(mark, As)), each.name)
    is_told, is_always = OURS not in marks, ALWAYS in marks
    return Key(each.name, name, is_told, is_always, each.default, read, part, is_list)  # type: ignore[arg-type]


def _hours(value: float) -> Decimal:
    """Hours to two places, half up."""
    return Decimal(str(value)).quantize(HUNDREDTH, ROUND_HALF_UP)


def _corners(value: Sequence[Sequence[float]]) -> Polygon:
    return tuple((float(x) + 0.0, float(y) + 0.0) for x, y in value)


_READERS: dict[Any, Callable[[Any], Any]] = {
    str: str.strip,
    int: int,
    float: lambda value: float(value) + 0.0,
    Decimal: _hours,
    datetime: read_instant,
    date: read_day,
    bytes: lambda text: base64.b64decode(text, validate=True),
    Corner: _corners,
}

# -- from the file -------------------------------------------------------------------------------------


def read_all(
    kind: type[AnyWritten], parent: Mapping[str, Any], section: str, path: Path = (), hurt: Set[Path] = frozenset()
) -> tuple[AnyWritten, ...]:
    """The records of a section; entries that lost a value or lack what they need are passed over."""
    found = []
    for index, entry in enumerate(parent.get(section) or ()):
        here = (*path, section, index)
        if entry is not None and _is_whole(kind, entry, here, hurt):
            found.append(read_record(kind, entry, here, hurt))
    return tuple(found)


def _is_whole(kind: type[Written], entry: Mapping[str, Any], path: Path, hurt: Set[Path]) -> bool:
    return path not in hurt and shape_of(kind).required <= entry.keys()


def read_record(
    kind: type[AnyWritten], entry: Mapping[str, Any], path: Path = (), hurt: Set[Path] = frozenset()
) -> AnyWritten:
    """The record of an entry; null says what leaving the key out says."""
    values: dict[str, Any] = {}
    for each in keys_of(kind):
        value = entry.get(each.name)
        if value is None:
            continue
        if each.part is None:
            values[each.field] = each.read(value)
        elif each.is_list:
            values[each.field] = read_all(each.part, entry, each.name, path, hurt)
        elif _is_whole(each.part, value, (*path, each.name), hurt):
            values[each.field] = read_record(each.part, value, (*path, each.name), hurt)
    return kind(**values, path=path, given=shape_of(kind).fields_given(tuple(entry)))


# -- to the file ---------------------------------------------------------------------------------------


def document_of(record: Written, zone: str) -> dict[str, Any]:
    """The record as JSON values, nothing written that says nothing; times as clocks show them in the zone."""
    found, said = {}, record.as_written()
    for each in keys_of(type(record)):
        value = getattr(said, each.field)
        if _says_something(each, value):
            found[each.name] = _plain(each, value, zone)
    return found


def _says_something(each: Key, value: Any) -> bool:
    if value in (None, "", ()):
        return each.is_always
    return each.is_told or value != each.default


def _plain(each: Key, value: Any, zone: str) -> Any:
    if each.is_list:
        return [document_of(one, zone) for one in value]
    if isinstance(value, Written):
        return document_of(value, zone)
    return as_json(each.name, value, zone)


def as_json(name: str, value: Any, zone: str) -> Any:
    """A value of the key: hours, lengths and angles always with a fraction, other numbers where they have one.

    Never -0.0.
    """
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, float):
        whole = value.is_integer() and not name.endswith(("_m", "_deg"))
        return int(value) if whole else value + 0.0
    if isinstance(value, tuple):
        return [as_json(name, each, zone) if isinstance(each, tuple) else each + 0.0 for each in value]
    if isinstance(value, datetime):
        return written_instant(value, zone)
    if isinstance(value, bytes):
        return base64.b64encode(value).decode("ascii")
    return value.isoformat() if isinstance(value, date | time) else value


# -- to and from columns -------------------------------------------------------------------------------


def columns_of(record: Written, *others: str) -> dict[str, Any]:
    """The fields that are columns of the same name; `others` are not."""
    return {name: getattr(record, name) for name in shape_of(type(record)).plain_fields if name not in others}


def record_of(kind: type[AnyWritten], row: Any, /, **made: Any) -> AnyWritten:
    """The record of a stored row, its columns under their names; `made` holds what is not one of them."""
    values = {name: getattr(row, name) for name in shape_of(kind).plain_fields if name not in made}
    return kind(**values, **made, row=row.pk)
