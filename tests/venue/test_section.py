"""The section: heights and distances to scale, the throw at its true angle, the beam down to the deck."""

from dataclasses import replace
from math import atan2, degrees, dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.venue.drawn_houses import (
    PROSCENIUM,
    SIDES,
    THRUST,
    collisions,
    leaders,
    of_kind,
    outside,
    slots,
    tags,
    texts,
    units_per_m,
)
from venue.core.drawing.records import SectionPlace, SectionWords, StageMarks
from venue.core.drawing.section import center_section, throw_section
from venue.core.drawing.shapes import Drawing, Line
from venue.core.pools import pool_on_deck
from venue.core.sightlines import sightline
from venue.core.throws import Point

WORDS = SectionWords(
    sides=replace(SIDES, left=("HOUSE",), right=("STAGE", "upstage"), view="Section along the throw", you=""),
    lip="lip",
    plaster_line="plaster line",
    target="target",
    throw="throw",
    cone="edge of the beam",
    pool="pool on the deck",
    person="a person",
    glass="glass",
    height="14.0 m high",
    near="near",
    far="far",
)
FACE = Point(0.0, 0.0, 1.5)


def placed(lens: Point, end: Point = FACE, full_deg: float = 4.0, label: str = "1", **more: object) -> SectionPlace:
    line = sightline(lens, end)
    pool = pool_on_deck(lens.z_m, line.angle_deg, full_deg)
    near, far = (pool.near_m, pool.far_m) if pool else (None, None)
    return SectionPlace(label, f"house {label}", lens, end, "4", ("43.0 m", "20°"), near, far, full_deg, **more)  # type: ignore[arg-type]


def along(place: SectionPlace, stage: StageMarks = PROSCENIUM, **more: object) -> Drawing:
    return throw_section(place, stage, WORDS, **more)  # type: ignore[arg-type]


def throw_in(drawing: Drawing) -> Line:
    return of_kind(drawing, "throw")[0]


def deck_y(drawing: Drawing) -> float:
    return of_kind(drawing, "level")[0].y1


BOOTH = Point(0.0, -40.0, 14.0)
CASES = {
    "booth": placed(BOOTH),
    "from the side": placed(Point(-15.0, -6.0, 6.0)),
    "flat": placed(Point(4.0, -38.0, 2.0), full_deg=6.0),
    "from behind": placed(Point(3.0, 9.0, 9.0)),
    "straight above": placed(Point(0.0, 0.0, 9.0)),
    "below the deck": placed(Point(0.0, -20.0, -1.0)),
    "across": placed(Point(-20.0, 0.0, 8.0)),
    "no data": SectionPlace("1", "house 1", BOOTH, FACE),
}


@pytest.mark.parametrize("stage", [PROSCENIUM, THRUST, StageMarks("round", target=FACE), StageMarks()])
@pytest.mark.parametrize("name", CASES)
def test_nothing_covers_anything_and_all_is_on_the_sheet(name: str, stage: StageMarks) -> None:
    for drawing in (along(CASES[name], stage), center_section([CASES[name]] * 3, stage, WORDS)):
        assert collisions(drawing) == []
        assert outside(drawing) == []
        assert "STAGE" in texts(drawing) and "HOUSE" in texts(drawing)


def test_lens_height_and_throw_are_to_scale_in_both_directions() -> None:
    drawing = along(placed(Point(30.0, -40.0, 14.0), Point(0.0, 0.0, 2.0)))
    scale, line = units_per_m(drawing), throw_in(drawing)
    assert deck_y(drawing) - line.y1 == pytest.approx(14.0 * scale)
    assert line.x2 - line.x1 == pytest.approx(50.0 * scale)  # 30-40-50
    assert deck_y(drawing) - line.y2 == pytest.approx(2.0 * scale)
    assert "14.0 m high" in texts(drawing)


def test_the_throw_falls_by_its_angle_which_an_arc_shows() -> None:
    drawing = along(placed(Point(0.0, -20.0, 11.5)))
    line, (arc,) = throw_in(drawing), of_kind(drawing, "angle")
    angle = degrees(atan2(line.y2 - line.y1, line.x2 - line.x1))
    assert angle == pytest.approx(degrees(atan2(10.0, 20.0)))
    lens = (line.x1, line.y1)
    start, *_between, end = arc.points
    assert start[1] == pytest.approx(line.y1)
    assert degrees(atan2(end[1] - lens[1], end[0] - lens[0])) == pytest.approx(angle)
    assert dist(start, lens) == pytest.approx(dist(end, lens))


def test_the_cone_runs_to_the_ends_of_the_pool() -> None:
    place = placed(Point(0.0, -12.0, 12.0), Point(0.0, 0.0, 0.0), 10.0)
    drawing = along(place)
    scale, lens = units_per_m(drawing), throw_in(drawing)
    near, far = (line for line in of_kind(drawing, "cone")[:2])
    assert (near.x2 - lens.x1, far.x2 - lens.x1) == pytest.approx(
        ((place.near_m or 0) * scale, (place.far_m or 0) * scale)
    )
    assert near.y2 == far.y2 == pytest.approx(deck_y(drawing))
    pool = of_kind(drawing, "deck-pool")[0]
    assert (pool.x1, pool.x2) == pytest.approx((near.x2, far.x2))
    assert {"near", "far", "pool on the deck", "edge of the beam"} <= set(texts(drawing))


def test_a_cone_over_the_horizon_runs_to_the_end_of_the_sheet_and_has_no_pool() -> None:
    drawing = along(CASES["flat"])
    upper = min(of_kind(drawing, "cone")[:2], key=lambda line: line.y2)
    assert upper.y2 < upper.y1
    assert upper.x2 == pytest.approx(of_kind(drawing, "level")[0].x2)
    assert of_kind(drawing, "deck-pool") == []


def test_lip_and_plaster_line_stand_where_the_throw_crosses_them() -> None:
    drawing = along(placed(BOOTH))
    scale, line = units_per_m(drawing), throw_in(drawing)
    (plaster,), (deck,) = of_kind(drawing, "plaster"), of_kind(drawing, "deck")
    assert plaster.x1 - line.x1 == pytest.approx(40.0 * scale)
    assert deck.x1 - line.x1 == pytest.approx(38.5 * scale)
    assert deck.x2 - plaster.x1 == pytest.approx(11.0 * scale)
    assert {"lip", "plaster line"} <= set(texts(drawing))


def test_a_throw_from_the_side_meets_the_stage_at_its_side() -> None:
    drawing = along(placed(Point(-20.0, -1.0, 8.0), Point(0.0, -1.0, 1.5)))
    scale, line, (deck,) = units_per_m(drawing), throw_in(drawing), of_kind(drawing, "deck")
    assert deck.x1 - line.x1 == pytest.approx(13.0 * scale)
    assert "plaster line" not in texts(drawing)


def test_upstage_is_at_the_right_for_a_lens_behind_the_stage_too() -> None:
    drawing = along(CASES["from behind"])
    line, (plaster,) = throw_in(drawing), of_kind(drawing, "plaster")
    assert line.x1 > line.x2 == pytest.approx(plaster.x1)


def test_a_person_stands_at_the_end_of_the_throw_as_tall_as_told() -> None:
    drawing = along(placed(BOOTH), person_m=1.9)
    figure = [shape for shape in drawing.shapes if shape.kind == "person"][:2]
    top, bottom = figure[1].bounds[1], max(y for _x, y in figure[0].points)  # type: ignore[union-attr]
    assert bottom == pytest.approx(deck_y(drawing))
    assert bottom - top == pytest.approx(1.9 * units_per_m(drawing))
    assert figure[1].x == pytest.approx(throw_in(drawing).x2)  # type: ignore[union-attr]


def test_glass_is_marked_across_the_throw_and_named() -> None:
    assert of_kind(along(placed(BOOTH)), "glass") == []
    drawing = along(placed(BOOTH, has_glass=True))
    line, pane = throw_in(drawing), of_kind(drawing, "glass")[0]
    across = (pane.x2 - pane.x1) * (line.x2 - line.x1) + (pane.y2 - pane.y1) * (line.y2 - line.y1)
    assert across == pytest.approx(0.0, abs=1e-6)
    assert "glass" in texts(drawing)


def test_along_the_center_line_all_places_stand_by_y_and_height() -> None:
    lenses = [Point(-5.0, -38.0, 14.0), Point(7.0, -24.0, 8.5), Point(0.0, 6.0, 9.0)]
    places = [placed(lens, label=str(index)) for index, lens in enumerate(lenses)]
    drawing = center_section(places, PROSCENIUM, WORDS)
    scale, drawn, (plaster,) = units_per_m(drawing), slots(drawing), of_kind(drawing, "plaster")
    for place in places:
        x, y = drawn[place.words]
        expected = (place.lens.y_m * scale, place.lens.z_m * scale)
        assert (x - plaster.x1, deck_y(drawing) - y) == pytest.approx(expected)
    assert of_kind(drawing, "angle") == []  # seen aslant no angle is true


def test_twenty_four_lenses_on_one_line_keep_their_labels_apart() -> None:
    places = [replace(placed(Point(i - 12.0, -38.0, 14.0), label=str(i)), lines=("40 m",)) for i in range(24)]
    drawing = center_section(places, PROSCENIUM, WORDS)
    assert collisions(drawing) == []
    assert len(leaders(drawing).keys() & tags(drawing).keys()) == 24


LENSES = st.builds(Point, st.floats(-30.0, 30.0), st.floats(-60.0, 15.0), st.floats(-2.0, 30.0))


@settings(max_examples=25, deadline=None)
@given(LENSES, st.floats(0.5, 40.0))
def test_any_throw_is_drawn_as_long_and_as_steep_as_it_is(lens: Point, full_deg: float) -> None:
    place = placed(lens, full_deg=full_deg)
    drawing = along(place)
    line, sight = throw_in(drawing), sightline(lens, FACE)
    assert dist((line.x1, line.y1), (line.x2, line.y2)) == pytest.approx(sight.throw_m * units_per_m(drawing))
    assert degrees(atan2(line.y2 - line.y1, abs(line.x2 - line.x1))) == pytest.approx(sight.angle_deg, abs=1e-6)
    assert collisions(drawing) == []
    assert outside(drawing) == []
