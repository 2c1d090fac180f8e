"""Judging a numbering: the code of a permutation, its cycles, Kendall's tau, against labels and statement."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from shows.core.numbering.filling import Entry, Lane, fill, parity
from shows.core.numbering.order import is_end_stage
from shows.core.numbering.place_words import Found, Place, Tied, Within
from shows.core.numbering.records import House, Judgement, Pair
from venue.core.labels import is_name, label_key, sort_key

LEAST_ALTERNATING = 6


def rises(ranks: Sequence[int]) -> bool:
    return all(before < after for before, after in pairwise(ranks))


def falls(ranks: Sequence[int]) -> bool:
    return len(ranks) > 1 and all(before > after for before, after in pairwise(ranks))


def compacted(ranks: Sequence[int]) -> list[int]:
    """The same order in ranks 0 … n − 1."""
    place = {rank: index for index, rank in enumerate(sorted(ranks))}
    return [place[rank] for rank in ranks]


def code_of(ranks: Sequence[int], numbers: Sequence[str], blocks: Sequence[Sequence[int]], is_ring: bool) -> str:
    """The code of a permutation, in the order in which codes win (`same-order` where nothing moved).

    `ranks[i]` is the rank of the label at the i-th show number, `numbers` their keys, `blocks` for each
    position the indices i that stand there.
    """
    if rises(ranks):
        return "same-order"
    code = _ring_code(ranks) if is_ring else _row_code(ranks, blocks)
    if code:
        return code
    if _is_swapped(ranks):
        return "swapped"
    return "alternating" if _is_alternating(ranks, numbers) else "mixed"


def _row_code(ranks: Sequence[int], blocks: Sequence[Sequence[int]]) -> str | None:
    if falls(ranks):
        return "reversed"
    held = [block for block in blocks if block]
    if len(held) < 2 or not all(_is_run(block) and _is_run([ranks[i] for i in block]) for block in held):
        return None
    by_show = sorted(held, key=min)
    is_in_order = rises([min(ranks[i] for i in block) for block in by_show])
    inside = [[ranks[i] for i in sorted(block)] for block in held]
    if is_in_order and any(falls(each) for each in inside) and all(rises(each) or falls(each) for each in inside):
        return "reversed-in-blocks"
    return "blocks-moved" if not is_in_order and all(rises(each) for each in inside) else None


def _is_run(values: Sequence[int]) -> bool:
    return max(values) - min(values) == len(values) - 1


def _ring_code(ranks: Sequence[int]) -> str | None:
    count = len(ranks)
    if count == 2:
        return None  # turned or mirrored is the same with two: swapped
    if all(rank == (ranks[0] + i) % count for i, rank in enumerate(ranks)):
        return "starts-elsewhere"
    return "other-way-round" if all(rank == (ranks[0] - i) % count for i, rank in enumerate(ranks)) else None


def _is_swapped(ranks: Sequence[int]) -> bool:
    moved = [i for i, rank in enumerate(ranks) if rank != i]
    return len(moved) in {2, 4} and all(ranks[ranks[i]] == i for i in moved)


def _is_alternating(ranks: Sequence[int], numbers: Sequence[str]) -> bool:
    odd = [rank for rank, number in zip(ranks, numbers, strict=True) if parity(number) == 1]
    even = [rank for rank, number in zip(ranks, numbers, strict=True) if parity(number) == 0]
    if len(ranks) < LEAST_ALTERNATING or len(odd) + len(even) < len(ranks) or abs(len(odd) - len(even)) > 1:
        return False
    is_split = max(odd) < min(even) or max(even) < min(odd)
    return is_split and all(rises(half) or falls(half) for half in (odd, even))


def cycles_of(ranks: Sequence[int], numbers: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    """The cycles show → label, written as show numbers, each from its smallest, fixed points left out."""
    seen: set[int] = set()
    cycles = []
    for start in range(len(ranks)):
        cycle = []
        at = start
        while at not in seen:
            seen.add(at)
            cycle.append(numbers[at])
            at = ranks[at]
        if len(cycle) > 1:
            cycles.append(tuple(cycle))
    return tuple(cycles)


def tau_of(ranks: Sequence[int]) -> float | None:
    """Kendall's tau-a: (concordant − discordant) / all pairs; None for fewer than two."""
    count = len(ranks)
    if count < 2:
        return None
    score = sum(1 if first < second else -1 for first, second in combinations(ranks, 2))
    return score / (count * (count - 1) / 2)


def first_pairs(pairs: Sequence[Pair]) -> list[Pair]:
    """One pair a show number, in natural order; for a team its first slot stands."""
    firsts: dict[str, Pair] = {}
    for pair in sorted(pairs, key=lambda pair: sort_key(pair.number)):
        firsts.setdefault(label_key(pair.number), pair)
    return list(firsts.values())


def by_position(pairs: Sequence[Pair], house: House) -> dict[int, list[int]]:
    """For each position with a pair the indices of its pairs, in the house's order."""
    at: dict[int, list[int]] = {}
    for index, pair in enumerate(pairs):
        at.setdefault(house.position_of[pair.slot], []).append(index)
    return dict(sorted(at.items()))


def is_all_ring(pairs: Sequence[Pair], house: House, has_ring: bool) -> bool:
    return has_ring and all(house.positions[house.position_of[pair.slot]].zone == "bowl" for pair in pairs)


def judge_labels(pairs: Sequence[Pair], house: House, has_ring: bool) -> Judgement | None:
    """Do the numbers and the painted labels agree? None without pairs."""
    firsts = first_pairs(pairs)
    if not firsts:
        return None
    blocks = by_position(firsts, house)
    is_ring = is_all_ring(firsts, house, has_ring)
    code, ranks = _label_code(firsts, house, is_ring)
    block_codes = tuple(
        (index, _label_code([firsts[i] for i in block], house, _is_ring_at(house, index, has_ring))[0])
        for index, block in blocks.items()
    )
    if ranks is None:
        return Judgement(code, block_codes, (), None)
    numbers = [pair.number for pair in firsts]
    return Judgement(code, block_codes, cycles_of(ranks, numbers), None if is_ring else tau_of(ranks))


def _is_ring_at(house: House, position: int, has_ring: bool) -> bool:
    return has_ring and house.positions[position].zone == "bowl"


def _label_code(firsts: Sequence[Pair], house: House, is_ring: bool) -> tuple[str, list[int] | None]:
    """The code and the ranks of the labels; no ranks where a name stands for a number or a label."""
    keys = [label_key(pair.number) for pair in firsts]
    is_same = all(key == house.label_keys[pair.slot] for key, pair in zip(keys, firsts, strict=True))
    if any(is_name(pair.number) or is_name(house.slots[pair.slot].label) for pair in firsts):
        return ("same" if is_same else "mixed"), None
    ranks = label_ranks([pair.slot for pair in firsts], house)
    blocks = list(by_position(firsts, house).values())
    return ("same" if is_same else code_of(ranks, keys, blocks, is_ring)), ranks


def label_ranks(slots: Sequence[int], house: House) -> list[int]:
    """The ranks of the labels; where labels repeat in the house, by its order of positions first."""

    def key(slot: int) -> tuple[int, object]:
        return (house.position_of[slot] if house.repeated_labels else 0, sort_key(house.slots[slot].label))

    in_order = {slot: rank for rank, slot in enumerate(sorted(slots, key=key))}  # type: ignore[arg-type]
    return [in_order[slot] for slot in slots]


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
    blocks = tuple(
        (
            index,
            _stated_block(index, [everybody[i] for i in block], trial, judged, ranks, house, stated.has_ring),
        )
        for index, block in by_position(everybody, house).items()
    )
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
    tried = [pair for pair in trial.by_statement if _is_reached(pair, lanes)]
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


def _is_reached(pair: Pair, lanes: Sequence[Lane]) -> bool:
    """Whether the statement says anything of this number, and of the slot that it has."""
    key = label_key(pair.number)
    silent = {slot for lane in lanes for g in lane.groups if g.reason == "convention-missing" for slot in g.slots}
    return pair.slot not in silent and any(lane.takes(key) for lane in lanes)


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


def _stated_block(
    position: int,
    pairs: Sequence[Pair],
    trial: _Trial,
    judged: Sequence[Pair],
    ranks: Sequence[int],
    house: House,
    has_ring: bool,
) -> str:
    if any(pair in trial.breaking for pair in pairs):
        return "mixed"
    own = [(pair, rank) for pair, rank in zip(judged, ranks, strict=True) if pair in pairs]
    own_ranks = compacted([rank for _, rank in own])
    return _stated_code([pair for pair, _ in own], own_ranks, house, _is_ring_at(house, position, has_ring))


def bowl_has_ring(house: House) -> bool:
    """Without a statement about it, a bowl is a ring unless every slot lies toward the far end (a row)."""
    return any(position.zone == "bowl" for position in house.positions) and not is_end_stage(house)
