"""Reading the show's own statement of how it counts.

`read_statement` gives a `Statement`, or an `Unreadable` that quotes the text and says what it could be. Words
that nobody knows make the whole statement unreadable: an exception passed over would be a guess.
"""

import re
from collections.abc import Iterable, Sequence

from shows.core.numbering.directions import Block, Direction, Statement, Unreadable
from shows.core.numbering.records import House
from shows.core.numbering.statement_parts import Draft, NotReadable, Segment, draft_of
from shows.core.numbering.statement_words import KIND_WORDS, clean, scan

LONGEST = 600
_RESERVED = {
    "house",
    "stage",
    "left",
    "right",
    "front",
    "rear",
    "side",
    "sides",
    "center",
    "overhead",
    "bowl",
}


def read_statement(text: str, house: House) -> Statement | Unreadable:
    """The statement read against a house: its position names, its prompt side."""
    try:
        return _resolved(_draft(text, house), house)
    except NotReadable:
        return Unreadable(text, could_be(text, house))


def reads_as_statement(text: str, house: House | None = None) -> bool:
    """Whether a line by itself states a direction (a title such as "Front truss" does not)."""
    try:
        return _draft(text, house).states_direction
    except NotReadable:
        return False


def could_be(text: str, house: House) -> tuple[str, ...]:
    """Statements near to a text that can't be read; each of them can."""
    folded = clean(text[:LONGEST])
    if re.search(r"clock|\b[ac]?c?cw\b", folded) or all(position.zone == "bowl" for position in house.positions):
        return ("clockwise from 12 o'clock", "counterclockwise from 12 o'clock")
    if re.search(r"\bodds?\b|\bevens?\b", folded):
        return ("odd house left, even house right", "odd house right, even house left")
    if re.search(r"\bcent(?:er|re)\b|\bmiddle\b|\boutward", folded):
        return ("outward from center, house left first", "outward from center, house right first")
    return ("house left to house right", "house right to house left")


def _draft(text: str, house: House | None) -> Draft:
    if len(text) > LONGEST:
        raise NotReadable
    names = [clean(position.name) for position in house.positions] if house else []
    words = {*KIND_WORDS, *(word for name in names for word in _words_of(name))}
    usable_names = [name for name in names if len(name) > 2 and name not in _RESERVED]
    prompt_is_house_right = house is None or house.prompt_side == "stage left"
    return draft_of(list(scan(clean(text), usable_names, sorted(words))), prompt_is_house_right)


def _words_of(name: str) -> Iterable[str]:
    return (word for word in re.findall(r"[^\W\d]{3,}", name) if word not in _RESERVED)


def _resolved(draft: Draft, house: House) -> Statement:
    blocks = _blocks(draft.segments, house)
    numbers = draft.used
    if not blocks:
        direction = _one_direction(draft.segments)
        if draft.by_level:
            blocks, direction = _levels(direction, house), None
    else:
        direction = None
        if draft.in_one_row:
            blocks = [_joined(blocks)]
    return Statement(
        direction=direction,
        blocks=tuple(blocks),
        in_one_row=draft.in_one_row,
        by_position=draft.by_position,
        used=numbers,
        unused=draft.unused,
        teams=dict(draft.teams),
    )


def _one_direction(segments: Sequence[Segment]) -> Direction | None:
    stated = {segment.direction for segment in segments if segment.direction}
    if len(stated) > 1:
        raise NotReadable
    return next(iter(stated), None)


def _levels(direction: Direction | None, house: House) -> list[Block]:
    """One block for each level, the lowest first."""
    levels = sorted({position.level for position in house.positions})
    return [
        Block(tuple(i for i, position in enumerate(house.positions) if position.level == level), direction)
        for level in levels
    ]


def _joined(blocks: Sequence[Block]) -> Block:
    directions = {block.direction for block in blocks}
    if len(directions) > 1 or any(block.numbers for block in blocks):
        raise NotReadable
    return Block(tuple(index for block in blocks for index in block.positions), blocks[0].direction)


def _blocks(segments: Sequence[Segment], house: House) -> list[Block]:
    """The named blocks, each with its own direction, else the one before it, else the first that follows."""
    if not any(segment.selectors for segment in segments):
        return []
    carried: Direction | None = None
    is_carried_used = True
    following = next((segment.direction for segment in segments if segment.direction), None)
    blocks: list[Block] = []
    for segment in segments:
        if segment.selectors:
            positions = _positions(segment.selectors, house)
            own = segment.direction
            blocks.append(Block(positions, own or carried or following, own is not None, segment.numbers))
            is_carried_used = is_carried_used or own is None
        elif blocks and segment.direction and carried:
            raise NotReadable  # a second direction that belongs to no block
        else:
            is_carried_used = bool(blocks)
        if not is_carried_used and (segment.selectors or carried):
            raise NotReadable  # a direction that no block takes up
        carried = segment.direction or carried
    named = [index for block in blocks for index in block.positions]
    if len(named) != len(set(named)):
        raise NotReadable
    return blocks


def _positions(selectors: Sequence[tuple[str, str]], house: House) -> tuple[int, ...]:
    chosen = set(range(len(house.positions)))
    for kind, phrase in selectors:
        chosen &= set(positions_called(phrase, house, zone=kind == "ZONE"))
    if not chosen:
        raise NotReadable
    return tuple(sorted(chosen))


def positions_called(phrase: str, house: House, zone: bool = False) -> list[int]:
    """The positions that a phrase names: by full name, else by kind or a word of the name; or by zone."""
    if zone:
        return [index for index, position in enumerate(house.positions) if position.zone == phrase]
    names = [clean(position.name) for position in house.positions]
    if phrase in names:
        return [index for index, name in enumerate(names) if name == phrase]
    return [
        index
        for index, position in enumerate(house.positions)
        if clean(position.kind) == phrase or re.search(rf"\b{re.escape(phrase)}\b", names[index])
    ] or [index for index, position in enumerate(house.positions) if phrase == "truss" and position.zone == "overhead"]
