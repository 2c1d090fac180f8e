"""The codes, held against sets of permutations built up from the definitions rather than recognised."""

from collections.abc import Iterator
from itertools import combinations, permutations, product

import pytest

from shows.core.numbering.permutations import code_of
from shows.core.numbering.records import House, Position, Slot
from tests.shows.numbering_cases import by_hand, codes, count_to, even_ring, row_house

Permutation = tuple[int, ...]
Cut = tuple[tuple[int, ...], ...]


def identity(count: int) -> Permutation:
    return tuple(range(count))


def swapped(count: int) -> set[Permutation]:
    """One or two exchanges of separate pairs."""
    made = set()
    pairs = list(combinations(range(count), 2))
    for first, second in product(pairs, [(), *pairs]):
        if not set(first) & set(second):
            ranks = list(range(count))
            for pair in (first, second):
                if pair:
                    ranks[pair[0]], ranks[pair[1]] = ranks[pair[1]], ranks[pair[0]]
            made.add(tuple(ranks))
    return made


def alternating(count: int) -> set[Permutation]:
    """Odd numbers in one half, even in the other, each half up or down; numbers are 1 … count."""
    if count < 6:
        return set()
    odd, even = list(range(0, count, 2)), list(range(1, count, 2))
    made = set()
    for (low, high), turn_low, turn_high in product([(odd, even), (even, odd)], [1, -1], [1, -1]):
        ranks = [0] * count
        for rank, index in enumerate(low[::turn_low] + high[::turn_high]):
            ranks[index] = rank
        made.add(tuple(ranks))
    return made


def block_arrangements(cut: Cut) -> Iterator[tuple[bool, tuple[bool, ...], Permutation]]:
    """Every way to lay whole blocks down in some order, each forward or backward."""
    for order in permutations(range(len(cut))):
        for turns in product([False, True], repeat=len(cut)):
            sequence = [rank for block in order for rank in (cut[block][::-1] if turns[block] else cut[block])]
            yield order == tuple(range(len(cut))), turns, tuple(sequence)


def reversed_in_blocks(cut: Cut) -> set[Permutation]:
    return {
        ranks
        for is_in_order, turns, ranks in block_arrangements(cut)
        if len(cut) > 1 and is_in_order and any(turned and len(b) > 1 for turned, b in zip(turns, cut, strict=True))
    }


def blocks_moved(cut: Cut) -> set[Permutation]:
    return {
        ranks
        for is_in_order, turns, ranks in block_arrangements(cut)
        if len(cut) > 1
        and not is_in_order
        and not any(turned and len(b) > 1 for turned, b in zip(turns, cut, strict=True))
    }


def cuts(count: int) -> Iterator[Cut]:
    """Every way to cut a row of labels into positions."""
    for bits in product([False, True], repeat=count - 1):
        blocks: list[list[int]] = [[0]]
        for rank, is_cut in enumerate(bits, 1):
            if is_cut:
                blocks.append([rank])
            else:
                blocks[-1].append(rank)
        yield tuple(map(tuple, blocks))


def expected_row_codes(cut: Cut, count: int) -> dict[Permutation, str]:
    """For each permutation the first code of the list whose set holds it."""
    falling = {identity(count)[::-1]} if count > 1 else set()
    sets = [
        ("same-order", {identity(count)}),
        ("reversed", falling),
        ("reversed-in-blocks", reversed_in_blocks(cut)),
        ("blocks-moved", blocks_moved(cut)),
        ("swapped", swapped(count)),
        ("alternating", alternating(count)),
    ]
    return {
        ranks: next((code for code, members in sets if ranks in members), "mixed")
        for ranks in permutations(range(count))
    }


def stands_at(cut: Cut, ranks: Permutation) -> list[list[int]]:
    """For each position the indices of the show numbers that stand there."""
    return [[index for index, rank in enumerate(ranks) if rank in block] for block in cut]


@pytest.mark.parametrize("count", range(1, 7))
def test_every_permutation_of_a_row_in_every_cut_gets_the_code_its_definition_builds(count: int) -> None:
    numbers = count_to(count)
    for cut in cuts(count):
        for ranks, code in expected_row_codes(cut, count).items():
            assert code_of(ranks, numbers, stands_at(cut, ranks), False) == code, (cut, ranks)


@pytest.mark.parametrize("count", range(1, 6))
def test_the_whole_comparison_gives_the_same_codes_on_houses_cut_into_positions(count: int) -> None:
    labels = count_to(count)
    for cut in cuts(count):
        house = row_house(*([labels[rank] for rank in block] for block in cut))
        for ranks, code in expected_row_codes(cut, count).items():
            assignment = {number: labels[rank] for number, rank in zip(labels, ranks, strict=True)}
            expected = "same" if code == "same-order" else code
            assert codes(by_hand(house, assignment))[0] == expected, (cut, ranks)


@pytest.mark.parametrize("count", [6, 7])
def test_every_permutation_of_one_long_row_is_judged_alike_against_labels_and_statement(count: int) -> None:
    labels = count_to(count)
    house = row_house(labels)
    for ranks, code in list(expected_row_codes((tuple(range(count)),), count).items())[:: 7 if count == 7 else 1]:
        assignment = {number: labels[rank] for number, rank in zip(labels, ranks, strict=True)}
        expected = "same" if code == "same-order" else code
        assert codes(by_hand(house, assignment, "house left to house right")) == (expected, expected), ranks


@pytest.mark.parametrize("count", range(3, 17))
def test_every_rotation_and_reflection_of_a_ring_is_recognised(count: int) -> None:
    house, labels = even_ring(count), count_to(count)
    for turn in range(count):
        forward = dict(zip(labels, labels[turn:] + labels[:turn], strict=True))
        backward = dict(zip(labels, labels[turn::-1] + labels[:turn:-1], strict=True))
        expected = "same" if turn == 0 else "starts-elsewhere"
        statement = "clockwise from house label 1"
        assert codes(by_hand(house, forward, statement)) == (expected, expected)
        assert codes(by_hand(house, backward, statement)) == ("other-way-round", "other-way-round")


@pytest.mark.parametrize("count", range(3, 7))
def test_a_ring_never_says_reversed_and_every_permutation_gets_the_ring_code_built(count: int) -> None:
    turns = {tuple((start + i) % count for i in range(count)) for start in range(1, count)}
    mirrors = {tuple((start - i) % count for i in range(count)) for start in range(count)}
    sets = [
        ("same-order", {identity(count)}),
        ("starts-elsewhere", turns),
        ("other-way-round", mirrors),
        ("swapped", swapped(count)),
        ("alternating", alternating(count)),
    ]
    for ranks in permutations(range(count)):
        expected = next((code for code, members in sets if ranks in members), "mixed")
        assert code_of(ranks, count_to(count), [list(range(count))], True) == expected


def test_two_in_a_ring_the_other_way_are_swapped_and_in_a_row_reversed() -> None:
    crossed = {"1": "2", "2": "1"}
    assert codes(by_hand(even_ring(2), crossed))[0] == "swapped"
    assert codes(by_hand(row_house(["1", "2"]), crossed))[0] == "reversed"


def test_one_spot_is_never_reversed() -> None:
    assert codes(by_hand(row_house(["4"]), {"1": "4"}, "house right to house left")) == ("same-order", "same")


def test_the_middle_of_an_odd_row_does_not_hide_a_reversal() -> None:
    comparison = by_hand(row_house(count_to(5)), dict(zip(count_to(5), count_to(5)[::-1], strict=True)))
    assert comparison.against_labels is not None
    assert comparison.against_labels.code == "reversed"
    assert comparison.against_labels.cycles == (("1", "5"), ("2", "4"))


def test_where_labels_repeat_ranks_go_by_the_house_order_of_positions() -> None:
    house = row_house(count_to(4), count_to(4))
    targets = [f"Row 1/{label}" for label in count_to(4)] + [f"Row 2/{label}" for label in count_to(4)]
    comparison = by_hand(house, dict(zip(count_to(8), targets, strict=True)))
    assert codes(comparison)[0] == "same-order"
    turned = by_hand(house, dict(zip(count_to(8), targets[4:] + targets[:4], strict=True)))
    assert codes(turned)[0] == "blocks-moved"


def test_blocks_of_one_spot_alone_are_not_reversed_in_blocks() -> None:
    assert codes(by_hand(row_house(["1"], ["2"], ["3"]), {"1": "1", "2": "3", "3": "2"}))[0] == "blocks-moved"


def test_names_for_labels_have_pairs_and_same_but_no_order() -> None:
    house = row_house(["Left", "Center", "Right"])
    same = by_hand(house, {"left": "Left", "Right": "right"})
    assert codes(same)[0] == "same"
    assert same.against_labels is not None
    assert (same.against_labels.cycles, same.against_labels.tau) == ((), None)
    other = by_hand(house, {"1": "Left", "2": "Center"})
    assert other.against_labels is not None
    assert (other.against_labels.code, other.against_labels.cycles, other.against_labels.tau) == ("mixed", (), None)


def test_a_position_is_judged_by_its_own_spots_ranks() -> None:
    house = row_house(["1", "2", "3", "4"], ["D", "C", "B", "A"])
    assignment = {**{n: n for n in count_to(4)}, **dict(zip("5678", "DCBA", strict=True))}
    comparison = by_hand(house, assignment)
    assert comparison.against_labels is not None
    assert comparison.against_labels.code == "reversed-in-blocks"
    assert comparison.against_labels.blocks == ((0, "same"), (1, "reversed"))


def test_a_show_on_rows_and_a_ring_is_judged_part_by_part_and_the_whole_by_the_row_rules() -> None:
    bowl = tuple(Slot(str(i + 1), bearing=90.0 * i) for i in range(4))
    truss = tuple(Slot(label, x=x, y=2.0, z=9.0) for label, x in (("5", -2.0), ("6", 2.0)))
    house = House((Position("Bowl", bowl, "bowl"), Position("Truss", truss, "overhead")))
    comparison = by_hand(house, {"1": "2", "2": "3", "3": "4", "4": "1", "5": "5", "6": "6"})
    assert comparison.against_labels is not None
    assert comparison.against_labels.blocks == ((0, "starts-elsewhere"), (1, "same"))
    assert comparison.against_labels.code == "mixed"
    assert comparison.against_labels.tau is not None
