"""Tonight's numbers held against the house's painted labels."""

from collections.abc import Sequence

from shows.core.numbering.order import is_end_stage
from shows.core.numbering.permutations import code_of, cycles_of, tau_of
from shows.core.numbering.records import House, Judgement, Pair
from venue.core.labels import is_name, label_key, sort_key


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
        (index, _label_code([firsts[i] for i in block], house, is_ring_at(house, index, has_ring))[0])
        for index, block in blocks.items()
    )
    if ranks is None:
        return Judgement(code, block_codes, (), None)
    numbers = [pair.number for pair in firsts]
    return Judgement(code, block_codes, cycles_of(ranks, numbers), None if is_ring else tau_of(ranks))


def is_ring_at(house: House, position: int, has_ring: bool) -> bool:
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

    in_order = {slot: rank for rank, slot in enumerate(sorted(slots, key=key))}
    return [in_order[slot] for slot in slots]


def bowl_has_ring(house: House) -> bool:
    """Without a statement about it, a bowl is a ring unless every slot lies toward the far end (a row)."""
    return any(position.zone == "bowl" for position in house.positions) and not is_end_stage(house)
