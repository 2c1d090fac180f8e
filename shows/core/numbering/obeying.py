"""An assignment held against what the show itself stated: its rule and its place words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from shows.core.numbering.filling import Entry, Lane, fill
from shows.core.numbering.judging import by_position, first_pairs, is_all_ring, is_ring_at
from shows.core.numbering.permutations import code_of, compacted, cycles_of, tau_of
from shows.core.numbering.place_words import Found, Place, Tied, Within
from shows.core.numbering.records import House, Judgement, Pair
from venue.core.labels import label_key


@dataclass(frozen=True)
class Stated:
    """What the pairs are held against: the lanes of the statement (None where nothing readable was stated)
    and for each show number (key) what its place words name."""

    lanes: Sequence[Lane] | None
    places: Mapping[str, Place]
    has_ring: bool


@dataclass
class _Trial:
    """The pairs of one judgement sorted out: judged by the statement, obeying their words, or breaking them."""

    by_statement: list[Pair]
    obeying: list[Pair]
    breaking: list[Pair]
    expected: dict[str, int]


def judge_statement(pairs: Sequence[Pair], house: House, stated: Stated) -> Judgement | None:
    """Does the assignment obey what the show stated? None where nothing was stated about any pair."""
    trial = _tried_by_words(first_pairs(pairs), house, stated)
    judged, ranks = _tried_by_lanes(trial, house, stated)
    everybody = first_pairs([*judged, *trial.obeying, *trial.breaking])
    if not everybody:
        return None
    numbers = [pair.number for pair in judged]
    is_ring = bool(judged) and is_all_ring(judged, house, stated.has_ring)
    code = "mixed" if trial.breaking else _stated_code(judged, ranks, house, is_ring)
    blocks = _stated_blocks(everybody, trial, judged, ranks, house, stated.has_ring)
    tau = None if is_ring else tau_of(ranks)
    wrong = tuple((pair.number, trial.expected[pair.number]) for pair in everybody if pair.number in trial.expected)
    return Judgement(code, blocks, cycles_of(ranks, numbers), tau, wrong)


def _tried_by_words(firsts: Sequence[Pair], house: House, stated: Stated) -> _Trial:
    """Sorts out the spots whose words name a slot; the rest are for the statement."""
    trial = _Trial([], [], [], {})
    for pair in firsts:
        place = stated.places.get(label_key(pair.number))
        if isinstance(place, Found):
            (trial.obeying if place.slot == pair.slot else trial.breaking).append(pair)
            if place.slot != pair.slot:
                trial.expected[pair.number] = place.slot
        elif isinstance(place, Tied):
            (trial.obeying if pair.slot in place.slots else trial.breaking).append(pair)
        elif isinstance(place, Within) and house.position_of[pair.slot] not in place.positions:
            trial.breaking.append(pair)
        elif isinstance(place, Within) and stated.lanes is None:
            trial.obeying.append(pair)
        elif (place is None or isinstance(place, Within)) and stated.lanes is not None:
            trial.by_statement.append(pair)
    return trial


def _tried_by_lanes(trial: _Trial, house: House, stated: Stated) -> tuple[list[Pair], list[int]]:
    """The pairs that the statement judges and their ranks in the stated order.

    The slots in use are filled anew by the statement: who then stands elsewhere is out of order, who finds no
    cell at all breaks it, and the ranks are those of the plain stated order.
    """
    lanes = stated.lanes or []
    silent = {slot for lane in lanes for g in lane.groups if g.reason == "convention-missing" for slot in g.slots}
    tried = [pair for pair in trial.by_statement if pair.slot not in silent and _is_taken(pair, lanes)]
    entries = []
    for pair in tried:
        place = stated.places.get(label_key(pair.number))
        within = place.positions if isinstance(place, Within) else None
        entries.append(Entry(label_key(pair.number), within, has=pair.slot))
    found = fill(lanes, entries, [pair.slot for pair in tried], house)
    judged = []
    for pair, fall in zip(tried, found, strict=True):
        if fall.problem:
            trial.breaking.append(pair)
        elif fall.slot is not None:
            judged.append(pair)
            if fall.slot != pair.slot:
                trial.expected[pair.number] = fall.slot
    if trial.breaking:
        return _in_plain_order(judged, lanes)
    rank = {fall.slot: index for index, fall in enumerate(fall for fall in found if fall.slot is not None)}
    return judged, [rank[pair.slot] for pair in judged]


def _is_taken(pair: Pair, lanes: Sequence[Lane]) -> bool:
    """Whether the statement says anything of this number."""
    key = label_key(pair.number)
    return any(lane.takes(key) for lane in lanes)


def _in_plain_order(judged: Sequence[Pair], lanes: Sequence[Lane]) -> tuple[list[Pair], list[int]]:
    order = {
        slot: (at, slot) for at, group in enumerate(g for lane in lanes for g in lane.groups) for slot in group.slots
    }
    known = [pair for pair in judged if pair.slot in order]
    in_order = {slot: rank for rank, slot in enumerate(sorted((pair.slot for pair in known), key=order.__getitem__))}
    return known, [in_order[pair.slot] for pair in known]


def _stated_code(judged: Sequence[Pair], ranks: Sequence[int], house: House, is_ring: bool) -> str:
    blocks = list(by_position(judged, house).values())
    code = code_of(ranks, [label_key(pair.number) for pair in judged], blocks, is_ring)
    return "same" if code == "same-order" else code


def _stated_blocks(
    everybody: Sequence[Pair],
    trial: _Trial,
    judged: Sequence[Pair],
    ranks: Sequence[int],
    house: House,
    has_ring: bool,
) -> tuple[tuple[int, str], ...]:
    """For each position with a pair how its own spots obey; one that breaks the words makes it mixed."""
    broken = {house.position_of[pair.slot] for pair in trial.breaking}
    own = by_position(judged, house)
    codes = []
    for position in by_position(everybody, house):
        pairs = [judged[i] for i in own.get(position, ())]
        own_ranks = compacted([ranks[i] for i in own.get(position, ())])
        code = _stated_code(pairs, own_ranks, house, is_ring_at(house, position, has_ring))
        codes.append((position, "mixed" if position in broken else code))
    return tuple(codes)
