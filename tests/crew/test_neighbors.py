"""Who is beside whom, by the plain geometry of standing at a lens and facing the stage.

x runs to house right, y upstage. In front one looks upstage and has house left to the left; whoever looks the other
way has it to the right (plane geometry, hand-checked below).
"""

import pytest

from crew.core.neighbors import Beside, Standing, neighbors, standings
from shows.core.numbering.records import House, Position, Slot, Zone


def row(zone: Zone, *slots: Slot) -> House:
    return House((Position("Row", slots, zone),))


def across(zone: Zone, y: float | None = None) -> House:
    return row(zone, *(Slot(f"{n}", x=2.0 * n, y=y) for n in range(3)))


IN_FRONT = {0: Beside((), (1,)), 1: Beside((0,), (2,)), 2: Beside((1,), ())}
FROM_BEHIND = {0: Beside((1,), ()), 1: Beside((2,), (0,)), 2: Beside((), (1,))}


@pytest.mark.parametrize(
    ("house", "found"),
    [
        (across("front", -20.0), IN_FRONT),
        (across("front"), IN_FRONT),
        (across("rear", 9.0), FROM_BEHIND),
        (across("overhead", -6.0), IN_FRONT),
        (across("overhead", 6.0), FROM_BEHIND),
        (across("overhead"), dict.fromkeys(range(3), Beside())),
        (across("overhead", 0.5), dict.fromkeys(range(3), Beside())),
        (row("front", *(Slot(f"{n}", order=3 - n) for n in range(3))), FROM_BEHIND),
        (row("front", Slot("1"), Slot("2", order=1)), dict.fromkeys(range(2), Beside())),
    ],
)
def test_in_a_row_house_left_is_to_the_left_in_front_and_to_the_right_from_behind(
    house: House, found: dict[int, Beside]
) -> None:
    assert neighbors(house, range(len(house.slots))) == found


def test_on_a_gallery_upstage_is_to_the_left_at_house_left_and_to_the_right_at_house_right() -> None:
    left = [Slot(f"L{n}", x=-9.0, y=-2.0 * n) for n in range(2)]
    right = [Slot(f"R{n}", x=9.0, y=-2.0 * n) for n in range(2)]
    found = neighbors(row("side", *left, *right), range(4))
    assert found == {0: Beside((), (1,)), 1: Beside((0,), ()), 2: Beside((3,), ()), 3: Beside((), (2,))}


def test_a_gallery_whose_side_is_not_measured_says_nothing() -> None:
    assert neighbors(row("side", Slot("1", order=1), Slot("2", order=2)), range(2)) == {0: Beside(), 1: Beside()}


def test_lenses_that_nothing_orders_are_not_beside_one_another_but_both_beside_the_next() -> None:
    house = row("front", Slot("1", x=0.0), Slot("2", x=0.1), Slot("3", x=4.0))
    assert neighbors(house, range(3)) == {0: Beside((), (2,)), 1: Beside((), (2,)), 2: Beside((0, 1), ())}


def test_in_a_bowl_the_next_clockwise_is_to_the_left_and_right_across_is_neither() -> None:
    house = row("bowl", *(Slot(f"{n}", bearing=90.0 * n) for n in range(4)))
    assert neighbors(house, range(4))[2] == Beside((3,), (1,))
    assert neighbors(house, (0, 2)) == {0: Beside(), 2: Beside()}
    assert neighbors(house, (0, 1)) == {0: Beside((1,), ()), 1: Beside((), (0,))}


def test_a_bowl_with_a_bearing_missing_says_nothing() -> None:
    assert neighbors(row("bowl", Slot("1", bearing=10.0), Slot("2")), range(2)) == {0: Beside(), 1: Beside()}


def test_only_lit_places_count_and_nobody_is_beside_across_positions() -> None:
    first = across("front", -20.0).positions[0]
    house = House((first, Position("Rail", (Slot("9", x=1.0, y=-9.0),), "front")))
    assert neighbors(house, (0, 2, 3)) == {0: Beside((), (2,)), 2: Beside((0,), ()), 3: Beside()}


def test_a_row_counts_from_house_left_and_a_bowl_has_its_bearing() -> None:
    assert [each.row for each in standings(across("rear", 9.0), range(3)).values()] == [1, 2, 3]
    assert [each.row for each in standings(row("front", Slot("1"), Slot("2")), range(2)).values()] == [0, 0]
    bowl = row("bowl", Slot("1", bearing=0.0), Slot("2", bearing=90.4))
    assert standings(bowl, range(2)) == {
        0: Standing("bowl", "center", 0, 360),
        1: Standing("bowl", "house right", 0, 90),
    }
