"""A place in words ("rail, 2nd from house left") to the slot it names.

A side alone fits only if it has one slot; a side with "Nth" counts from that side's end; "Nth from center"
counts outward on that side, the center slot not counted. Anything else names no slot.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from shows.core.numbering.directions import BARE_SIDES, Depth, Row, Whose, side_as_seen
from shows.core.numbering.order import Group, halves, is_end_stage, ordered_groups, side_of
from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT, OTHER_SIDE, House, Spot
from shows.core.numbering.statement import positions_called
from shows.core.numbering.statement_words import KIND_WORDS, Token, clean, scan

_ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth",
)  # fmt: skip
_CENTER = re.compile(r"(?:dead\s+)?(?:cent(?:er|re)(?:\s*line)?|middle|ctr\.?|c\.?)")
_NTH = re.compile(rf"(?P<digits>\d{{1,3}})(?:st|nd|rd|th)?\b|(?P<word>{'|'.join(_ORDINALS)})\b")
_WHOSE = {
    "house": re.compile(r"\b(?:house|audience|auditorium|f\.?o\.?h\.?|front|hl|hr)\b"),
    "stage": re.compile(r"\b(?:stage|performers?|actors?|truss|deck|sl|sr)\b"),
}


@dataclass(frozen=True)
class Found:
    slot: int


@dataclass(frozen=True)
class Within:
    """The words name positions with several slots and nothing finer."""

    positions: frozenset[int]


@dataclass(frozen=True)
class Tied:
    """The place falls among slots that nothing orders."""

    slots: tuple[int, ...]


@dataclass(frozen=True)
class Unknown:
    text: str


Place = Found | Within | Tied | Unknown


@dataclass(frozen=True)
class _Words:
    """What a line says of its place; `positions` is None where it names none."""

    positions: tuple[int, ...] | None
    side: str | None
    nth: int | None
    origin: str | None  # where Nth counts from: a side, "center", "front" or "back"


class _NotUnderstood(Exception):
    pass


def place_text(spot: Spot) -> str:
    """The place words of a spot as one text, empty where it has none."""
    return ", ".join(text for text in (spot.position, spot.nth, spot.side) if text)


def positions_named(spot: Spot, house: House) -> frozenset[int]:
    """The positions that a spot's words name, empty where they name none."""
    try:
        words = _words(spot, house)
    except _NotUnderstood:
        return frozenset()
    return frozenset(words.positions or ()) if words else frozenset()


def has_bare_side(spot: Spot, house: House) -> bool:
    """Whether the place says left or right and nobody said whose."""
    try:
        words = _words(spot, house)
    except _NotUnderstood:
        return False
    return words is not None and bool({words.side, words.origin} & set(BARE_SIDES))


def find_place(spot: Spot, house: House, whose: Whose) -> Place | None:
    """The slot that a spot's place words name; None where it has no place words."""
    try:
        words = _words(spot, house)
        return None if words is None else _find(words, house, whose, place_text(spot))
    except _NotUnderstood:
        return Unknown(place_text(spot))


def _words(spot: Spot, house: House) -> _Words | None:
    return _read_words(spot.position or "", spot.side or "", spot.nth or "", spot.whose_left or "", house)


@lru_cache(maxsize=4096)
def _tokens(text: str, names: tuple[str, ...], words: tuple[str, ...]) -> tuple[Token, ...]:
    return tuple(token for token in scan(text, names, words) if token.kind not in {"FILL", "SEP", "START"})


def _read_words(position: str, side: str, nth: str, whose: str, house: House) -> _Words | None:
    if not (position or side or nth):
        return None
    named, side_in_position = _read_position(clean(position), house)
    number, origin = _read_nth(clean(nth))
    said = _read_side(clean(side)) or side_in_position
    viewer = _read_whose(clean(whose))
    if viewer:
        said, origin = (side_as_seen(word, viewer) if word in BARE_SIDES else word for word in (said, origin))
    return _Words(named, said, number, origin)


def _read_position(text: str, house: House) -> tuple[tuple[int, ...] | None, str | None]:
    """The positions that a text names, and the side if it says one too ("booth HL")."""
    if not text:
        return None, None
    names = tuple(clean(each.name) for each in house.positions)
    if text in names:
        return tuple(positions_called(text, house)), None
    if _CENTER.fullmatch(text):
        return None, "center"
    words = {*KIND_WORDS, *(word for name in names for word in re.findall(r"[^\W\d]{3,}", name))}
    chosen, side = set(range(len(names))), None
    tokens = _tokens(text, names, tuple(sorted(words)))
    if not tokens:
        raise _NotUnderstood
    for token in tokens:
        if token.kind in {"ZONE", "NAME"}:
            chosen &= set(positions_called(token.value, house, zone=token.kind == "ZONE"))
        elif token.kind == "SIDE" and side is None:
            side = token.value
        else:
            raise _NotUnderstood
    if not chosen:
        raise _NotUnderstood
    return tuple(sorted(chosen)), _plain_side(side, house)


def _plain_side(side: str | None, house: House | None = None) -> str | None:
    if side in {"one", "other"}:
        raise _NotUnderstood
    if side in {"prompt", "opposite prompt"}:
        is_right = house is None or house.prompt_side == "stage left"
        prompt = HOUSE_RIGHT if is_right else HOUSE_LEFT
        return prompt if side == "prompt" else OTHER_SIDE[prompt]
    return side


def _read_side(text: str) -> str | None:
    if not text:
        return None
    if _CENTER.fullmatch(text):
        return "center"
    tokens = _tokens(text, (), ())
    if len(tokens) != 1 or tokens[0].kind != "SIDE":
        raise _NotUnderstood
    return _plain_side(tokens[0].value)


def _read_nth(text: str) -> tuple[int | None, str | None]:
    """The ordinal and where it counts from: ("2nd from center") gives (2, "center")."""
    if not text:
        return None, None
    if _CENTER.fullmatch(text):
        return None, "center"
    found = _NTH.match(text)
    if not found:
        raise _NotUnderstood
    number = int(found["digits"]) if found["digits"] else _ORDINALS.index(found["word"]) + 1
    rest = re.sub(r"^(?:\s*(?:spot|light|place|from|off|of|out|in|the)\b)*\s*", "", text[found.end() :])
    if not rest:
        return number, None
    if re.fullmatch(r"(?:front|downstage|ds)", rest):
        return number, "front"
    if re.fullmatch(r"(?:back|rear|upstage|us)", rest):
        return number, "back"
    return number, _read_side(rest)


def _read_whose(text: str) -> Whose | None:
    says_house, says_stage = (bool(_WHOSE[whose].search(text)) for whose in ("house", "stage"))
    if re.search(r"(?:look|fac)\w*\s+(?:at\s+|to(?:wards?)?\s+)?(?:the\s+)?stage", text):
        return "house"
    if says_house == says_stage:
        return None
    return "house" if says_house else "stage"


def _find(words: _Words, house: House, whose: Whose, text: str) -> Place:
    positions = words.positions if words.positions is not None else tuple(range(len(house.positions)))
    slots = [slot for index in positions for slot in house.slots_at[index]]
    side = side_as_seen(words.side, whose) if words.side else None
    origin = side_as_seen(words.origin, whose) if words.origin else None
    if words.nth is None and side is None and origin is None:
        return Found(slots[0]) if len(slots) == 1 else Within(frozenset(positions))
    if words.nth is None:
        fitting = [slot for slot in slots if _side(house, slot) == (side or origin)]
        return Found(fitting[0]) if len(fitting) == 1 else Unknown(text)
    return _nth(house, positions, slots, words.nth, side, origin) or Unknown(text)


def _side(house: House, slot: int) -> str:
    return side_of(house, slot, house.slots_at[house.position_of[slot]])


def _nth(
    house: House,
    positions: Sequence[int],
    slots: Sequence[int],
    nth: int,
    side: str | None,
    origin: str | None,
) -> Place | None:
    if origin in {"front", "back"}:
        on_side = [slot for slot in slots if side in (None, _side(house, slot))]
        groups = _on_side(
            ordered_groups(house, positions, Depth("front" if origin == "front" else "back"), False), on_side
        )
    elif origin == "center":
        groups = _from_center(house, positions, slots, side)
    else:
        end = origin or side
        if end not in OTHER_SIDE or (origin and side and origin != side):
            return Found(slots[0]) if len(slots) == 1 and nth == 1 and end is None else None
        groups = _across(house, positions, end)
    return _count_to(groups, nth)


def _on_side(groups: Sequence[Group], slots: Sequence[int]) -> list[Group]:
    return [Group(kept) for group in groups if (kept := tuple(slot for slot in group.slots if slot in slots))]


def _across(house: House, positions: Sequence[int], end: str) -> list[Group]:
    """The row counted from an end; nothing where several positions can't be pooled or a ring has no ends."""
    if any(house.positions[index].zone == "bowl" for index in positions) and not is_end_stage(house):
        return []
    groups = ordered_groups(house, positions, Row(end), one_row=True)
    rows = {house.positions[index].zone == "bowl" for index in positions}
    is_split = len(rows) > 1 or sum(house.positions[index].zone == "side" for index in positions) > 1
    return [] if is_split else groups


def _from_center(house: House, positions: Sequence[int], slots: Sequence[int], side: str | None) -> list[Group]:
    if side not in OTHER_SIDE or not _across(house, positions, HOUSE_LEFT):
        return []
    return halves(house, positions, slots).half(side)


def _count_to(groups: Sequence[Group], nth: int) -> Place | None:
    """The nth slot of the groups; inside a group that nothing orders, the whole group."""
    passed = 0
    for group in groups:
        passed += len(group.slots)
        if passed >= nth >= 1:
            return Found(group.slots[0]) if len(group.slots) == 1 else Tied(group.slots)
    return None
