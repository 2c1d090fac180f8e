"""The plan: nothing covers anything, both edges say both sides, turning changes no number."""

from collections.abc import Sequence
from itertools import combinations, pairwise
from math import hypot
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shows.core.drawing.plan import PlanWords, View, draw_plan
from shows.core.numbering.records import House, Pair, Position, Slot
from tests.shows.numbering_cases import even_ring, ring, row, row_house
from venue.core.drawing.shapes import Box, Drawing, Mark, Text
from venue.core.drawing.spread import spread, spread_round
from venue.core.drawing.svg import as_svg

WORDS = PlanWords(
    house_left=("HOUSE LEFT ·", "stage right", "river side"),
    house_right=("HOUSE RIGHT ·", "stage left", "street side"),
    stage="STAGE",
    stage_end="stage end · north gate",
    you="YOU, facing the stage",
    show_number="show number",
    house_label="house label",
    spare="spare",
)
HAIR = 0.01
VIEWS: tuple[View, ...] = ("house", "stage")


def counted(count: int) -> list[str]:
    return [str(number) for number in range(1, count + 1)]


def by_order(count: int, zone: str = "front") -> House:
    return House((Position("Rail", tuple(Slot(str(n), order=n) for n in range(1, count + 1)), zone),))  # type: ignore[arg-type]


def crowded(count: int) -> House:
    """All lenses on one spot, as a careless survey has it."""
    return House((Position("Booth", tuple(Slot(str(n), x=1.0, y=-30.0, z=9.0) for n in range(1, count + 1))),))


def end_stage(count: int) -> House:
    return ring({str(n + 1): 90.0 + 180.0 * n / max(1, count - 1) for n in range(count)})


def drawn(house: House, view: View = "house", numbers: Sequence[str] | None = None) -> Drawing:
    """The last place stays spare."""
    shown = counted(len(house.slots) - 1) if numbers is None else numbers
    pairs = [Pair(number, slot, "statement") for slot, number in enumerate(shown)]
    words = [f"house {slot.label}" for slot in house.slots]
    return draw_plan(house, pairs, WORDS, words, view)


def marks(drawing: Drawing) -> list[Mark]:
    return [shape for shape in drawing.shapes if isinstance(shape, Mark)]


def numbers_on(drawing: Drawing) -> dict[str, str]:
    """House label to what stands above it."""
    found = {}
    for mark in marks(drawing):
        texts = {shape.kind: shape.text for shape in mark.shapes if isinstance(shape, Text)}
        found[texts["label"]] = texts.get("number", texts.get("spare", ""))
    return found


def pill_at(mark: Mark) -> tuple[float, float]:
    return next((shape.x, shape.y) for shape in mark.shapes if isinstance(shape, Box))


def covers(one: Box | Text, other: Box | Text) -> bool:
    """Whether two shapes overlap, a circle taken as a circle."""
    if is_circle(one) and is_circle(other):
        return hypot(one.x - other.x, one.y - other.y) < radius_of(one) + radius_of(other) - HAIR
    if is_circle(other):
        one, other = other, one
    left, top, right, bottom = other.bounds
    if is_circle(one):
        across, down = max(left - one.x, 0, one.x - right), max(top - one.y, 0, one.y - bottom)
        return hypot(across, down) < radius_of(one) - HAIR
    left_2, top_2, right_2, bottom_2 = one.bounds
    return left < right_2 - HAIR and left_2 < right - HAIR and top < bottom_2 - HAIR and top_2 < bottom - HAIR


def is_circle(shape: Box | Text) -> bool:
    return isinstance(shape, Box) and shape.width == shape.height == 2 * shape.radius


def radius_of(shape: Box | Text) -> float:
    return shape.bounds[2] - shape.x


def collisions(drawing: Drawing) -> list[tuple[object, object]]:
    """Shapes that cover one another, but for the writing inside a shape of its own."""
    alone = [(shape, None) for shape in drawing.shapes if isinstance(shape, Text) and shape.kind != "legend"]
    inside = [(shape, mark) for mark in marks(drawing) for shape in mark.shapes]
    solid = [(shape, None) for shape in drawing.shapes if isinstance(shape, Box) and shape.kind != "stage"]
    everything: list[tuple[Box | Text, Mark | None]] = [*alone, *inside, *solid]
    return [
        (one, other)
        for (one, its), (other, others) in combinations(everything, 2)
        if covers(one, other) and not _is_writing_of(one, other) and not (its is None and others is None)
    ]


def _is_writing_of(one: Box | Text, other: Box | Text) -> bool:
    return {type(one), type(other)} == {Box, Text} and (one.x, one.y) == (other.x, other.y)


def outside(drawing: Drawing) -> list[object]:
    return [
        shape
        for shape in drawing.flat()
        if isinstance(shape, Box | Text) and not (shape.bounds[0] >= 0 and shape.bounds[2] <= drawing.width)
    ]


HOUSES = {
    "row": lambda count: House((row(counted(count)),)),
    "order": by_order,
    "crowd": crowded,
    "ring": even_ring,
    "ring by order": lambda count: by_order(count, "bowl"),
    "end stage": end_stage,
    "rows": lambda count: row_house(counted(count), counted(max(1, count // 2)), ["A"]),
    "both": lambda count: House((*even_ring(count).positions, row(counted(count), "Truss", 2.0))),
}


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("kind", HOUSES)
@pytest.mark.parametrize("count", [1, 2, 3, 4, 6, 8, 12, 16, 24])
def test_nothing_covers_anything_up_to_24_places(kind: str, count: int, view: View) -> None:
    drawing = drawn(HOUSES[kind](count), view)
    assert collisions(drawing) == []
    assert outside(drawing) == []
    assert drawing.undrawn == ()


@pytest.mark.parametrize("kind", ["row", "ring", "end stage"])
def test_long_numbers_and_labels_are_cut_on_the_drawing_and_whole_in_its_words(kind: str) -> None:
    house = HOUSES[kind](8)
    numbers = [f"Performer {number}" for number in range(8)]
    named = House(
        tuple(
            Position(
                p.name * 20,
                tuple(Slot(f"Label {i} of many", s.x, s.y, s.z, s.bearing) for i, s in enumerate(p.slots)),
                p.zone,
            )
            for p in house.positions
        )
    )
    drawing = drawn(named, "stage", numbers)
    assert collisions(drawing) == []
    assert outside(drawing) == []
    assert set(numbers_on(drawing).values()) == {"Perform…"}
    assert marks(drawing)[0].words.endswith("of many")


@pytest.mark.parametrize("kind", HOUSES)
def test_turning_by_180_degrees_changes_no_number_and_takes_every_light_to_the_opposite_side(kind: str) -> None:
    from_house, from_stage = (drawn(HOUSES[kind](5), view) for view in VIEWS)
    assert numbers_on(from_house) == numbers_on(from_stage)
    before = {mark.words: pill_at(mark) for mark in marks(from_house)} if kind not in {"rows", "both"} else {}
    for mark in marks(from_stage) if before else ():
        x, _y = before[mark.words]
        assert pill_at(mark)[0] == pytest.approx(from_stage.width - x)


def test_the_order_across_is_turned_never_mirrored_alone() -> None:
    house = row_house(counted(4), counted(2))
    for view, first in (("house", "Row 2"), ("stage", "Row 1")):
        drawing = drawn(house, view)
        captions = [shape for shape in drawing.shapes if isinstance(shape, Text) and shape.kind == "caption"]
        assert min(captions, key=lambda text: text.y).text == first
        booth = marks(drawing)[-4:]
        labels = [shape.text for mark in sorted(booth, key=pill_at) for shape in mark.shapes if isinstance(shape, Text)]
        left_to_right = [text for text in labels if text in {"1", "2", "3", "4"}][1::2]
        assert left_to_right == (["1", "2", "3", "4"] if view == "house" else ["4", "3", "2", "1"])


@pytest.mark.parametrize("view", VIEWS)
def test_both_edges_carry_both_names_in_whole_words_and_the_landmarks(view: View) -> None:
    drawing = drawn(row_house(counted(3)), view)
    texts = [shape for shape in drawing.shapes if isinstance(shape, Text)]
    left = [text.text for text in texts if text.anchor == "start" and text.kind.startswith("edge")]
    right = [text.text for text in texts if text.anchor == "end" and text.kind.startswith("edge")]
    sides = [["HOUSE LEFT ·", "stage right", "river side"], ["HOUSE RIGHT ·", "stage left", "street side"]]
    assert [left, right] == (sides if view == "house" else sides[::-1])


@pytest.mark.parametrize("kind", HOUSES)
@pytest.mark.parametrize("view", VIEWS)
def test_the_stage_edge_and_the_viewer_always_show(kind: str, view: View) -> None:
    drawing = drawn(HOUSES[kind](4), view)
    kinds = [shape.kind for shape in drawing.shapes]
    assert "stage-edge" in kinds
    you = next(shape for shape in drawing.shapes if isinstance(shape, Text) and shape.kind == "you")
    assert you.text == "YOU, facing the stage"
    assert all(pill_at(mark)[1] < you.y for mark in marks(drawing))


def test_house_left_is_at_the_left_hand_of_who_faces_the_stage() -> None:
    house = House((row(["far left", "far right"]),))
    left, right = sorted(marks(drawn(house)), key=pill_at)
    assert (left.words, right.words) == ("house far left", "house far right")


def test_in_a_bowl_bearing_90_is_at_the_right_and_the_stage_end_on_top() -> None:
    at = {mark.words: pill_at(mark) for mark in marks(drawn(ring({"0": 0, "90": 90, "180": 180, "270": 270})))}
    assert at["house 0"][1] < at["house 90"][1] < at["house 180"][1]
    assert at["house 270"][0] < at["house 0"][0] < at["house 90"][0]


def test_places_behind_the_stage_edge_are_drawn_behind_it() -> None:
    house = House((row(["1"], "Rear truss", 8.0), row(["2"], "Booth", -30.0)))
    drawing = drawn(house)
    edge = next(shape for shape in drawing.flat() if shape.kind == "stage-edge")
    at = {mark.words: pill_at(mark)[1] for mark in marks(drawing)}
    assert at["house 1"] < edge.y1 < at["house 2"]  # type: ignore[union-attr]


def test_places_that_nothing_puts_anywhere_are_listed_and_not_drawn() -> None:
    house = House((Position("Booth", (Slot("1"), Slot("2"))), row(["3"], "Rail", -20.0)))
    drawing = drawn(house)
    assert drawing.undrawn == (0, 1)
    assert list(numbers_on(drawing)) == ["3"]


def test_the_svg_is_well_formed_and_carries_no_style() -> None:
    house = House((row(['<b>"&', "2"], "<script>alert(1)</script>"),))
    svg = as_svg(drawn(house, numbers=["<1>", "2"]), title="a & b")
    root = ElementTree.fromstring(svg)
    assert "style" not in svg
    assert "<script" not in svg
    assert [element.text for element in root.iter() if element.get("class") == "plan-number"] == ["<1>", "2"]


@given(st.lists(st.floats(0, 100), min_size=1, max_size=24), st.floats(0.1, 20))
def test_spreading_keeps_the_order_the_bounds_and_the_gap_where_there_is_room(values: list[float], gap: float) -> None:
    placed = spread(sorted(values), gap, 0.0, 100.0)
    assert placed == sorted(placed)
    assert placed[0] >= -1e-9 and placed[-1] <= 100.0 + 1e-9
    if (len(values) - 1) * gap <= 100.0:
        assert all(after - before >= gap - 1e-6 for before, after in pairwise(placed))


@given(st.lists(st.floats(0, 359.9), min_size=2, max_size=24), st.floats(0.1, 15))
def test_spreading_round_keeps_everybody_apart_over_the_stage_end_too(bearings: list[float], gap: float) -> None:
    placed = spread_round(sorted(bearings), gap)
    for index, bearing in enumerate(placed):
        after = placed[(index + 1) % len(placed)]
        assert (after - bearing) % 360.0 >= gap - 1e-6
