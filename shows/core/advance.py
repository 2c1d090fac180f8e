"""What is still open between a show and a house by what is on file, and the parts of what a tour's head confirms.

told of each number, flags of the numbering, findings --open_points--> points, each owed by one side
parts of an answer --digests--> a hash a part --changed_parts--> what is not as it was confirmed
"""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from shows.core.checked_content import digest
from shows.core.fit.records import Finding
from shows.core.numbering.records import Flag

Side = Literal["house", "tour"]
FORMAT = {"format": "throwbook-advance", "version": 1}
PARTS = ("show", "numbers", "findings", "points")
"""What an answer is put together from, in the order in which it is told."""


@dataclass(frozen=True)
class Told:
    """What is told of one number so far. `says_place`: its paperwork names a label or a place by itself."""

    number: str
    has_place: bool
    says_place: bool
    says_frames: bool
    says_gel_by: bool
    says_on_camera: bool


@dataclass(frozen=True)
class Numbering:
    """What the comparison left open. `kind` is the verdict's; `is_asked`: the tour has to answer before it counts.

    `is_stated`: the show says how it counts. `way_is_open`: there are ways out and nobody chose one.
    """

    kind: str
    is_asked: bool
    is_stated: bool
    way_is_open: bool
    flags: tuple[Flag, ...] = ()


@dataclass(frozen=True)
class OpenPoint:
    """Something that nobody told or decided yet. `about` tells it from others of its code.

    `names` are the show numbers, or the codes of colors, that it is about; none where it is about the whole show.
    """

    code: str
    owed_by: Side
    about: str = ""
    names: tuple[str, ...] = ()
    flag: Flag | None = field(default=None, compare=False)
    findings: tuple[Finding, ...] = field(default=(), compare=False)

    @property
    def key(self) -> str:
        return f"{self.code}:{self.about}"


def open_points(
    told: Iterable[Told],
    numbering: Numbering,
    *,
    says_frame_1_end: bool,
    unexplained: Sequence[str],
    undecided: Iterable[Finding],
) -> tuple[OpenPoint, ...]:
    """Everything open, the numbering first. `undecided` are the findings that stop the show; the tour's are taken.

    A show without numbers has nothing open but its paperwork.
    """
    told = tuple(told)
    if not told:
        return (OpenPoint("no-numbers", "tour"),)
    points = [*_of_numbering(numbering, told), *_of_numbers(told)]
    if not says_frame_1_end:
        points.append(OpenPoint("no-frame-1-end", "tour"))
    if unexplained:
        points.append(OpenPoint("colors", "tour", names=tuple(unexplained)))
    return (*points, *_of_findings(undecided))


def _of_numbering(numbering: Numbering, told: Sequence[Told]) -> Iterator[OpenPoint]:
    if numbering.kind == "fix":
        yield OpenPoint("against-rule", "tour")
    questions = [point for flag in numbering.flags for point in _of_flag(flag, numbering.is_asked)]
    yield from questions
    is_needed = not all(each.says_place for each in told)
    if is_needed and not numbering.is_stated and not any(point.code == "how-it-counts" for point in questions):
        yield OpenPoint("no-statement", "tour")
    if numbering.way_is_open:
        yield OpenPoint("way", "house")


def _of_flag(flag: Flag, is_asked: bool) -> Iterator[OpenPoint]:
    """A flag that only the tour can answer; spare places and order in a row are the house's own."""
    if flag.flag == "unclear":
        yield from (OpenPoint("unclear", "tour", word, flag=flag) for word in _texts(flag, "open"))
    elif flag.flag == "convention-missing" and is_asked:
        yield OpenPoint("how-it-counts", "tour", names=_texts(flag, "numbers"), flag=flag)
    elif flag.flag in _ASKED_FLAGS:
        about = json.dumps(flag.data, sort_keys=True, default=list, ensure_ascii=False)
        yield OpenPoint(flag.flag, "tour", digest(about)[:16], flag=flag)


_ASKED_FLAGS = frozenset({"duplicate", "unknown-label", "unknown-place", "missing-number"})


def _texts(flag: Flag, name: str) -> tuple[str, ...]:
    return tuple(str(each) for each in flag.data.get(name, ()))  # type: ignore[attr-defined]


def _of_numbers(told: Sequence[Told]) -> Iterator[OpenPoint]:
    """What is not told, a point a kind with the numbers that it concerns."""
    lacking: Mapping[tuple[str, Side], list[str]] = {
        ("no-place", "house"): [each.number for each in told if not each.has_place],
        ("no-frames", "tour"): [each.number for each in told if not each.says_frames],
        ("no-gel-by", "tour"): [each.number for each in told if not each.says_gel_by],
        ("no-on-camera", "tour"): [each.number for each in told if not each.says_on_camera],
    }
    yield from (OpenPoint(code, side, names=tuple(names)) for (code, side), names in lacking.items() if names)


def _of_findings(undecided: Iterable[Finding]) -> Iterator[OpenPoint]:
    """Those that the show's road crew decides, a point a kind; what nobody may decide away is put right, not agreed."""
    kinds: dict[str, list[Finding]] = {}
    for finding in undecided:
        if finding.decider == "road" and finding.may_be_decided:
            kinds.setdefault(finding.code, []).append(finding)
    for code, findings in kinds.items():
        numbers = tuple(dict.fromkeys(finding.number for finding in findings))
        yield OpenPoint("undecided", "tour", code, numbers, findings=tuple(findings))


def digests(parts: Mapping[str, Any]) -> dict[str, str]:
    """SHA-256 of each part by its name, and of all of them as "whole". Whatever JSON does not know is taken as text."""
    texts = {name: _as_text(parts[name]) for name in PARTS}
    return {**{name: digest(text) for name, text in texts.items()}, "whole": digest(_as_text({**FORMAT, **parts}))}


def _as_text(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), default=str)


def changed_parts(before: Mapping[str, Any], now: Mapping[str, str]) -> tuple[str, ...]:
    """The names of the parts that are not as they were; every part where it is not known how they were."""
    return tuple(name for name in PARTS if before.get(name) != now[name])
