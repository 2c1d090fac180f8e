"""From tokens to the parts of a statement: segments with their blocks, numbers and directions."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from shows.core.numbering.directions import (
    BARE_SIDES,
    Alternating,
    Depth,
    Direction,
    Outward,
    Ring,
    Row,
    Start,
    side_as_seen,
)
from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT, OTHER_SIDE
from shows.core.numbering.statement_words import Token
from venue.core.labels import label_key

MOST_NUMBERS = 60
_JOINING = {",", "and", "or", "/", "&"}
_START_KINDS = {"CLOCK": "clock", "BEARING": "bearing", "SIDE": "side", "LABEL": "label", "NUMBERS": "number"}


class NotReadable(Exception):
    """The words do not add up to a statement."""


@dataclass
class Segment:
    """A stretch of the statement about one block (or about the whole house where it names none)."""

    selectors: list[tuple[str, str]] = field(default_factory=list)
    numbers: frozenset[str] | None = None
    direction: Direction | None = None
    view: str | None = None
    is_closed: bool = False

    @property
    def is_empty(self) -> bool:
        return not (self.selectors or self.numbers or self.direction or self.view)


@dataclass
class Draft:
    """What a statement says before it is held against a house."""

    segments: list[Segment] = field(default_factory=list)
    in_one_row: bool = False
    by_position: bool = False
    by_level: bool = False
    used: frozenset[str] = frozenset()
    unused: frozenset[str] = frozenset()
    teams: dict[str, int] = field(default_factory=dict)

    @property
    def states_direction(self) -> bool:
        return any(segment.direction for segment in self.segments)


@dataclass(frozen=True)
class Part:
    """A token, or several joined into one meaning."""

    kind: str
    value: str = ""
    direction: Direction | None = None
    numbers: frozenset[str] = frozenset()


def draft_of(tokens: Sequence[Token], prompt_is_house_right: bool) -> Draft:
    """The draft that the tokens add up to; raises NotReadable where they do not."""
    if any(token.kind == "WORD" for token in tokens):
        raise NotReadable
    spoken = [token for token in tokens if token.kind not in {"FILL", "CLOCK_SET"}]
    if not spoken:
        raise NotReadable
    has_ring = any(token.kind == "ROTATION" for token in spoken)
    has_blocks = any(token.kind in {"ZONE", "NAME"} for token in spoken)
    parts = [_part(token, prompt_is_house_right) for token in spoken]
    parts = _join_numbers(parts, with_ranges=not has_blocks)
    parts = _join_alternation(parts)
    parts = _join_rows(_without_pauses(parts), has_ring)
    draft = _assembled(parts)
    _apply_views(draft.segments)
    _turn_from_below(draft.segments, any(token.kind == "FROM_BELOW" for token in spoken))
    return draft


def _part(token: Token, prompt_is_house_right: bool) -> Part:
    if token.kind == "SIDE" and "prompt" in token.value:
        prompt = HOUSE_RIGHT if prompt_is_house_right else HOUSE_LEFT
        return Part("SIDE", prompt if token.value == "prompt" else OTHER_SIDE[prompt])
    if token.kind == "NUMBER":
        return Part("NUMBERS", token.value, numbers=frozenset({label_key(token.value)}))
    if token.kind == "LIST":
        return Part("NUMBERS", token.value, numbers=frozenset(map(label_key, token.value.split("-"))))
    if token.kind == "RANGE":
        return Part("RANGE", token.value, numbers=_range(*token.value.split("..")))
    return Part(token.kind, token.value)


def _range(low: str, high: str) -> frozenset[str]:
    """The numbers from low to high as label keys: 1–4, T1–T4, T1–4, A–D."""
    first, last = label_key(low), label_key(high)
    if len(first) == len(last) == 1 and first.isalpha() and last.isalpha():
        return frozenset(map(chr, range(ord(first), ord(last) + 1))) or _refuse()
    prefix = first.rstrip("0123456789")
    start, end = first.removeprefix(prefix), last.removeprefix(prefix)
    if not (start.isdecimal() and end.isdecimal() and 0 <= int(end) - int(start) < MOST_NUMBERS):
        raise NotReadable
    return frozenset(f"{prefix}{number}" for number in range(int(start), int(end) + 1))


def _refuse() -> frozenset[str]:
    raise NotReadable


def _join_numbers(parts: list[Part], with_ranges: bool) -> list[Part]:
    """One part for "1, 2, 5 and 6"; ranges are joined only where no block could own them."""
    joined: list[Part] = []
    for part in parts:
        if part.kind == "RANGE" and with_ranges:
            part = replace(part, kind="NUMBERS")
        if part.kind == "NUMBERS" and len(joined) > 1 and _is_joining(joined[-1]) and joined[-2].kind == "NUMBERS":
            joined.pop()
            before = joined.pop()
            part = replace(part, value="", numbers=before.numbers | part.numbers)
        joined.append(part)
    return [replace(part, kind="NUMBERS") if part.kind == "RANGE" else part for part in joined]


def _is_joining(part: Part) -> bool:
    return part.kind == "SEP" and part.value in _JOINING


def _join_alternation(parts: list[Part]) -> list[Part]:
    """One ALTERNATING direction for "odd house left, even house right" and its turns."""
    named = [replace(part, kind=_parity(part)) for part in parts]
    joined: list[Part] = []
    at = 0
    while at < len(named):
        found = _alternation_at(named[at : at + 6])
        if found:
            direction, length = found
            joined.append(Part("DIRECTION", direction=direction))
            at += length
        else:
            joined.append(parts[at])
            at += 1
    return joined


def _parity(part: Part) -> str:
    if part.kind != "NUMBERS" or len(part.numbers) < 2:
        return part.kind
    rests = {int(number) % 2 for number in part.numbers if number.isdecimal()}
    if len(rests) != 1 or not all(number.isdecimal() for number in part.numbers):
        return part.kind
    return "ODD" if rests == {1} else "EVEN"


def _alternation_at(parts: list[Part]) -> tuple[Alternating, int] | None:
    """The alternation that the parts begin with, and how many of them it takes."""
    kinds = [part.kind for part in parts]
    if kinds[:2] not in (["ODD", "SIDE"], ["EVEN", "SIDE"]):
        return None
    length = 2
    first_kind, first_side = kinds[0], parts[1].value
    second = 3 if kinds[2:3] == ["SEP"] else 2
    other_kind = "EVEN" if first_kind == "ODD" else "ODD"
    if kinds[second : second + 2] == [other_kind, "SIDE"]:
        _check_opposite(first_side, parts[second + 1].value)
        length = second + 2
    if first_side in {"one", "other"}:
        return Alternating(None), length
    odd = first_side if first_kind == "ODD" else _opposite(first_side)
    return Alternating(odd), length


def _opposite(side: str) -> str:
    return {**OTHER_SIDE, "left": "right", "right": "left"}[side]


def _check_opposite(first: str, last: str) -> None:
    if last == "other" or (first in BARE_SIDES) != (last in BARE_SIDES):
        return
    if first == "one" or last != _opposite(first):
        raise NotReadable


def _without_pauses(parts: list[Part]) -> list[Part]:
    """The parts without the comma of "starting stage left, going to stage right"."""
    following = [*parts[1:], Part("")]
    return [part for part, after in zip(parts, following, strict=True) if (part.kind, after.kind) != ("SEP", "TO")]


def _join_rows(parts: list[Part], has_ring: bool) -> list[Part]:
    """One part for "house left to house right", for "starting house right", for the start of a ring."""
    joined: list[Part] = []
    at = 0
    while at < len(parts):
        part, length = _row_at(parts[at : at + 4]) or _start_at(parts[at : at + 2], has_ring) or (parts[at], 1)
        joined.append(part)
        at += length
    return joined


def _row_at(parts: list[Part]) -> tuple[Part, int] | None:
    lead = 1 if parts[0].kind == "START" else 0
    kinds = [part.kind for part in parts[lead : lead + 3]]
    between = parts[lead + 1] if len(parts) > lead + 1 else Part("")
    is_to = between.kind == "TO" or (between.kind, between.value[:1]) == ("SEP", "-")
    if len(kinds) < 3 or kinds[0] != "SIDE" or kinds[2] != "SIDE" or not is_to:
        return None
    first, last = parts[lead].value, parts[lead + 2].value
    if first in {"one", "other"} or last == "one":
        raise NotReadable
    _check_opposite(first, last)
    if first in BARE_SIDES and last not in BARE_SIDES and last != "other":
        first = OTHER_SIDE[last]
    return Part("DIRECTION", direction=Row(first)), lead + 3


def _start_at(parts: list[Part], has_ring: bool) -> tuple[Part, int] | None:
    """A start: of the ring where there is one, else of a row ("starting house right", "house left first")."""
    if len(parts) < 2:
        return _bare_ring_start(parts[0], has_ring)
    first, second = parts
    if has_ring and second.kind in _START_KINDS and (first.kind == "START" or first.numbers == {"1"}):
        return Part("RING_START", _START_KINDS[second.kind] + "=" + _start_value(second)), 2
    if (first.kind, second.kind) == ("START", "SIDE"):
        return Part("DIRECTION", direction=Row(_known(second.value))), 2
    if (first.kind, second.kind) == ("SIDE", "FIRST"):
        kind = "RING_START" if has_ring else "DIRECTION"
        return Part(kind, f"side={first.value}", direction=Row(_known(first.value))), 2
    return _bare_ring_start(first, has_ring)


def _bare_ring_start(part: Part, has_ring: bool) -> tuple[Part, int] | None:
    if has_ring and part.kind in {"CLOCK", "BEARING", "LABEL"}:
        return Part("RING_START", f"{_START_KINDS[part.kind]}={part.value}"), 1
    return None


def _start_value(part: Part) -> str:
    if part.kind == "NUMBERS":
        return next(iter(part.numbers)) if len(part.numbers) == 1 else next(iter(_refuse()))
    return _known(part.value) if part.kind == "SIDE" else part.value


def _known(side: str) -> str:
    if side in {"one", "other"}:
        raise NotReadable
    return side


class _Assembly:
    """Puts the parts into segments one after another; a part that finds no place makes it unreadable."""

    def __init__(self) -> None:
        self.draft = Draft()
        self.now = Segment()
        self.pending_without = False
        self.ring_start: Start | None = None

    def next_segment(self) -> None:
        if not self.now.is_empty:
            self.draft.segments.append(self.now)
        self.now = Segment()

    def take(self, part: Part) -> None:
        match part.kind:
            case "SEP" | "TO":
                self._separate(part)
            case "ZONE" | "NAME":
                self._name(part)
            case "NUMBERS":
                self._number(part)
            case "DIRECTION":
                self._direct(part.direction)
            case "DEPTH":
                self._direct(Depth("front" if part.value == "front" else "back"))
            case "ROTATION":
                self._direct(Ring(part.value == "cw", self.ring_start))
            case "RING_START":
                self._start_ring(part.value)
            case "OUTWARD" | "INWARD":
                self._outward(part.kind == "INWARD")
            case "VIEW":
                self._view(part.value)
            case "TEAM":
                number, size = part.value.split("=")
                self.draft.teams[label_key(number)] = int(size)
            case "UNUSED" | "WITHOUT":
                self._unused(part.kind)
            case "ONE_ROW":
                self.draft.in_one_row = True
            case "BY_POSITION":
                self.draft.by_position = True
            case "BY_LEVEL":
                self.draft.by_level = True
            case "FIRST" | "FROM_BELOW" | "START":
                pass
            case _:
                raise NotReadable

    def _separate(self, part: Part) -> None:
        if part.kind == "TO":
            raise NotReadable
        self.now.is_closed = not self.now.is_empty

    def _name(self, part: Part) -> None:
        starts_anew = self.now.selectors and self.now.is_closed
        if starts_anew or (self.now.direction and self.now.is_closed) or (self.now.selectors and self.now.direction):
            self.next_segment()
        self.now.selectors.append((part.kind, part.value))
        self.now.is_closed = False

    def _number(self, part: Part) -> None:
        if self.pending_without:
            self.draft.unused |= part.numbers
            self.pending_without = False
            return
        if self.now.numbers is not None or (self.now.selectors and self.now.direction and self.now.is_closed):
            self.next_segment()
        self.now.numbers = part.numbers

    def _unused(self, kind: str) -> None:
        if kind == "WITHOUT":
            self.pending_without = True
        elif self.now.numbers:
            self.draft.unused |= self.now.numbers
            self.now.numbers = None
        else:
            raise NotReadable

    def _direct(self, direction: Direction | None) -> None:
        if isinstance(self.now.direction, Outward) and isinstance(direction, Row):
            direction = replace(self.now.direction, first=direction.first)
        elif self.now.direction is not None:
            self.next_segment()
        self.now.direction = direction

    def _outward(self, inward: bool) -> None:
        current = self.now.direction
        if isinstance(current, Alternating):
            self.now.direction = replace(current, inward=inward)
        elif isinstance(current, Row):
            self.now.direction = Outward(current.first, inward)
        elif current is None:
            self.now.direction = Outward(None, inward)
        else:
            raise NotReadable

    def _view(self, view: str) -> None:
        if self.now.view not in (None, view):
            self.next_segment()
        self.now.view = view

    def _start_ring(self, text: str) -> None:
        kind, value = text.split("=")
        start = Start(kind, value)  # type: ignore[arg-type]
        if isinstance(self.now.direction, Ring):
            if self.now.direction.start not in (None, start):
                raise NotReadable
            self.now.direction = replace(self.now.direction, start=start)
        else:
            self.ring_start = start


def _assembled(parts: Sequence[Part]) -> Draft:
    assembly = _Assembly()
    for part in parts:
        assembly.take(part)
    assembly.next_segment()
    draft = assembly.draft
    _settle_numbers(draft)
    if assembly.pending_without or not (
        draft.segments
        or draft.used
        or draft.unused
        or draft.teams
        or draft.in_one_row
        or draft.by_position
        or draft.by_level
    ):
        raise NotReadable
    return draft


def _settle_numbers(draft: Draft) -> None:
    """Numbers without a block declare what is used."""
    for segment in draft.segments:
        if segment.numbers and not segment.selectors:
            draft.used |= segment.numbers
            segment.numbers = None
    draft.segments = [segment for segment in draft.segments if not segment.is_empty]


def _apply_views(segments: list[Segment]) -> None:
    """A viewpoint makes bare sides plain: its own segment's, or everybody's where only one was named."""
    views = {segment.view for segment in segments if segment.view}
    only = next(iter(views)) if len(views) == 1 else None
    for segment in segments:
        view = segment.view or only
        if view and segment.direction:
            segment.direction = seen_from(segment.direction, view)
    segments[:] = [segment for segment in segments if segment.selectors or segment.direction]


def seen_from(direction: Direction, view: str) -> Direction:
    """The direction with its bare sides said plainly, as seen from the house or from the stage."""
    whose = "house" if view == "house" else "stage"
    if isinstance(direction, Row):
        return Row(side_as_seen(direction.first, whose))  # type: ignore[arg-type]
    if isinstance(direction, Alternating) and direction.odd:
        return replace(direction, odd=side_as_seen(direction.odd, whose))  # type: ignore[arg-type]
    if isinstance(direction, Outward) and direction.first:
        return replace(direction, first=side_as_seen(direction.first, whose))  # type: ignore[arg-type]
    if isinstance(direction, Ring) and direction.start and direction.start.kind == "side":
        return replace(direction, start=Start("side", side_as_seen(direction.start.value, whose)))  # type: ignore[arg-type]
    return direction


def _turn_from_below(segments: list[Segment], from_below: bool) -> None:
    for segment in segments:
        if from_below and isinstance(segment.direction, Ring):
            segment.direction = replace(segment.direction, clockwise=not segment.direction.clockwise)
