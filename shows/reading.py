"""From paperwork as it came to the facts of each spot, with what a person corrected, and what would change.

bytes --read_for--> Paperwork (as read) --taken--> Taken (facts to store, problems line by line)
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from shows.core.numbering.records import House, Spot
from shows.core.numbering.statement import reads_as_statement
from shows.core.paperwork import LineProblem, Paperwork, SpotLine
from shows.core.paperwork.light import lux_of
from shows.core.paperwork.records import Data
from shows.facts import SpotFacts
from shows.models import ShowSpot
from shows.workbooks import read_received
from venue.core.labels import label_key, sort_key

OPTIONAL = {"label", "position", "side", "nth", "whose_left", "least_lux", "pick_up", "channel", "notes"}
LENGTHS = {"number": 40, "pick_up": 200, "notes": 1000}
SHORT = 80
"""Most characters that a fact holds; what is longer is cut and named."""


@dataclass(frozen=True)
class Taken:
    """What acceptance would store: one fact a spot, in the paperwork's order, and what is wrong with which line."""

    facts: tuple[SpotFacts, ...]
    problems: tuple[LineProblem, ...]


@dataclass(frozen=True)
class Changes:
    """Accepted spots held against new ones, by show number; `changed` names the fields that differ."""

    added: tuple[str, ...]
    changed: tuple[tuple[str, tuple[str, ...]], ...]
    gone: tuple[str, ...]

    @property
    def is_empty(self) -> bool:
        return not (self.added or self.changed or self.gone)


def read_for(house: House, content: bytes, columns: Mapping[str, str], numbers: Mapping[str, str]) -> Paperwork:
    """The paperwork as read for the house's names, with corrections: `numbers` by line, `columns` by field.

    A field whose column is empty text is not read. Raises PaperworkUnreadable.
    """
    is_statement = partial(reads_as_statement, house=house)
    wanted = {field: header for field, header in columns.items() if header}
    paperwork = read_received(content, reads_as_statement=is_statement, columns=wanted)
    unread = {field for field, header in columns.items() if not header}
    spots = tuple(
        replace(_without(line, unread), number=numbers.get(str(line.line)) or line.number) for line in paperwork.spots
    )
    mended = {line for line, number in numbers.items() if number}
    left = tuple(each for each in paperwork.problems if each.field != "number" or str(each.line) not in mended)
    return replace(paperwork, spots=spots, problems=left)


def _without(line: SpotLine, fields: set[str]) -> SpotLine:
    if not fields:
        return line
    frames = tuple("" if f"frame {at}" in fields else text for at, text in enumerate(line.frames, start=1))
    return replace(line, frames=frames, **{field: None for field in fields if field in OPTIONAL})  # type: ignore[arg-type]


def taken(paperwork: Paperwork) -> Taken:
    """The facts of every line that has a number of its own; the others are named."""
    header = next((column.header for column in paperwork.columns if column.field == "least_lux"), "")
    facts: dict[str, SpotFacts] = {}
    first_lines: dict[str, int] = {}
    problems = list(paperwork.problems)
    has_problem = {problem.line for problem in problems if problem.field == "number"}
    for line in paperwork.spots:
        key = label_key(line.number or "")
        if not key:
            problems += [] if line.line in has_problem else [LineProblem(line.line, "number", "no-number", {})]
        elif key in facts:
            data: Data = {"number": str(line.number), "line": first_lines[key]}
            problems.append(LineProblem(line.line, "number", "number-twice", data))
        else:
            first_lines[key] = line.line
            facts[key], found = _facts(line, header)
            problems += found
    return Taken(tuple(facts.values()), tuple(sorted(problems, key=lambda problem: problem.line or 0)))


def _facts(line: SpotLine, light_header: str) -> tuple[SpotFacts, list[LineProblem]]:
    problems: list[LineProblem] = []

    def kept(field: str, text: str | None) -> str:
        limit = LENGTHS.get(field, SHORT)
        if len(text or "") > limit:
            problems.append(LineProblem(line.line, field, "too-long", {"limit": limit}))
        return (text or "")[:limit]

    lux = lux_of(line.least_lux, light_header) if line.least_lux else None
    if line.least_lux and lux is None:
        problems.append(LineProblem(line.line, "least_lux", "no-light", {"value": line.least_lux[:SHORT]}))
    facts = SpotFacts(
        number=kept("number", line.number),
        house_label=kept("label", line.label),
        position_words=kept("position", line.position),
        side=kept("side", line.side),
        nth=kept("nth", line.nth),
        whose_left=kept("whose_left", line.whose_left),
        frames=tuple(kept("frame", text) for text in line.frames),
        channel=kept("channel", line.channel),
        pick_up=kept("pick_up", line.pick_up),
        least_lux=lux,
        notes=kept("notes", line.notes),
    )
    return facts, problems


def spots_in(facts: Sequence[SpotFacts]) -> list[Spot]:
    """The facts as the comparison takes them."""
    return [
        Spot(
            number=each.number,
            label=each.house_label or None,
            position=each.position_words or None,
            side=each.side or None,
            nth=each.nth or None,
            whose_left=each.whose_left or None,
        )
        for each in facts
    ]


def changes(stored: Sequence[ShowSpot], facts: Sequence[SpotFacts]) -> Changes:
    """What acceptance would add, change and end."""
    before = {spot.number_key: spot for spot in stored}
    after = {label_key(each.number): each for each in facts}
    differing = {
        key: tuple(field for field in vars(each) if _differs(getattr(before[key], field), getattr(each, field)))
        for key, each in after.items()
        if key in before
    }
    return Changes(
        added=tuple(sorted((each.number for key, each in after.items() if key not in before), key=sort_key)),
        changed=tuple((after[key].number, fields) for key, fields in differing.items() if fields),
        gone=tuple(sorted((spot.number for key, spot in before.items() if key not in after), key=sort_key)),
    )


def _differs(stored: object, new: object) -> bool:
    return stored != (list(new) if isinstance(new, tuple) else new)
