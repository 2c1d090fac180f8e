"""What stands in the cells of a file of people: grades, days, certifications."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from venue.core.names import name_key

CellCode = Literal[
    "bad-experience",
    "bad-number",
    "bad-date",
    "unknown-certification",
    "which-house",
    "unknown-house",
    "house-not-asked",
]

EXPERIENCES: Mapping[str, frozenset[str]] = {
    "none": frozenset({"none", "none yet", "no", "new", "never", "0"}),
    "some": frozenset({"some", "some shows", "yes"}),
    "lead": frozenset({"lead", "has led", "led", "leads", "head spot"}),
}
_HELD = frozenset({"yes", "y", "x", "held", "for good", "ok"})
_NOT_HELD = frozenset({"", "no", "n", "none", "-", "–"})
_DAY = re.compile(r"(\d{4})-(\d\d?)-(\d\d?)", re.ASCII)
YEARS = (1990, 2100)


@dataclass(frozen=True)
class Known:
    """What a roster keeps, by key: each kind of certification and whether it is of one house; the houses served."""

    kinds: Mapping[str, bool]
    houses: Sequence[str] = ()


@dataclass(frozen=True)
class Held:
    """A certification as a file has it: the keys of its kind and its house ("" for none), its last day if written."""

    kind: str
    house: str = ""
    expires_on: date | None = None


def read_experience(written: str) -> str | CellCode:
    """The code of the experience, or "bad-experience"."""
    key = name_key(written)
    return next((code for code, words in EXPERIENCES.items() if key in words), "bad-experience")


def read_whole(written: str, low: int, high: int) -> int | None:
    """A whole number from `low` to `high`; None for anything else."""
    plain = written.removesuffix(".0")
    if not (plain.isascii() and plain.isdigit() and len(plain) <= 9):
        return None
    return int(plain) if low <= int(plain) <= high else None


def read_day(written: str) -> date | None:
    """The day in the form 2027-03-31, None for anything else: 3/4/2027 may be read in two ways."""
    parts = _DAY.fullmatch(written.strip())
    if parts is None:
        return None
    try:
        day = date(*map(int, parts.groups()))
    except ValueError:
        return None
    return day if YEARS[0] <= day.year <= YEARS[1] else None


def read_held(written: str, known: Known) -> Held | CellCode:
    """One certification of a list: "Climb and harness: 2027-03-31", "House orientation (Lantern Street)"."""
    found = read_kind(written, known)
    if found != "unknown-certification":
        return found
    head, _colon, tail = written.rpartition(":")
    found = read_kind(head, known)
    if not isinstance(found, Held):
        return found
    day = read_day(tail)
    return "bad-date" if day is None else Held(found.kind, found.house, day)


def read_under(heading: Held, written: str) -> Held | CellCode | None:
    """What a cell says under a column named after a certification: its last day, that it is held, or nothing."""
    key = name_key(written)
    if key in _NOT_HELD:
        return None
    if key in _HELD:
        return heading
    day = read_day(written)
    return "bad-date" if day is None else Held(heading.kind, heading.house, day)


def read_kind(written: str, known: Known) -> Held | CellCode:
    """A kind of certification, with its house in parentheses where it is of one and the roster serves several."""
    kind, house = name_key(written), ""
    text = written.strip()
    if kind not in known.kinds and text.endswith(")"):
        splits = ((text[:at], text[at + 1 : -1]) for at, mark in enumerate(text) if mark == "(")
        pairs = ((name_key(before), name_key(inside)) for before, inside in splits)
        kind, house = next((pair for pair in pairs if pair[0] in known.kinds), ("", ""))
    if kind not in known.kinds:
        return "unknown-certification"
    return _in_house(kind, house, known)


def _in_house(kind: str, house: str, known: Known) -> Held | CellCode:
    if not known.kinds[kind]:
        return "house-not-asked" if house else Held(kind)
    if house:
        return Held(kind, house) if house in known.houses else "unknown-house"
    return Held(kind, known.houses[0]) if len(known.houses) == 1 else "which-house"
