"""The house plan: to scale, each slot where it belongs, both numbers at every one, nothing over anything."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from math import dist, hypot
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.venue.drawn_houses import (
    PLAN_WORDS,
    PROSCENIUM,
    ROUND,
    SIDES,
    THRUST,
    classes,
    collisions,
    is_at,
    leaders,
    length,
    of_kind,
    outside,
    place,
    row,
    slots,
    tags,
    texts,
    units_per_m,
    ways,
)
from venue.core.drawing.hatching import hatched
from venue.core.drawing.house_plan import house_plan
from venue.core.drawing.overlaps import crosses
from venue.core.drawing.plane import View
from venue.core.drawing.records import BeamPool, PlanArea, PlanPlace, StageMarks
from venue.core.drawing.shapes import Drawing, Line, Text
from venue.core.drawing.svg import as_svg

CSS = Path(__file__).resolve().parents[2] / "static" / "css" / "drawing.css"
VIEWS: tuple[View, ...] = ("house", "stage")
PIT = PlanArea("pit", ((-6.0, -2.0), (6.0, -2.0), (6.0, -5.0), (-6.0, -5.0)))
AISLE = PlanArea("aisle", ((-1.0, -8.0), (1.0, -8.0), (1.0, -20.0), (-1.0, -20.0)), (((-1, -8), (1, -8), (1, -14)),))
POOLS = (BeamPool(0.0, 0.0, 4.0, 1.5, 0.0), BeamPool(2.0, 1.0, 5.0, 2.0, 90.0))


def plan(places: list[PlanPlace], stage: StageMarks = PROSCENIUM, view: View = "house", **more: object) -> Drawing:
    return house_plan(places, stage, PLAN_WORDS, view, **more)  # type: ignore[arg-type]


def sides_and_booth() -> list[PlanPlace]:
    booms = [place(f"L{i}", -13.0, -8.0 - 2 * i, position="Box booms", zone="side") for i in (1, 2)]
    booms += [place(f"R{i}", 13.0, -8.0 - 2 * i, position="Box booms", zone="side") for i in (1, 2)]
    truss = [place(f"T{i}", 3.0 * i, 6.0, position="Rear truss", zone="rear") for i in (-1, 1)]
    return [*row(4, -38.0), *booms, *truss]


HOUSES: dict[str, Callable[[], tuple[list[PlanPlace], StageMarks]]] = {
    "four": lambda: (row(4), PROSCENIUM),
    "twelve": lambda: (row(12, -38.0), PROSCENIUM),
    "twenty-four in three meters": lambda: (row(24, -30.0, 1.5), PROSCENIUM),
    "twenty-four in one point": lambda: (row(24, -30.0, 0.0), PROSCENIUM),
    "sides and behind": lambda: (sides_and_booth(), PROSCENIUM),
    "thrust": lambda: (row(6, -22.0), THRUST),
    "in the round": lambda: (
        [place(str(i), x, y, str(i)) for i, (x, y) in enumerate([(9, 2), (16, -10), (9, -22), (-9, -22), (-16, -10)])],
        ROUND,
    ),
    "nothing on file": lambda: ([], StageMarks()),
    "one above the target": lambda: ([place("1", 0.0, 0.0, "1")], StageMarks("round")),
    "far off": lambda: ([place("1", 400.0, -600.0), place("2", 400.0, -600.1)], PROSCENIUM),
}


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("name", HOUSES)
def test_nothing_covers_anything_and_all_is_on_the_sheet(name: str, view: View) -> None:
    places, stage = HOUSES[name]()
    drawing = plan(places, stage, view, pools=POOLS)
    assert collisions(drawing) == []
    assert outside(drawing) == []
    assert len(tags(drawing)) == len(places)
    assert len(leaders(drawing)) == len(places)


@pytest.mark.parametrize("name", ["four", "twelve", "sides and behind", "thrust", "in the round"])
def test_no_leader_runs_through_the_tag_of_another_slot(name: str) -> None:
    drawing = plan(*HOUSES[name]())
    boxes = tags(drawing)
    for words, points in leaders(drawing).items():
        others = [box for other, box in boxes.items() if other != words]
        assert not [box for box in others for one, other in pairwise(points) if crosses(one, other, box)], words


def test_a_place_five_meters_to_house_right_is_drawn_right_of_the_center_line_by_five_meters() -> None:
    """+x runs to stage left, which is house right: at the right hand of who faces the stage."""
    for view, way in (("house", 1), ("stage", -1)):
        drawing = plan([place("1", 5.0, -20.0)], view=view)  # type: ignore[arg-type]
        (center,) = of_kind(drawing, "center")
        x, _y = slots(drawing)["house 1"]
        assert x - center.x1 == pytest.approx(way * 5.0 * units_per_m(drawing))
        assert center.x1 == drawing.width / 2


def test_a_place_twenty_meters_into_the_house_is_drawn_below_the_plaster_line_by_twenty_meters() -> None:
    for view, way in (("house", 1), ("stage", -1)):
        drawing = plan([place("1", 5.0, -20.0)], view=view)  # type: ignore[arg-type]
        (plaster,) = of_kind(drawing, "plaster")
        _x, y = slots(drawing)["house 1"]
        assert y - plaster.y1 == pytest.approx(way * 20.0 * units_per_m(drawing))


def test_the_stage_is_drawn_by_its_measures() -> None:
    drawing = plan(row(2))
    scale = units_per_m(drawing)
    (stage,), (plaster,), (edge,) = (of_kind(drawing, kind) for kind in ("stage", "plaster", "stage-edge"))
    assert (stage.width, stage.height) == pytest.approx((14.0 * scale, 12.5 * scale))
    assert edge.points[0][1] - plaster.y1 == pytest.approx(1.5 * scale)
    assert edge.points[1][0] - edge.points[0][0] == pytest.approx(14.0 * scale)
    left, right = of_kind(drawing, "wall")
    assert right.x1 - left.x2 == pytest.approx(14.0 * scale)
    assert {"STAGE", "opening 14.0 m", "plaster line", "center line", "lip", "target"} <= set(texts(drawing))
    (cross, *_others) = of_kind(drawing, "target")
    assert cross.y1 == pytest.approx(plaster.y1)


def test_a_thrust_has_its_edge_on_three_sides_and_no_walls() -> None:
    drawing = plan(row(2), THRUST)
    (edge,) = of_kind(drawing, "stage-edge")
    scale = units_per_m(drawing)
    assert [hypot(*way) for way in ways(edge.points)] == pytest.approx([7.0 * scale, 9.0 * scale, 7.0 * scale])
    assert of_kind(drawing, "wall") == []


def test_in_the_round_the_edge_runs_about_the_target_and_there_is_no_plaster_line() -> None:
    drawing = plan(HOUSES["in the round"]()[0], ROUND)
    (edge,) = of_kind(drawing, "stage-edge")
    middle = of_kind(drawing, "target-ring")[0]
    assert edge.points[0] == edge.points[-1]
    xs, ys = zip(*edge.points, strict=True)
    assert ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2) == pytest.approx((middle.x, middle.y))
    assert "plaster line" not in texts(drawing)


def test_what_is_not_on_file_is_not_drawn() -> None:
    drawing = plan(row(2), StageMarks())
    assert of_kind(drawing, "stage") == of_kind(drawing, "measure") == of_kind(drawing, "wall") == []
    assert "lip" not in texts(drawing)
    assert len(of_kind(drawing, "stage-edge")) == 1


def test_throws_run_from_the_slot_to_their_own_end_point_and_say_their_length() -> None:
    drawing = plan([place("1", -3.0, -30.0, end=(0.0, -1.5)), place("2", 3.0, -30.0, end=None)])
    (line, _sample) = of_kind(drawing, "throw")
    assert (line.x1, line.y1) == pytest.approx(slots(drawing)["house 1"])
    assert length(line) == pytest.approx(dist((-3.0, -30.0), (0.0, -1.5)) * units_per_m(drawing))
    assert {"1 thrown", "2 thrown"} <= set(texts(drawing))


def test_pools_are_ellipses_along_their_pan() -> None:
    drawing = plan(row(2), pools=POOLS)
    scale = units_per_m(drawing)
    upstage, across, _sample = of_kind(drawing, "pool")
    for pool, width_m, height_m in ((upstage, 1.5, 4.0), (across, 5.0, 2.0)):
        left, top, right, bottom = pool.bounds
        assert (right - left, bottom - top) == pytest.approx((width_m * scale, height_m * scale))
    assert (across.x - upstage.x, upstage.y - across.y) == pytest.approx((2.0 * scale, 1.0 * scale))


def test_both_numbers_stand_at_a_place_and_a_place_without_one_is_spare() -> None:
    drawing = plan([place("A", -3.0, -30.0, "7"), place("B", 3.0, -30.0)])
    assert [shape.text for shape in of_kind(drawing, "number")] == ["7"]
    assert [shape.text for shape in of_kind(drawing, "label")] == ["A", "B"]
    assert {"show number", "house label", "spare"} <= set(texts(drawing))


def test_without_a_show_only_house_labels_stand_there() -> None:
    drawing = plan([place("A", -3.0, -30.0), place("B", 3.0, -30.0)])
    assert of_kind(drawing, "number-shape") == of_kind(drawing, "spare-shape") == []
    assert "show number" not in texts(drawing) and "house label" in texts(drawing)


def test_places_without_coordinates_are_listed_and_not_drawn() -> None:
    drawing = plan([place("1", None, None), place("2", 1.0, -20.0), place("3", 1.0, None)])
    assert drawing.undrawn == (0, 2)
    assert list(tags(drawing)) == ["house 2"]


@pytest.mark.parametrize("view", VIEWS)
def test_both_edges_carry_whole_words_in_the_order_of_the_view_which_is_said(view: View) -> None:
    words = replace(PLAN_WORDS, sides=replace(SIDES, view="Seen from the stage: turned by 180°"))
    drawing = house_plan(row(4), PROSCENIUM, words, view)
    edges = [shape for shape in drawing.shapes if isinstance(shape, Text) and shape.kind.startswith("edge-")]
    at_left = [shape.text for shape in edges if shape.anchor == "start"]
    at_right = [shape.text for shape in edges if shape.anchor == "end"]
    sides = [["HOUSE LEFT ·", "stage right", "river side"], ["HOUSE RIGHT ·", "stage left", "street side"]]
    assert [at_left, at_right] == (sides if view == "house" else sides[::-1])
    assert "Seen from the stage: turned by 180°" in texts(drawing)
    (you,) = of_kind(drawing, "you")
    assert all(box[3] <= you.y for box in tags(drawing).values())


def test_long_words_are_wrapped_or_cut_and_whole_in_what_is_read_aloud() -> None:
    words = replace(PLAN_WORDS, sides=replace(SIDES, view="Seen from the stage, which is to say " * 3))
    named = [place("Label with many letters", 2.0 * i, -30.0, "Performer", position="Gallery " * 12) for i in range(6)]
    drawing = house_plan(named, PROSCENIUM, words)
    assert collisions(drawing) == [] and outside(drawing) == []
    assert " ".join(shape.text for shape in of_kind(drawing, "view")) == words.sides.view.strip()
    assert next(iter(tags(drawing))) == "house Label with many letters"


def test_areas_are_outlined_and_named_and_what_is_reached_is_hatched_inside_of_them() -> None:
    drawing = plan(row(4), areas=[PIT, AISLE])
    scale, (_pit, aisle) = units_per_m(drawing), of_kind(drawing, "area")
    assert {"pit", "aisle", "reached"} <= set(texts(drawing))
    xs, ys = zip(*aisle.points, strict=True)
    strokes = [shape for shape in drawing.shapes if isinstance(shape, Line) and shape.kind == "reached"]
    inside = [stroke for stroke in strokes if stroke.y2 < max(ys) + 1]
    assert len(inside) > 5
    for stroke in inside:
        assert min(xs) - 0.01 <= min(stroke.x1, stroke.x2) and max(stroke.x1, stroke.x2) <= max(xs) + 0.01
        assert max(stroke.y1, stroke.y2) <= min(ys) + 6.0 * scale + 0.01


def test_hatching_covers_a_square_with_strokes_a_step_apart() -> None:
    strokes = hatched(((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)), step=2**0.5)
    assert [sorted({stroke.x1 + stroke.y1, stroke.x2 + stroke.y2})[0] for stroke in strokes] == pytest.approx(
        [2.0 * i for i in range(1, 10)]
    )
    assert max(length(stroke) for stroke in strokes) == pytest.approx(10 * 2**0.5)


def test_the_svg_carries_classes_only_each_with_a_rule() -> None:
    hostile = [place('<b>"&', -3.0, -30.0, "<1>", position="<script>"), *sides_and_booth(), *row(3, -20.0)]
    svg = as_svg(plan(hostile, pools=POOLS, areas=[AISLE]), title="a & b", family="draft")
    assert "<script" not in svg and "<b>" not in svg
    rules = CSS.read_text()
    unruled = {name for name in classes(svg) if f".{name} " not in rules and f".{name}," not in rules}
    assert unruled <= {f"draft-{kind}" for kind in ("light", "label", "legend", "key-word", "scale-word", "spare")}


COORDINATES = st.floats(-40.0, 40.0, allow_nan=False)
CROWDED = st.tuples(st.sampled_from([0.0, 0.3, 2.0, 8.0]), st.floats(-45.0, 12.0), st.integers(1, 8)).flatmap(
    lambda row: st.lists(
        st.tuples(st.floats(-row[0], row[0]), st.floats(row[1] - row[0] / 4, row[1] + row[0] / 4)),
        min_size=1,
        max_size=row[2],
    )
)
ZONES = ["front", "side", "overhead"]


@st.composite
def crowded_houses(draw: st.DrawFn) -> list[PlanPlace]:
    """Up to three positions of lenses that stand close or all at one point, 24 in all."""
    found = []
    for number, spots in enumerate(draw(st.lists(CROWDED, min_size=1, max_size=3))):
        zone = draw(st.sampled_from(ZONES))
        for x, y in spots:
            label = f"{number}{len(found) + 1}"
            found.append(place(label, x, y, draw(st.sampled_from([None, label, "Lead"])), position=zone, zone=zone))
    return found


@settings(max_examples=40, deadline=None)
@given(crowded_houses(), st.sampled_from(VIEWS))
def test_labels_never_collide_however_crowded_and_each_is_led_to_its_slot(places: list[PlanPlace], view: View) -> None:
    drawing = plan(places, view=view)
    boxes, led = tags(drawing), leaders(drawing)
    assert collisions(drawing) == []
    assert outside(drawing) == []
    assert set(boxes) == set(led) == {each.words for each in places}
    spots = {(round(shape.x, 6), round(shape.y, 6)) for shape in of_kind(drawing, "slot")}
    for words, points in led.items():
        assert (round(points[0][0], 6), round(points[0][1], 6)) in spots
        assert is_at(points[-1], boxes[words])
    assert not [words for words, box in boxes.items() for x, y in spots if box[0] < x < box[2] and box[1] < y < box[3]]


@settings(max_examples=15, deadline=None)
@given(st.integers(9, 24), st.sampled_from([0.0, 0.5, 3.0]))
def test_a_crowded_row_keeps_its_order(count: int, half: float) -> None:
    drawing = plan(row(count, -30.0, half))
    places = {words: ((box[0] + box[2]) / 2, box[1]) for words, box in tags(drawing).items()}
    reading = sorted(places, key=lambda words: (round(places[words][0]), places[words][1]))
    assert reading == [f"house {number}" for number in range(1, count + 1)]
    assert drawing.width <= 360


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(COORDINATES, COORDINATES), min_size=2, max_size=12, unique=True))
def test_turning_by_180_degrees_takes_every_slot_to_the_opposite_side_and_mirrors_none(spots: list) -> None:
    places = [place(str(index), x, y, str(index)) for index, (x, y) in enumerate(spots)]
    from_house, from_stage = (slots(plan(places, view=view)) for view in VIEWS)
    before = ways([from_house[each.words] for each in places])
    after = ways([from_stage[each.words] for each in places])
    assert [(-x, -y) for x, y in after] == [pytest.approx(way, abs=1e-6) for way in before]


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(COORDINATES, COORDINATES), min_size=2, max_size=12, unique=True), st.integers(340, 800))
def test_the_scale_is_the_same_in_both_directions_and_the_bar_says_it(spots: list, width: int) -> None:
    places = [place(str(index), x, y) for index, (x, y) in enumerate(spots)]
    drawing = plan(places, width=float(width))
    scale, drawn = units_per_m(drawing), slots(drawing)
    points = [drawn[each.words] for each in places]
    expected = [(dx * scale, -dy * scale) for dx, dy in ways(spots)]
    assert ways(points) == [pytest.approx(way, abs=1e-6) for way in expected]
