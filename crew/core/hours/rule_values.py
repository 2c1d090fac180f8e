"""Single values of a rules document: each reader gives the value, or None with the problem told by its path."""

import json
import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date, time
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from crew.core.hours.problems import Problem
from crew.core.hours.rounding import minutes_in
from crew.core.hours.rules_text import Repeating

Problems = list[Problem]
Read = Callable[[Any, str, Problems], Any]
"""Takes a value, its path and the list that problems are added to."""

HIGHEST_RATE = 10
_PLACES = Decimal("0.0001")
_PLAIN_KEY = re.compile(r"[A-Za-z_]\w*", re.ASCII)
_CLOCK = re.compile(r"(\d\d?):(\d\d)(?::00)?", re.ASCII)
_MOST_SHOWN = 60


def key_path(path: str, key: str) -> str:
    """The path of a key: $.night.rate, or $["odd key"]."""
    return f"{path}.{key}" if _PLAIN_KEY.fullmatch(key) else f"{path}[{json.dumps(key[:_MOST_SHOWN])}]"


def hours(most: int) -> Read:
    """Hours from 0 to `most`, in whole minutes."""

    def read(value: Any, path: str, problems: Problems) -> int | None:
        number = _number(value, path, problems, 0, most)
        return None if number is None else minutes_in(number)

    return read


def rate(value: Any, path: str, problems: Problems) -> Decimal | None:
    """How many straight hours an hour is worth: 1 to 10, to four places."""
    number = _number(value, path, problems, 1, HIGHEST_RATE)
    return None if number is None else number.quantize(_PLACES, ROUND_HALF_UP).normalize()


def share(value: Any, path: str, problems: Problems) -> Decimal | None:
    """A part of a whole, 0 to 1."""
    return _number(value, path, problems, 0, 1)


def whole(least: int, most: int) -> Read:
    """A whole number within these."""

    def read(value: Any, path: str, problems: Problems) -> int | None:
        number = _number(value, path, problems, least, most)
        if number is not None and number != number.to_integral_value():
            problems.append(Problem("not-whole", path=path, data={"value": _shown(value)}))
            return None
        return None if number is None else int(number)

    return read


def minutes_of(known: Sequence[int]) -> Read:
    """One of these numbers of minutes."""

    def read(value: Any, path: str, problems: Problems) -> int | None:
        number = _decimal(value)
        if number is None or number not in known:
            problems.append(Problem("bad-minutes", path=path, data={"value": _shown(value), "known": tuple(known)}))
            return None
        return int(number)

    return read


def choice(known: Sequence[str]) -> Read:
    """One of these words."""

    def read(value: Any, path: str, problems: Problems) -> str | None:
        if not isinstance(value, str) or value not in known:
            problems.append(Problem("bad-choice", path=path, data={"value": _shown(value), "known": tuple(known)}))
            return None
        return value

    return read


def clock(value: Any, path: str, problems: Problems) -> time | None:
    """A time of day, written 08:00; 24:00 is midnight."""
    found = _CLOCK.fullmatch(value) if isinstance(value, str) else None
    hour, minute = (int(part) for part in found.groups()) if found else (99, 99)
    if (hour, minute) == (24, 0):
        return time(0)
    if hour > 23 or minute > 59:
        problems.append(Problem("bad-clock", path=path, data={"value": _shown(value)}))
        return None
    return time(hour, minute)


def day(value: Any, path: str, problems: Problems) -> date | None:
    """A date, written 2026-12-25."""
    try:
        found = date.fromisoformat(value) if isinstance(value, str) else None
    except ValueError:
        found = None
    if found is None or found.isoformat() != value:
        problems.append(Problem("bad-day", path=path, data={"value": _shown(value)}))
        return None
    return found


def listed(read: Read, *, one_is_enough: bool = False) -> Read:
    """A list of such values; one by itself where that is enough."""

    def read_list(value: Any, path: str, problems: Problems) -> tuple[Any, ...] | None:
        if one_is_enough and isinstance(value, Mapping):
            found = read(value, path, problems)
            return None if found is None else (found,)
        if not isinstance(value, list | tuple):
            problems.append(Problem("not-list", path=path))
            return None
        each = [read(entry, f"{path}[{index}]", problems) for index, entry in enumerate(value)]
        return tuple(entry for entry in each if entry is not None)

    return read_list


def values_in(document: Any, path: str, readers: Mapping[str, Read], problems: Problems) -> dict[str, Any]:
    """The values of an object by key, without those that are left out, null or wrong; unknown keys are told."""
    if not isinstance(document, Mapping):
        problems.append(Problem("not-object", path=path))
        return {}
    if isinstance(document, Repeating):
        problems += [Problem("duplicate-key", path=key_path(path, key)) for key in document.repeated]
    found = {}
    for key, value in document.items():
        if key not in readers:
            problems.append(Problem("unknown-key", path=key_path(path, str(key)), data={"known": tuple(readers)}))
        elif value is not None and (read := readers[key](value, key_path(path, key), problems)) is not None:
            found[key] = read
    return found


def _number(value: Any, path: str, problems: Problems, least: int, most: int) -> Decimal | None:
    number = _decimal(value)
    if number is None or not least <= number <= most:
        data = {"value": _shown(value), "least": least, "most": most}
        problems.append(Problem("bad-number", path=path, data=data))
        return None
    return number


def _decimal(value: Any) -> Decimal | None:
    """The number exactly as written; None where it is none, or not a finite one."""
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
        return None
    number = Decimal(repr(value)) if isinstance(value, float) else Decimal(value)
    return number if number.is_finite() else None


def _shown(value: Any) -> str:
    text = str(value) if isinstance(value, Decimal) else json.dumps(value, ensure_ascii=False, default=str)
    return text if len(text) <= _MOST_SHOWN else f"{text[: _MOST_SHOWN - 1]}…"
