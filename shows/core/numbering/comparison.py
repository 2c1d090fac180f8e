"""Holding a show's numbers against a house: pairs, both judgements, flags, readings, ways out."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TypeVar

from shows.core.numbering.attempt import Attempt, pair_up
from shows.core.numbering.directions import (
    BARE_SIDES,
    Alternating,
    Direction,
    Outward,
    Ring,
    Row,
    Statement,
    Unreadable,
)
from shows.core.numbering.filling import Choice, is_open_overhead, lanes_of
from shows.core.numbering.judging import bowl_has_ring, judge_labels
from shows.core.numbering.lookup import Seat, UnknownLabel, seated, seats_of
from shows.core.numbering.numbers import Numbers, sort_numbers
from shows.core.numbering.obeying import Stated, judge_statement
from shows.core.numbering.order import ring_starts
from shows.core.numbering.place_words import has_bare_side
from shows.core.numbering.records import Comparison, Flag, House, Judgement, Pair, Reading, Spot
from shows.core.numbering.statement import could_be, read_statement
from shows.core.numbering.ways_out import ways_out
from venue.core.labels import label_key, sort_key

T = TypeVar("T")

OPEN_WORDS: Mapping[str, tuple[str, ...]] = {
    "whose": ("house", "stage"),
    "overhead": ("house", "stage"),
    "rows": ("by-position", "one-row"),
    "outward": ("house-left-first", "house-right-first"),
}


@dataclass(frozen=True)
class _Outcome:
    """One reading followed to its end."""

    choice: Choice
    attempt: Attempt
    against_labels: Judgement | None
    against_statement: Judgement | None

    @property
    def placing(self) -> tuple[tuple[str, int], ...]:
        return tuple((pair.number, pair.slot) for pair in self.attempt.pairs)


@dataclass(frozen=True)
class _Question:
    """Everything that is asked, sorted out once for all readings."""

    house: House
    spots: Sequence[Spot]
    text: str | None
    statement: Statement | Unreadable | None
    numbers: Numbers
    labelled: Sequence[tuple[Seat, int | UnknownLabel | None]]

    @property
    def readable(self) -> Statement | None:
        """The statement where it can be read and states a direction."""
        is_read = isinstance(self.statement, Statement) and self.statement.places_spots
        return self.statement if is_read and isinstance(self.statement, Statement) else None


def compare(
    house: House,
    spots: Sequence[Spot],
    statement: str | None = None,
    assign: Mapping[str, str] | None = None,
    given: Mapping[str, Sequence[int]] | None = None,
) -> Comparison:
    """The whole comparison.

    `statement` is the show's own words on how it counts; `assign` gives show numbers house labels by hand
    (`LABEL` or `Position/LABEL`) and overrules the paperwork; `given` gives them slots (several to a team).
    Bad lines are flagged and the rest is compared.
    """
    question = _question(house, spots, statement, assign or {}, given or {})
    outcomes = [_followed(question, choice) for choice in _choices(question)]
    first = outcomes[0]
    open_words = _words_that_matter(outcomes)
    is_same_placing = all(outcome.placing == first.placing for outcome in outcomes)
    pairs = first.attempt.pairs if is_same_placing else ()
    against_labels = first.against_labels if is_same_placing else None
    return Comparison(
        house=house,
        pairs=pairs,
        against_labels=against_labels,
        against_statement=None if open_words else first.against_statement,
        flags=tuple(_flags(question, outcomes, open_words)),
        readings=tuple(_readings(outcomes, open_words)),
        ways_out=ways_out(pairs, house, against_labels),
    )


def _question(
    house: House,
    spots: Sequence[Spot],
    text: str | None,
    assign: Mapping[str, str],
    given: Mapping[str, Sequence[int]],
) -> _Question:
    text = text if text and text.strip() else None
    statement = read_statement(text, house) if text else None
    numbers = sort_numbers(spots, statement if isinstance(statement, Statement) else None)
    by_key = {label_key(number): target for number, target in assign.items()}
    slots = {label_key(number): found for number, found in given.items()}
    labelled = seated(seats_of(numbers, by_key, slots), house, slots)
    return _Question(house, spots, text, statement, numbers, labelled)


def _followed(question: _Question, choice: Choice) -> _Outcome:
    house, statement = question.house, question.readable
    lanes = lanes_of(statement, house, choice) if statement else None
    tried = pair_up(house, question.numbers, question.labelled, lanes, choice)
    has_ring = _has_ring(question)
    stated = Stated(lanes, tried.places, has_ring)
    is_stated = lanes is not None or (question.text is None and tried.places)
    return _Outcome(
        choice,
        tried,
        judge_labels(tried.pairs, house, has_ring),
        judge_statement(tried.pairs, house, stated) if is_stated else None,
    )


def _directions(statement: Statement) -> list[Direction]:
    stated = [statement.direction, *(block.direction for block in statement.blocks)]
    return [direction for direction in stated if direction is not None]


def _has_ring(question: _Question) -> bool:
    """Whether the bowl counts as a ring: as stated, else by where its slots lie."""
    if question.readable:
        directions = _directions(question.readable)
        if any(isinstance(direction, Ring) for direction in directions):
            return True
    return bowl_has_ring(question.house)


def _choices(question: _Question) -> list[Choice]:
    """Every combination of what the paperwork leaves open."""
    open_words = [word for word in OPEN_WORDS if _is_open(question, word)]
    values = [OPEN_WORDS[word] for word in open_words]
    return [Choice(**dict(zip(open_words, chosen, strict=True))) for chosen in product(*values)]  # type: ignore[arg-type]


def _is_open(question: _Question, word: str) -> bool:
    statement, house = question.readable, question.house
    if word == "whose" and any(has_bare_side(spot, house) for spot in question.spots):
        return True
    if statement is None:
        return False
    directions = _directions(statement)
    if word == "whose":
        return any(_is_bare(direction) for direction in directions)
    if word == "overhead":
        return any(is_open_overhead(block, house) for block in statement.blocks)
    if word == "outward":
        return any(_lacks_side(direction) for direction in directions)
    return not (statement.in_one_row or statement.by_position) and _has_several_rows(statement, house)


def _is_bare(direction: Direction) -> bool:
    if isinstance(direction, Row | Outward):
        return direction.first in BARE_SIDES
    if isinstance(direction, Ring):
        return direction.start is not None and direction.start.value in BARE_SIDES
    return isinstance(direction, Alternating) and direction.odd in BARE_SIDES


def _lacks_side(direction: Direction) -> bool:
    is_open_outward = isinstance(direction, Outward) and direction.first is None
    return is_open_outward or (isinstance(direction, Alternating) and direction.odd is None)


def _has_several_rows(statement: Statement, house: House) -> bool:
    """Whether one direction runs over several rows, so that it may mean each by itself or all in one."""
    stretches: list[tuple[Direction | None, Iterable[int]]] = [
        (block.direction, block.positions) for block in statement.blocks
    ] or [(statement.direction, range(len(house.positions)))]
    return any(
        isinstance(direction, Row | Alternating | Outward)
        and sum(house.positions[index].zone not in {"side", "bowl"} for index in positions) > 1
        for direction, positions in stretches
    )


def _words_that_matter(outcomes: Sequence[_Outcome]) -> list[str]:
    """The open words on which the outcome turns."""
    return [word for word in OPEN_WORDS if _matters(outcomes, word)]


def _matters(outcomes: Sequence[_Outcome], word: str) -> bool:
    results: dict[tuple[str, ...], list[object]] = {}
    for outcome in outcomes:
        others = tuple(getattr(outcome.choice, other) for other in OPEN_WORDS if other != word)
        results.setdefault(others, []).append((outcome.placing, outcome.against_statement))
    return any(each != same[0] for same in results.values() for each in same)


def _readings(outcomes: Sequence[_Outcome], open_words: Sequence[str]) -> Iterable[Reading]:
    """For each open word that matters what holds under each of its readings, whatever the others mean."""
    for word in open_words:
        for value in OPEN_WORDS[word]:
            under = [outcome for outcome in outcomes if getattr(outcome.choice, word) == value]
            is_settled = all(outcome.placing == under[0].placing for outcome in under)
            is_judged = all(outcome.against_statement == under[0].against_statement for outcome in under)
            yield Reading(
                value,
                under[0].attempt.pairs if is_settled else _shared_pairs(under),
                under[0].against_labels if is_settled else None,
                under[0].against_statement if is_settled and is_judged else None,
            )


def _shared_pairs(outcomes: Sequence[_Outcome]) -> tuple[Pair, ...]:
    shared = set(outcomes[0].attempt.pairs).intersection(*(outcome.attempt.pairs for outcome in outcomes[1:]))
    return tuple(sorted(shared, key=lambda pair: (sort_key(pair.number), pair.slot)))


def _flags(question: _Question, outcomes: Sequence[_Outcome], open_words: Sequence[str]) -> Iterable[Flag]:
    """The flags in their fixed order; of what differs between readings only what all of them share."""
    tries = [outcome.attempt for outcome in outcomes]
    house, numbers = question.house, question.numbers
    if short := _in_all([attempt.short for attempt in tries]):
        yield Flag("short", {"numbers": short})
    if not open_words:
        yield from _slot_flags("spare", tries[0].spare, house)
    if open_words:
        yield Flag("unclear", {"open": tuple(open_words)})
    yield from _convention_flags(question, _in_all([attempt.unplaced for attempt in tries]))
    yield from _slot_flags("not-ordered", frozenset.intersection(*(attempt.tied for attempt in tries)), house)
    if numbers.twice:
        yield Flag(
            "duplicate",
            {"numbers": tuple(numbers.text(key) for key in numbers.lines if key in numbers.twice)},
        )
    for slot, held in _in_all([attempt.doubly_named for attempt in tries]):
        data = {"numbers": held, "position": house.name_of(slot), "label": house.slots[slot].label}
        yield Flag("duplicate", data)
    for seat, unknown in question.labelled:
        if isinstance(unknown, UnknownLabel) and seat.key not in numbers.twice:
            yield Flag("unknown-label", {"number": seat.number, "label": seat.label, "found": unknown.found})
    for number, text in _in_all([attempt.unknown_places for attempt in tries]):
        yield Flag("unknown-place", {"number": number, "text": text})
    if numbers.holes or numbers.without_number:
        yield _missing_flag(numbers)


def _in_all(lists: Sequence[Sequence[T]]) -> tuple[T, ...]:
    """What every list holds, in the first one's order."""
    return tuple(each for each in lists[0] if all(each in other for other in lists[1:]))


def _slot_flags(flag: str, slots: frozenset[int], house: House) -> Iterable[Flag]:
    for index, position in enumerate(house.positions):
        labels = [house.slots[slot].label for slot in house.slots_at[index] if slot in slots]
        if labels:
            yield Flag(flag, {"position": position.name, "labels": tuple(sorted(labels, key=sort_key))})


def _convention_flags(question: _Question, unplaced: Sequence[str]) -> Iterable[Flag]:
    if not unplaced:
        return
    data: dict[str, object] = {"numbers": tuple(unplaced)}
    if question.text:
        data |= {"quoted": question.text, "could_be": _could_be(question)}
    yield Flag("convention-missing", data)


def _could_be(question: _Question) -> tuple[str, ...]:
    if isinstance(question.statement, Unreadable):
        return question.statement.could_be
    rings = [d for d in _directions(question.readable) if isinstance(d, Ring)] if question.readable else []
    bowl = [
        slot for slot, index in enumerate(question.house.position_of) if question.house.positions[index].zone == "bowl"
    ]
    for ring in rings:
        way = "clockwise" if ring.clockwise else "counterclockwise"
        words = {"clock": "{} o'clock", "label": "house label {}", "bearing": "bearing {}"}
        starts = [words[s.kind].format(s.value) for s in ring_starts(question.house, bowl, ring) if s.kind in words]
        return tuple(f"{way} from {start}" for start in starts if len(starts) > 1) or (f"{way} from 12 o'clock",)
    return could_be(question.text or "", question.house)


def _missing_flag(numbers: Numbers) -> Flag:
    data: dict[str, object] = {"numbers": numbers.holes}
    lines = tuple(spot.line for spot in numbers.without_number if spot.line is not None)
    if numbers.without_number:
        data["lines"] = lines
    return Flag("missing-number", data)
