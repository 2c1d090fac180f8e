"""A numbering as a permutation: its code, its cycles, Kendall's tau. No house, no show."""

from bisect import bisect, insort
from collections.abc import Sequence
from itertools import pairwise

from shows.core.numbering.filling import parity

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
    concordant = 0
    before: list[int] = []
    for rank in ranks:
        concordant += bisect(before, rank)
        insort(before, rank)
    pairs = count * (count - 1) / 2
    return (2 * concordant - pairs) / pairs
