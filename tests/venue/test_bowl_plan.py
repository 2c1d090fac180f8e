"""The bowl plan: bearings clockwise from the stage end at the top, the clock as the set-up has it."""

from dataclasses import replace
from itertools import pairwise
from math import atan2, cos, degrees, dist, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.venue.drawn_houses import (
    PLAN_WORDS,
    collisions,
    leaders,
    of_kind,
    outside,
    place,
    slots,
    tags,
    texts,
    units_per_m,
)
from venue.core.drawing.bowl_plan import bowl_plan
from venue.core.drawing.overlaps import crosses
from venue.core.drawing.plane import View
from venue.core.drawing.records import PlanPlace, StageMarks
from venue.core.drawing.shapes import Drawing
from venue.core.drawing.svg import as_svg
from venue.core.throws import Point

CENTER = StageMarks("round", target=Point(0.0, -30.0, 1.5))
END = StageMarks("bowl", 18.0, 12.0)
VIEWS: tuple[View, ...] = ("house", "stage")


def by_bearing(*bearings: float) -> list[PlanPlace]:
    return [
        place(f"{bearing:g}", None, None, str(i), bearing_deg=bearing, bearing=f"{bearing:g}°", zone="bowl")
        for i, bearing in enumerate(bearings, start=1)
    ]


def oval(count: int, wide: float = 48.0, deep: float = 38.0) -> list[PlanPlace]:
    angles = [radians(15.0 + 360.0 * index / count) for index in range(count)]
    spots = [(wide * sin(angle), -30.0 + deep * cos(angle)) for angle in angles]
    return [place(str(i), x, y, str(i), zone="bowl", end=(0.0, -30.0)) for i, (x, y) in enumerate(spots, start=1)]


def bowl(places: list[PlanPlace], stage: StageMarks = CENTER, view: View = "house") -> Drawing:
    return bowl_plan(places, stage, PLAN_WORDS, view)


def middle(drawing: Drawing) -> tuple[float, float]:
    ring = of_kind(drawing, "target-ring")[0]
    return ring.x, ring.y


def bearing_on(drawing: Drawing, words: str) -> float:
    (x, y), (x0, y0) = slots(drawing)[words], middle(drawing)
    return degrees(atan2(x - x0, y0 - y)) % 360.0


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("count", [1, 2, 3, 8, 12, 24])
def test_nothing_covers_anything_and_all_is_on_the_sheet(count: int, view: View) -> None:
    for drawing in (
        bowl(oval(count), view=view),
        bowl(by_bearing(*(360.0 * i / count for i in range(count))), END, view),
    ):
        assert collisions(drawing) == []
        assert outside(drawing) == []
        assert len(leaders(drawing)) == count


def test_rings_inside_of_rings_lead_past_the_tags_of_one_another_and_name_their_position() -> None:
    inner = [replace(each, label=f"L{each.label}", words=f"lower {each.label}") for each in oval(8, 30.0, 24.0)]
    drawing = bowl([*oval(16), *(replace(each, position="Lower ring") for each in inner)])
    boxes = tags(drawing)
    assert collisions(drawing) == []
    for words, points in leaders(drawing).items():
        others = [box for other, box in boxes.items() if other != words]
        assert not [box for box in others for one, end in pairwise(points) if crosses(one, end, box)], words
    assert (texts(drawing).count("Lower ring"), texts(drawing).count("Booth")) == (8, 16)


def test_bearing_90_is_at_house_right_and_the_stage_end_on_top() -> None:
    drawing = bowl(by_bearing(0.0, 90.0, 180.0, 270.0))
    assert [bearing_on(drawing, f"house {bearing}") for bearing in (0, 90, 180, 270)] == pytest.approx(
        [0, 90, 180, 270]
    )
    (end,) = of_kind(drawing, "stage-end")
    assert end.text == "stage end · north gate"
    assert end.y < min(y for _x, y in slots(drawing).values())
    assert "90°" in texts(drawing)


def test_from_the_stage_everything_lies_opposite() -> None:
    drawing = bowl(by_bearing(5.0, 90.0, 185.0, 275.0), view="stage")
    assert [bearing_on(drawing, f"house {b}") for b in (5, 90, 185, 275)] == pytest.approx([185, 270, 5, 95])
    (end,) = of_kind(drawing, "stage-end")
    assert end.y > max(y for _x, y in slots(drawing).values())


@pytest.mark.parametrize("twelve", [0.0, 30.0, 180.0, 347.5])
def test_the_clock_has_its_twelve_where_the_set_up_has_it(twelve: float) -> None:
    drawing = bowl(by_bearing(20.0, 200.0), StageMarks("round", twelve_deg=twelve))
    x0, y0 = middle(drawing)
    on_dial = of_kind(drawing, "hour")[:12]  # the last one is the sample below
    hours = {shape.text: degrees(atan2(shape.x - x0, y0 - shape.y)) for shape in on_dial}
    assert set(hours) == {str(hour) for hour in range(1, 13)}
    for hour, bearing in hours.items():
        apart = (bearing - twelve - 30.0 * int(hour)) % 360.0
        assert min(apart, 360.0 - apart) == pytest.approx(0.0, abs=1e-6)


def test_measured_places_stand_to_scale_and_their_throws_end_where_they_end() -> None:
    places = oval(12)
    drawing = bowl(places)
    scale, drawn = units_per_m(drawing), slots(drawing)
    for each in places:
        assert dist(drawn[each.words], middle(drawing)) == pytest.approx(dist(each.spot or (), (0.0, -30.0)) * scale)
    assert all((line.x2, line.y2) == pytest.approx(middle(drawing)) for line in of_kind(drawing, "throw")[:12])


def test_known_by_bearing_alone_all_stand_on_one_ring_and_it_says_so() -> None:
    drawing = bowl([*by_bearing(40.0, 130.0), place("measured", 20.0, -50.0)])
    rays = [dist(spot, middle(drawing)) for spot in slots(drawing).values()]
    assert rays == pytest.approx([rays[0]] * 3)
    assert "not to scale" in texts(drawing) and of_kind(drawing, "scale") == []
    assert bearing_on(drawing, "house measured") == pytest.approx(135.0)


def test_a_place_with_neither_bearing_nor_coordinates_is_listed_and_not_drawn() -> None:
    drawing = bowl([place("1", None, None), *by_bearing(90.0)])
    assert drawing.undrawn == (0,)
    assert list(tags(drawing)) == ["house 90"]


def test_an_end_stage_stands_upstage_of_the_target() -> None:
    drawing = bowl([each for each in oval(12) if (each.y_m or 0.0) < -5.0], END)
    (stage,) = of_kind(drawing, "stage")
    assert stage.bounds[3] == pytest.approx(middle(drawing)[1])
    assert stage.width == pytest.approx(18.0 * units_per_m(drawing))
    sign = bowl(by_bearing(100.0, 180.0, 260.0), StageMarks("bowl"))
    (about,) = of_kind(sign, "stage-about")
    assert about.bounds[3] == pytest.approx(middle(sign)[1])


def test_an_empty_bowl_is_drawn() -> None:
    drawing = bowl([])
    assert "stage-edge" in {shape.kind for shape in drawing.shapes}
    assert as_svg(drawing, title="Bowl", family="draft").startswith("<svg")


@settings(max_examples=25, deadline=None)
@given(st.lists(st.floats(0.0, 359.9), min_size=1, max_size=24), st.sampled_from(VIEWS))
def test_labels_never_collide_and_bearings_are_true(bearings: list[float], view: View) -> None:
    places = [place(f"{i}", None, None, f"{i}", bearing_deg=each, bearing="0°") for i, each in enumerate(bearings)]
    drawing = bowl(places, view=view)
    assert collisions(drawing) == []
    assert outside(drawing) == []
    turn = 180.0 if view == "stage" else 0.0
    for index, bearing in enumerate(bearings):
        apart = (bearing_on(drawing, f"house {index}") - bearing - turn) % 360.0
        assert min(apart, 360.0 - apart) == pytest.approx(0.0, abs=1e-6)
