"""From bytes to JSON, and what can be wrong with it before anybody asks what it says."""

import json
import math
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any

from venue.house_file.paths import Path
from venue.house_file.problems import HouseFileRefused, Problem

MOST_BYTES = 100_000_000
"""More than a house with decades of readings has, and some hundred pictures in its log."""
DEEPEST = 12
"""Levels of nesting; the format itself has eight."""
MOST_VALUES = 3_000_000
"""Some 400,000 readings."""
MOST_ENTRIES = 400_000
"""In one list or object: as many as the longest list of the format may have."""
MOST_DIGITS = 400
"""Longer numbers are greater than any that can be kept."""

_HALF_CHARACTER = re.compile("[\ud800-\udfff]")


class Repeating(dict):
    """A JSON object in which keys stood twice: `repeated` names them."""

    repeated: tuple[str, ...] = ()


def parsed(data: bytes) -> tuple[Any, list[Problem]]:
    """The JSON document, and what is wrong with it although it can be read.

    Raises HouseFileRefused where there is no document: not UTF-8, not JSON, too large, nested too deeply.
    """
    try:
        document = json.loads(_text(data), object_pairs_hook=_object, parse_int=_whole_number, parse_constant=float)
    except json.JSONDecodeError as error:
        raise _refusal("not-json", line=error.lineno, column=error.colno, reason=error.msg) from error
    except RecursionError as error:
        raise _refusal("too-deep", deepest=DEEPEST) from error
    return document, list(_faults(document))


def _refusal(code: str, **data: Any) -> HouseFileRefused:
    return HouseFileRefused([Problem((), code, data)])


def _text(data: bytes) -> str:
    if len(data) > MOST_BYTES:
        raise _refusal("too-large", most_mb=MOST_BYTES // 1_000_000)
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _refusal("utf-16")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refusal("not-utf-8", line=data.count(b"\n", 0, error.start) + 1) from error
    if not text.strip():
        raise _refusal("empty")
    return text


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    document = dict(pairs)
    if len(document) == len(pairs):
        return document
    repeating = Repeating(document)
    times = Counter(key for key, _value in pairs)
    repeating.repeated = tuple(key for key in document if times[key] > 1)
    return repeating


def _whole_number(text: str) -> int | float:
    return int(text) if len(text) <= MOST_DIGITS else math.inf


def _faults(document: Any) -> Iterator[Problem]:
    """Keys that stand twice, numbers and texts that can't be kept, at any depth."""
    yield from _faults_of((), document)
    waiting: list[tuple[Path, Any]] = [((), document)]
    values = 0
    while waiting:
        path, container = waiting.pop()
        entries = len(container) if isinstance(container, dict | list) else 0
        values += entries
        if entries > MOST_ENTRIES or values > MOST_VALUES:
            raise _refusal("too-many-values", most=MOST_VALUES)
        inside = list(_inside(container))
        if inside and len(path) >= DEEPEST:
            raise _refusal("too-deep", deepest=DEEPEST)
        for key, value in inside:
            yield from _faults_of((*path, key), value)
        waiting.extend(((*path, key), value) for key, value in reversed(inside) if isinstance(value, dict | list))


def _inside(container: Any) -> Iterable[tuple[str | int, Any]]:
    if isinstance(container, dict):
        return container.items()
    return enumerate(container) if isinstance(container, list) else ()


def _faults_of(path: Path, value: Any) -> Iterator[Problem]:
    if isinstance(value, Repeating):
        yield from (Problem((*path, key), "duplicate-key", {"key": key}) for key in value.repeated)
    elif isinstance(value, float) and not math.isfinite(value):
        yield Problem(path, "not-finite")
    elif isinstance(value, str) and _HALF_CHARACTER.search(value):
        yield Problem(path, "half-character")
