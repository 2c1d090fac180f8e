"""The house drawn, on pages: its plan from both sides, its section, one place's true section, the words on them."""

import re
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from crew.sheets.drawn import LOOKS
from tests.factories import ACTOR, NOON, Cast, make_place, make_position, make_unit, the_cast
from tests.venue.drawn_houses import PLAN_WORDS, PROSCENIUM, classes, collisions, of_kind, outside, place, tags, texts
from tests.venue.pages import as_user, words
from tests.venue.test_bowl_plan import oval
from tests.venue.test_house_plan import CSS
from venue.actions import place_unit
from venue.core.drawing.bowl_plan import bowl_plan
from venue.core.drawing.cut import Cut
from venue.core.drawing.house_plan import house_plan
from venue.core.drawing.overlaps import overlap
from venue.core.drawing.records import BeamPool, PlanArea, StageMarks
from venue.core.drawing.svg import as_svg
from venue.core.throws import Point
from venue.house_drawings import plan_drawing, throw_drawing
from venue.models import Area, Blockage, House, Place, Position, Setup
from venue.throw_book import lights_of
from venue.wording_drawings import clock_text, section_words

FOOT = 0.3048
FACE_M = 1.5
ZOOM = {"narrow_deg": 2.0, "wide_deg": 8.0, "angle_percent": 50}
FLOOR = PlanArea("ice", ((-9, -45), (9, -45), (9, -15), (-9, -15)), (((-9, -45), (9, -45), (9, -30), (-9, -30)),))

database = pytest.mark.django_db


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def house(cast: Cast) -> House:
    return cast.house


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


@pytest.fixture
def position(house: House) -> Position:
    return make_position(house, name="Rear booth")


def at(x_m: float, y_m: float, z_m: float) -> dict[str, float]:
    return {"x_m": x_m, "y_m": y_m, "z_m": z_m}


def in_feet(plan: float, rise: float) -> dict[str, float]:
    """So far from the target and so much higher, on the center line."""
    return at(0.0, -plan * FOOT, rise * FOOT + FACE_M)


def stand(place: Place, **data: Any) -> None:
    place_unit(actor=ACTOR, unit=make_unit(place.position.house, **data), place=place, starts_at=NOON)


def set_up(house: House, **facts: Any) -> Setup:
    Setup.objects.filter(house=house).update(**facts)
    return house.setups.select_related("house").get()


def page(client: Client, name: str, house: House, **query: Any) -> Any:
    response = client.get(reverse(f"venue:{name}", args=[house.slug]), query)
    assert response.status_code == 200
    return response


def drawn(response: Any) -> str:
    """The page's drawing."""
    (svg,) = re.findall(r'<svg class="draft".*?</svg>', response.content.decode(), flags=re.DOTALL)
    return svg


def first_slot_x(svg: str) -> float:
    return float(re.findall(r'<rect class="draft-slot" x="([-\d.]+)"', svg)[0]) + 4.0


# -- the plan


@database
def test_the_plan_names_both_sides_the_landmarks_and_its_scale_in_the_units_of_the_house(
    head: Client, position: Position
) -> None:
    house = position.house
    set_up(house, house_left_landmark="river side", house_right_landmark="street side", opening_m=12.192)
    make_place(position, **in_feet(142.0, 45.0))
    shown = words(page(head, "house_plan", house))
    for said in ("HOUSE LEFT ·", "stage right", "river side", "HOUSE RIGHT ·", "street side", "opening 40'"):
        assert said in shown
    assert re.search(r"\d+ ft ", shown)
    House.objects.filter(pk=house.pk).update(unit_system="metric")
    metric = words(page(head, "house_plan", house))
    assert "opening 12.19 m" in metric
    assert re.search(r"\d+ m ", metric)


@database
def test_seen_from_the_stage_a_place_at_house_right_is_drawn_at_the_other_side_and_the_turn_is_said(
    head: Client, position: Position
) -> None:
    make_place(position, **at(5.0, -30.0, 12.0))
    house, stage = (page(head, "house_plan", position.house, view=view) for view in ("house", "stage"))
    assert first_slot_x(drawn(house)) > 180.0
    assert first_slot_x(drawn(house)) + first_slot_x(drawn(stage)) == pytest.approx(360.0, abs=0.2)
    assert "turned by 180°, not mirrored" in words(stage)
    assert "YOU, on stage, facing the house" in words(stage)
    assert "turned by 180°" not in words(house)


@database
def test_beneath_it_are_the_throw_as_told_with_its_end_point_and_the_angle_to_the_target(
    head: Client, position: Position
) -> None:
    """Worked by hand: 142 and 45 ft give sqrt(142^2 + 45^2) = 149.0 ft and atan(45 / 142) = 17.6 degrees."""
    told = {"throw_m": 150 * FOOT, "throw_text": "150 ft", "throw_end": "lip", "throw_end_y_m": -1.0}
    make_place(position, "4", **in_feet(142.0, 45.0), **told)
    response = page(head, "house_plan", position.house)
    row = "Rear booth, place 4 149' (45.40 m) 17.6° below horizontal 150 ft (45.72 m) to the lip of the stage"
    assert row in words(response)
    assert ">150 ft</text>" in drawn(response)


@database
def test_a_throw_told_to_a_point_that_nobody_recorded_is_drawn_to_the_target_with_its_own_length(
    head: Client, position: Position
) -> None:
    make_place(position, **in_feet(142.0, 45.0), throw_m=200 * FOOT, throw_end="mark", throw_mark="the rug")
    response = page(head, "house_plan", position.house)
    assert ">149&#x27;</text>" in drawn(response)
    assert "200' (60.96 m) to the rug" in words(response)


@database
def test_a_pool_straight_below_is_a_circle_of_twice_the_height_times_the_tangent_of_half_the_angle(
    head: Client, position: Position
) -> None:
    """Worked by hand: 2 * 10 m * tan(4 degrees) = 1.399 m = 4' 7"; tan(1 degree) gives 0.349 m = 1' 2"."""
    place = make_place(position, **at(0.0, 0.0, 10.0))
    stand(place, **ZOOM)
    wide = page(head, "house_plan", position.house, pools="wide")
    assert "4' 7\" by 4' 7\" (8° at 50 % of the peak)" in words(wide)
    radii = re.findall(r'<ellipse class="draft-pool"[^>]* rx="([\d.]+)" ry="([\d.]+)"', drawn(wide))
    assert radii[0][0] == radii[0][1]
    assert "1' 2\" by 1' 2\" (2° at 50 % of the peak)" in words(
        page(head, "house_plan", position.house, pools="narrow")
    )
    assert "draft-pool" not in drawn(page(head, "house_plan", position.house))


@database
def test_a_pool_that_runs_far_past_everything_is_told_but_not_drawn(head: Client, position: Position) -> None:
    """Worked by hand: 3.5 m higher and 40 m off the axis is 5.0 degrees below the horizontal; the far edge of an 8
    degree beam, 1.0 degree below it, meets the deck 5 m / tan(1.0 degree) = 286 m away."""
    stand(make_place(position, **at(0.0, -40.0, 5.0)), **ZOOM)
    response = page(head, "house_plan", position.house, pools="wide")
    assert "(8° at 50 % of the peak); runs too far to be drawn" in words(response)
    assert "draft-pool" not in drawn(response)


@database
def test_an_angle_whose_level_nobody_recorded_says_so(head: Client, position: Position) -> None:
    stand(make_place(position, **in_feet(142.0, 45.0)), narrow_deg=2.0, wide_deg=8.0)
    shown = words(page(head, "house_plan", position.house, pools="wide"))
    assert "8° at 50 % or 10 % of the peak, not recorded which" in shown
    place = position.places.get()
    assert "edge of the beam: 8° (50 or 10 %?)" in words(page(head, "house_section", position.house, place=place.ref))


@database
def test_areas_are_drawn_where_they_are_asked_for_and_hatched_as_far_as_a_position_reaches(
    head: Client, position: Position
) -> None:
    house = position.house
    setup = set_up(house, opening_m=12.0, depth_m=10.0, apron_m=2.0)
    Area.objects.create(setup=setup, name="Pit", kind="pit", corners=[[-6, -4], [6, -4], [6, 0], [-6, 0]])
    make_place(position, **at(0.0, -30.0, 12.0))
    assert "draft-area" not in drawn(page(head, "house_plan", house))
    plain = drawn(page(head, "house_plan", house, areas="1"))
    assert ">Pit</text>" in plain
    assert 'class="draft-reached"' not in plain
    nothing = page(head, "house_plan", house, position=position.ref)
    assert "No limit of the view is recorded for Rear booth: nothing is promised." in words(nothing)
    Blockage.objects.create(position=position, name="banner", corners=[[0, -9], [6, -9], [6, 10], [0, 10]])
    hatched = page(head, "house_plan", house, position=position.ref)
    assert 'class="draft-reached"' in drawn(hatched)
    assert "Hatched is what at least one place of Rear booth reaches" in words(hatched)


@database
def test_what_cannot_be_reached_for_want_of_a_lens_or_of_an_area_is_said(head: Client, position: Position) -> None:
    make_place(position)
    shown = words(page(head, "house_plan", position.house, position=position.ref))
    assert "The set-up records no stage with its opening and depth and no area" in shown
    set_up(position.house, opening_m=12.0, depth_m=10.0)
    assert "No lens of Rear booth is recorded" in words(page(head, "house_plan", position.house, position=position.ref))


@database
@pytest.mark.parametrize("name", ["house_plan", "house_section"])
def test_a_place_without_coordinates_is_listed_with_a_link_for_who_may_write(
    cast: Cast, position: Position, name: str
) -> None:
    make_place(position, "1", **in_feet(142.0, 45.0))
    missing = make_place(position, "2")
    form = reverse("venue:place_edit", args=[cast.house.slug, missing.ref])
    for user, is_linked in ((cast.head, True), (cast.reader, False)):
        response = page(as_user(user), name, cast.house)
        assert "Not drawn, because where the lens is is not recorded: Rear booth, place 2" in words(response)
        assert (form in response.content.decode()) is is_linked
        assert drawn(response).count('<g class="draft-light">') == 1


@database
@pytest.mark.parametrize("name", ["house_plan", "house_section"])
def test_a_house_without_places_shows_its_stage(head: Client, house: House, name: str) -> None:
    response = page(head, name, house)
    assert "no places yet" in words(response)
    assert "draft-target" in drawn(response)


# -- a bowl


@database
def test_a_bowl_shows_bearings_with_the_clock_of_its_set_up(head: Client, position: Position) -> None:
    """At x = 10 and y = 0 about a target at 0, 0 a place lies at 90 degrees; with 12 at 45 that is half past 1."""
    set_up(position.house, layout="bowl", twelve_deg=45.0)
    make_place(position, **at(10.0, 0.0, 12.0))
    response = page(head, "house_plan", position.house)
    assert ">90° · 1:30</text>" in drawn(response)
    assert "90.0° 1:30" in words(response)
    assert "draft-scale" in drawn(response)


@database
def test_a_bowl_known_by_bearings_alone_is_not_to_scale_and_names_the_places(head: Client, position: Position) -> None:
    set_up(position.house, layout="bowl")
    make_place(position, "1", **at(10.0, 0.0, 12.0))
    make_place(position, "2", bearing_deg=180.0)
    response = page(head, "house_plan", position.house, pools="wide")
    assert "not to scale: places by bearing alone" in drawn(response)
    assert "Not to scale: these places are known by their bearing alone. Pools and areas need a scale" in words(
        response
    )
    assert "so none are drawn. Rear booth, place 2" in words(response)
    assert ">180° · 6</text>" in drawn(response)


def test_a_bowl_to_scale_has_areas_and_pools_and_nothing_covers_anything() -> None:
    stage, pools = StageMarks("bowl", 18.0, 12.0), [BeamPool(0.0, -30.0, 6.0, 3.0, 90.0)]
    for view in ("house", "stage"):
        drawing = bowl_plan(oval(24), stage, PLAN_WORDS, view, pools=pools, areas=[FLOOR])  # type: ignore[arg-type]
        assert (collisions(drawing), outside(drawing)) == ([], [])
        (dial,) = [ring for ring in of_kind(drawing, "dial") if ring.along > 20.0]
        (pool, *_sample) = of_kind(drawing, "pool")
        assert (pool.x, pool.y) == (
            dial.x,
            pytest.approx(dial.y + (1 if view == "house" else -1) * scale(drawing) * 30),
        )
        assert {"ice", "reached", "beam pool"} <= set(texts(drawing))


def scale(drawing: Any) -> float:
    """Drawing units to the meter, by the bar."""
    (bar,), (word,) = of_kind(drawing, "scale"), of_kind(drawing, "scale-word")
    return (bar.x2 - bar.x1) / float(word.text.split()[0])


def test_no_tag_covers_the_target_of_a_wide_plan() -> None:
    """A truss just upstage of the target, drawn for paper."""
    truss = [place(f"T{x}", x, 9.0, position="Rear truss", zone="rear") for x in (-3, 3)]
    drawing = house_plan([place("1", 0.0, -40.0), *truss], PROSCENIUM, PLAN_WORDS, width=540.0)
    ring = of_kind(drawing, "target-ring")[0]
    assert not [words for words, box in tags(drawing).items() if overlap(box, ring.bounds)]


def test_a_bowl_by_bearings_alone_leaves_areas_and_pools_out() -> None:
    places = [place("1", None, None, bearing_deg=90.0, zone="bowl")]
    drawing = bowl_plan(places, PROSCENIUM, PLAN_WORDS, pools=[BeamPool(0, 0, 6, 3, 0)], areas=[FLOOR])
    assert not of_kind(drawing, "pool")
    assert not of_kind(drawing, "area")


@pytest.mark.parametrize(
    ("bearing", "twelve", "hour"),
    [
        (0, 0, "12"),
        (30, 0, "1"),
        (44.9, 0, "1:30"),
        (352.4, 0, "11:30"),
        (352.6, 0, "12"),
        (10, 100, "9"),
        (180, 180, "12"),
    ],
)
def test_the_clock_tells_half_hours_of_fifteen_degrees_from_its_twelve(
    bearing: float, twelve: float, hour: str
) -> None:
    assert clock_text(bearing, twelve) == hour


# -- the section


@database
def test_the_section_shows_the_height_of_every_lens_and_leads_to_each_place(head: Client, position: Position) -> None:
    make_place(position, "1", **at(0.0, -30.0, 12.192)), make_place(position, "2", **at(2.0, -30.0, -1.524))
    response = page(head, "house_section", position.house)
    assert {">40&#x27;</text>", ">5&#x27; below</text>"} <= set(re.findall(r">[^<]+</text>", drawn(response)))
    assert f"place={position.places.get(label='1').ref}" in response.content.decode()
    assert "Choose a place below for its true section." in words(response)


@database
def test_one_places_section_has_its_true_throw_and_angle_and_the_ends_of_its_pool(
    head: Client, position: Position
) -> None:
    """Worked by hand: the lens is 49.92 ft up, the axis 17.59 degrees below the horizontal; at 21.59 and 13.59 degrees
    below it the edges of an 8 degree beam meet the deck 126.1 and 206.5 ft away."""
    place = make_place(position, "1", **in_feet(142.0, 45.0))
    stand(place, **ZOOM)
    response = page(head, "house_section", position.house, place=place.ref)
    shown = words(response)
    assert "Section along the throw of Rear booth, place 1" in shown
    for said in ("149'</text>", "17.6° below horizontal", "edge of the beam: 8° (50 %)", "49' 11&quot; above the deck"):
        assert said.replace("'", "&#x27;") in drawn(response)
    assert re.search(r"pool from 126' \d", shown)
    assert re.search(r"to 206' \d", shown)
    narrow = drawn(page(head, "house_section", position.house, place=place.ref, pools="narrow"))
    assert "edge of the beam: 2° (50 %)" in narrow


@database
def test_a_place_without_a_lens_or_a_unit_says_what_is_missing(head: Client, position: Position) -> None:
    bare, empty = make_place(position, "1"), make_place(position, "2", **in_feet(142.0, 45.0))
    shown = words(page(head, "house_section", position.house, place=bare.ref))
    assert "Where this lens is is not recorded, so it has no section of its own." in shown
    shown = words(page(head, "house_section", position.house, place=empty.ref))
    assert "No beam is drawn: no unit stands here now, or its angles are not recorded." in shown


@database
def test_a_section_across_the_stage_names_the_sides_of_the_house_and_one_along_it_its_ends(house: House) -> None:
    setup = set_up(house, stage_end_landmark="dock")

    def ends(lens: tuple[float, float]) -> tuple[tuple[str, ...], tuple[str, ...]]:
        sides = section_words(setup, "", Cut.along_throw(Point(*lens, 9.0), Point(0.0, 0.0, 1.5))).sides
        return sides.left, sides.right

    assert ends((0.0, -30.0)) == (("HOUSE",), ("STAGE", "dock"))
    left, right = ("HOUSE LEFT ·", "stage right"), ("HOUSE RIGHT ·", "stage left")
    assert ends((-20.0, 0.0)) == (left, right)
    assert ends((-20.0, -20.0)) == (("HOUSE", *left), ("STAGE", *right))
    assert ends((20.0, -20.0)) == (("HOUSE", *right), ("STAGE", *left))
    assert ends((20.0, 20.0)) == (("HOUSE", *left), ("STAGE", *right))


@database
def test_a_throw_without_a_lens_cannot_be_drawn(position: Position) -> None:
    make_place(position)
    setup = set_up(position.house)
    (light,) = lights_of(setup, timezone.now())
    with pytest.raises(ValueError, match="needs the lens"):
        throw_drawing(light, setup)


# -- for both of them


@database
def test_odd_addresses_meet_a_page_or_not_found(head: Client, position: Position) -> None:
    make_place(position, **in_feet(142.0, 45.0))
    for name in ("house_plan", "house_section"):
        address = reverse(f"venue:{name}", args=[position.house.slug])
        for value in ("-1", "9" * 400, "a\x00b", "\u202e<b>"):
            assert head.get(address, dict.fromkeys(("view", "pools", "areas"), value)).status_code == 200
            asked = ("setup", "position") if name == "house_plan" else ("setup", "place")
            assert {head.get(address, {key: value}).status_code for key in asked} == {404}


@database
def test_a_place_or_a_position_of_another_house_is_not_found(head: Client, position: Position) -> None:
    other = make_place(make_position())
    own = (
        reverse("venue:house_section", args=[position.house.slug]),
        reverse("venue:house_plan", args=[position.house.slug]),
    )
    assert head.get(own[0], {"place": other.ref}).status_code == 404
    assert head.get(own[1], {"position": other.position.ref}).status_code == 404


@database
def test_the_queries_do_not_grow_with_the_places(head: Client, house: House) -> None:
    setup = set_up(house, opening_m=12.0, depth_m=10.0)
    Area.objects.create(setup=setup, name="Pit", kind="pit", corners=[[-6, -4], [6, -4], [6, 0]])
    first = make_position(house, farthest_upstage_m=8.0)

    def fill(position: Position, places: int) -> None:
        for number in range(places):
            stand(make_place(position, str(number + 1), **at(number - 9.0, -30.0, 12.0)), **ZOOM)

    fill(first, 2)
    asked = {"pools": "wide", "position": first.ref, "areas": "1"}
    few = [_count(head, "house_plan", house, asked), _count(head, "house_section", house, {})]
    fill(make_position(house), 18)
    assert [_count(head, "house_plan", house, asked), _count(head, "house_section", house, {})] == few


def _count(client: Client, name: str, house: House, query: dict[str, Any]) -> int:
    with CaptureQueriesContext(connection) as queries:
        page(client, name, house, **query)
    return len(queries)


def test_whatever_is_drawn_has_its_look_on_the_page_and_on_paper() -> None:
    drawing = bowl_plan(oval(3), StageMarks("bowl"), PLAN_WORDS, pools=[BeamPool(0, -30, 6, 3, 0)], areas=[FLOOR])
    found = classes(as_svg(drawing, title="Bowl", family="draft")) - {"draft", "draft-light"}
    assert {name for name in found if f".{name}" not in CSS.read_text()} <= TEXT_ALONE
    assert {name.removeprefix("draft-") for name in found if not name.startswith("draft-")} == set()
    assert {shape.kind for shape in drawing.flat() if not hasattr(shape, "text")} <= set(LOOKS)


TEXT_ALONE = {f"draft-{kind}" for kind in ("label", "legend", "key-word", "scale-word")}
"""Writing that looks as all writing of a drawing does."""


@database
def test_the_pages_bring_the_drawings_style_sheet_and_the_house_leads_to_them(head: Client, position: Position) -> None:
    for name in ("house_plan", "house_section"):
        assert "css/drawing.css" in page(head, name, position.house).content.decode()
    make_unit(position.house)
    start = page(head, "unit_list", position.house).content.decode()
    assert reverse("venue:house_plan", args=[position.house.slug]) in start


@database
def test_twenty_four_places_in_three_meters_cover_neither_one_another_nor_the_words(house: House) -> None:
    position = make_position(house, name="Follow-spot bridge, upper level")
    for number in range(24):
        told = {"throw_m": 43.28, "throw_text": "142 ft", "throw_end": "plaster", "throw_end_y_m": 0.0}
        make_place(position, f"B{number + 1}", **at(-1.5 + number / 8, -40.0, 14.0), **told)
    for layout in ("proscenium", "bowl"):
        setup = set_up(house, layout=layout)
        drawing = plan_drawing(setup, lights_of(setup, timezone.now()), "stage")
        assert (collisions(drawing), outside(drawing)) == ([], [])
