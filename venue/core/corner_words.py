"""Corners of the plan as people write them, one a line: "12' house left, 3' upstage".

                    upstage (+y)
                        ^
     house left  -------+-------  house right      the cross is where the center line
    (stage right)       |         (stage left, +x) meets the plaster line, on the deck
                        v
              downstage, toward the house

A part of a line says how far to which side, the other how far upstage or downstage; either may stand first. "center"
and "plaster line" have no distance, and a plain 0 is on the line that the other part leaves over.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from venue.core.labels import plain_text
from venue.core.lengths import LengthProblem, UnitSystem, exact_text, read_length
from venue.core.polygons import Corner, Polygon

Axis = Literal["across", "along"]
Code = Literal[
    "parts", "no-side", "no-direction", "which-side", "both-across", "both-along", "no-distance", "at-center",
    "at-plaster", "minus", "too-far", "unreadable", "comma", "inches", "fraction",
]  # fmt: skip

FARTHEST_M = 1000.0
"""No corner is farther from the center line or the plaster line."""
_LONGEST_LENGTH = 40
_BETWEEN = re.compile(r";|(?<!\d),|,(?!\d)")  # a comma between two digits is a decimal one
_OF_CENTER = r"(?: of (?:the )?cent(?:er|re)(?: line)?)?"
_OF_PLASTER = r"(?: of (?:the )?plaster(?: ?line)?)?"
_PHRASES: tuple[tuple[str, Axis, int], ...] = (
    (rf"(?:house[ -]?left|stage[ -]?right|hl|sr){_OF_CENTER}", "across", -1),
    (rf"(?:house[ -]?right|stage[ -]?left|hr|sl){_OF_CENTER}", "across", 1),
    (r"(?:on |at )?(?:the )?cent(?:er|re)(?: ?line)?", "across", 0),
    (rf"(?:up ?stage|us){_OF_PLASTER}", "along", 1),
    (rf"(?:down ?stage|ds|towards? the house){_OF_PLASTER}", "along", -1),
    (r"(?:on |at )?(?:the )?plaster(?: ?line)?", "along", 0),
)
_WORDS = tuple((re.compile(rf"(?<![a-z])(?:{words})(?![a-z])"), axis, sign) for words, axis, sign in _PHRASES)
_BARE_SIDE = re.compile(r"(?<![a-z])(?:left|right)(?![a-z])")


@dataclass(frozen=True)
class LineProblem:
    """Why a line is no corner: its number from 1, what it is about as it was written, and the code."""

    line: int
    text: str
    code: Code


@dataclass(frozen=True)
class CornersRead:
    """The corners (x, y) [m] of the lines that could be read, and what is wrong with the others."""

    corners: Polygon
    problems: tuple[LineProblem, ...]


@dataclass(frozen=True)
class _Part:
    """A distance with its sign [m], and the axis that its words name; None where they name none."""

    text: str
    axis: Axis | None
    meters: float


class _NoCorner(ValueError):
    def __init__(self, code: Code, text: str) -> None:
        super().__init__(code)
        self.code, self.text = code, text


def read_corners(text: str, system: UnitSystem) -> CornersRead:
    """The corners that the lines say, bare numbers in the units of the house; empty lines count for nothing."""
    corners: list[Corner] = []
    problems: list[LineProblem] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not plain_text(line):
            continue
        try:
            corners.append(_corner(line, system))
        except _NoCorner as problem:
            problems.append(LineProblem(number, problem.text, problem.code))
    return CornersRead(tuple(corners), tuple(problems))


def _corner(line: str, system: UnitSystem) -> Corner:
    parts = [part.strip() for part in _BETWEEN.split(line.strip(" \t,;"))]
    if len(parts) != 2 or not all(map(plain_text, parts)):
        raise _NoCorner("parts", line.strip())
    first, second = (_part(part, system) for part in parts)
    if first.axis is not None and first.axis == second.axis:
        raise _NoCorner("both-across" if first.axis == "across" else "both-along", line.strip())
    across, along = (second, first) if first.axis == "along" or second.axis == "across" else (first, second)
    return _on(across, "across"), _on(along, "along")


def _on(part: _Part, axis: Axis) -> float:
    """The part's distance on the axis; one that names none has to be 0."""
    if part.axis is None and part.meters:
        bare = axis == "across" and _BARE_SIDE.search(part.text.casefold())
        raise _NoCorner("which-side" if bare else "no-side" if axis == "across" else "no-direction", part.text)
    return part.meters + 0.0


def _part(text: str, system: UnitSystem) -> _Part:
    plain = plain_text(text.replace("″", '"').replace("′", "'")).casefold()
    for words, axis, sign in _WORDS:
        found = words.search(plain)
        if found:
            rest = f"{plain[: found.start()]} {plain[found.end() :]}".strip()
            return _Part(text, axis, _signed(rest, text, axis, sign, system))
    bare = _BARE_SIDE.sub("", plain).strip()
    return _Part(text, None, _distance(bare, text, system))


def _signed(rest: str, text: str, axis: Axis, sign: int, system: UnitSystem) -> float:
    if sign == 0:
        if rest and _distance(rest, text, system):
            raise _NoCorner("at-center" if axis == "across" else "at-plaster", text)
        return 0.0
    return sign * _distance(rest, text, system)


def _distance(plain: str, text: str, system: UnitSystem) -> float:
    if len(plain) > _LONGEST_LENGTH:
        raise _NoCorner("unreadable", text)
    try:
        meters = read_length(plain, system).meters
    except LengthProblem as problem:
        raise _NoCorner("no-distance" if problem.code == "empty" else problem.code, text) from problem
    if meters < 0:
        raise _NoCorner("minus", text)
    if meters > FARTHEST_M:
        raise _NoCorner("too-far", text)
    return meters


def write_corners(corners: Iterable[Sequence[float]]) -> str:
    """Text that reads as exactly these corners in any house: "4.5 m house left, 2 m upstage"."""
    return "\n".join(f"{_across_text(x)}, {_along_text(y)}" for x, y in corners)


def _across_text(x: float) -> str:
    return "center" if x == 0 else f"{exact_text(abs(x))} house {'left' if x < 0 else 'right'}"


def _along_text(y: float) -> str:
    return "plaster line" if y == 0 else f"{exact_text(abs(y))} {'upstage' if y > 0 else 'downstage'}"


def corners_as_typed(corners: Sequence[Sequence[float]], text: str, system: UnitSystem) -> str:
    """The text as typed while it still reads as the corners, else text that reads as exactly these."""
    read = read_corners(text, system)
    reads = not read.problems and read.corners == tuple((float(x), float(y)) for x, y in corners)
    return text if reads else write_corners(corners)
