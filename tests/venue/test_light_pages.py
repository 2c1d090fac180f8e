"""What each light can do, on pages: throws of the house, one place's light, what a position reaches."""

from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from tests.factories import ACTOR, NOON, Cast, make_place, make_position, make_unit, the_cast
from tests.venue.pages import as_user, words
from venue.actions import place_unit
from venue.models import Area, Blockage, ColorFilter, House, Place, Position, Setup, Unit

pytestmark = pytest.mark.django_db

FOOT = 0.3048
FACE_FT = 1.5 / FOOT
DATA = {"narrow_deg": 1.0, "wide_deg": 8.0, "narrow_cd": 6_400_000, "wide_cd": 100_000, "cct_k": 5600}


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


@pytest.fixture
def position(cast: Cast) -> Position:
    return make_position(cast.house, name="Rear booth")


def lens(plan_ft: float, rise_ft: float) -> dict[str, float]:
    """So far from the target and so much higher, on the center line [feet]."""
    return {"x_m": 0.0, "y_m": -plan_ft * FOOT, "z_m": (rise_ft + FACE_FT) * FOOT}


def stand(place: Place, **data: Any) -> Unit:
    unit = make_unit(place.position.house, **{**DATA, **data})
    place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)
    return unit


def throws(client: Client, house: House, **query: Any) -> str:
    return words(client.get(reverse("venue:throw_list", args=[house.slug]), query))


def light(client: Client, place: Place, query: Any = None) -> str:
    response = client.get(reverse("venue:place_light", args=[place.position.house.slug, place.ref]), query or {})
    assert response.status_code == 200
    return words(response)


def reach(client: Client, position: Position, **query: Any) -> str:
    response = client.get(reverse("venue:position_reach", args=[position.house.slug, position.ref]), query)
    assert response.status_code == 200
    return words(response)


# -- throws of the house


@pytest.mark.parametrize(
    ("plan_ft", "rise_ft", "shown"),
    [
        (100.0, 50.0, ("111' 10\"", "26.6° below the horizontal")),
        (142.0, 45.0, ("149'", "17.6° below the horizontal")),
        (100.0, 70.0, ("122' 1\"", "35.0° below the horizontal")),
    ],
)
def test_throw_and_angle_are_those_of_the_triangle(
    head: Client, position: Position, plan_ft: float, rise_ft: float, shown: tuple[str, str]
) -> None:
    """Worked by hand: sqrt(d^2 + h^2) is 111.8, 149.0 and 122.1 ft; atan(h / d) is 26.6, 17.6 and 35.0 degrees."""
    make_place(position, **lens(plan_ft, rise_ft))
    page = throws(head, position.house)
    throw, angle = shown
    assert f"throw {throw} (" in page
    assert angle in page


def test_a_throw_is_shown_with_its_end_point_in_feet_and_in_meters(head: Client, position: Position) -> None:
    """142 ft to center stage are 43.3 m (142 times 0.3048)."""
    told = {"throw_m": 43.2816, "throw_text": "142 ft", "throw_end": "center", "throw_end_y_m": 5.0}
    make_place(position, **told)
    page = throws(head, position.house)
    assert "142 ft (43.28 m) to center stage" in page
    assert "as the measures give it, to center stage no measures" in page


def test_a_throw_that_the_measures_contradict_asks_and_links_to_the_place(head: Client, position: Position) -> None:
    told = {"throw_m": 150 * FOOT, "throw_end": "plaster", "throw_end_y_m": 0.0}
    place = make_place(position, **lens(142.0, 0.0), **told)
    response = head.get(reverse("venue:throw_list", args=[position.house.slug]))
    page = words(response)
    assert "150' (45.72 m) to the plaster line" in page
    assert "142' 1\" (43.31 m)" in page
    assert "differ by 5.6 %; over 5 % we ask" in page
    assert reverse("venue:place_edit", args=[position.house.slug, place.ref]) in response.content.decode()


def test_the_cameras_limit_counts_when_it_is_asked_for(head: Client, position: Position) -> None:
    make_place(position, **lens(100.0, 70.0))
    assert "Nothing is odd" in throws(head, position.house)
    assert "Too steep for a camera: 35.0° below the horizontal, 26.6° is the most" in throws(
        head, position.house, camera="1"
    )


@pytest.mark.parametrize(("rise", "word"), [(120.0, "Steep: 50.2°"), (10.0, "Flat: 5.7°")])
def test_what_is_steep_or_flat_is_said(head: Client, position: Position, rise: float, word: str) -> None:
    make_place(position, **lens(100.0, rise))
    assert word in throws(head, position.house)


def test_a_place_without_a_lens_says_so_and_a_reader_gets_no_way_to_the_form(cast: Cast, position: Position) -> None:
    make_place(position, "7")
    assert "Write where the lens of place 7 is" in throws(as_user(cast.head), cast.house)
    page = throws(as_user(cast.reader), cast.house)
    assert "Where its lens is is not recorded" in page
    assert "Write where" not in page


def test_a_house_without_places_says_so(head: Client, cast: Cast) -> None:
    assert "no places yet" in throws(head, cast.house)


# -- one place


def test_beams_come_with_level_diameter_pool_person_and_light(head: Client, position: Position) -> None:
    """At 150 ft: 2 t tan(4 deg) is 20.98 ft; 100 kcd are 100,000 / 150^2 = 4.44 fc, times 10.764 47.8 lx."""
    place = make_place(position, **lens(120.0, 90.0))
    stand(place, angle_percent=50)
    page = light(head, place)
    assert "8° at 50 % of the peak" in page
    assert "across the beam 21' (6.39 m)" in page
    assert "4.44 fc (47.8 lx)" in page
    assert "from the feet to" in page
    assert "The angles compared are at 50 % of the peak." in page


def test_a_level_that_nobody_recorded_is_said(head: Client, position: Position) -> None:
    place = make_place(position, **lens(120.0, 90.0))
    stand(place)
    assert "8° at 50 % or 10 % of the peak, not recorded which" in light(head, place)


def test_a_beam_past_the_horizon_has_no_pool(head: Client, position: Position) -> None:
    place = make_place(position, **lens(120.0, 5.0))
    stand(place)
    assert "none: the beam passes the horizon" in light(head, place)


def test_sizes_out_of_reach_are_said_with_the_angle_in_the_way(head: Client, position: Position) -> None:
    """A head of 0.6 m at 45.72 m needs 0.75 degrees: 2 atan(0.3 / 45.72). At 15.24 m a body of 2.45 m needs 9.19."""
    far, near = make_place(position, "1", **lens(120.0, 90.0)), make_place(position, "2", **lens(40.0, 30.0))
    stand(far), stand(near)
    page = light(head, far)
    assert "Head Can't close to it: 1° at its narrowest" in page
    assert "needs 0.75°" in page
    page = light(head, near)
    assert "Full body Can't open to it: 8° at its widest" in page
    assert "needs 9.19°" in page


def test_light_at_a_size_is_one_figure_or_says_why_it_is_not(head: Client, position: Position) -> None:
    """With an iris the middle keeps the widest beam's light: 4.44 fc at 150 ft at each size."""
    first, second = make_place(position, "1", **lens(120.0, 90.0)), make_place(position, "2", **lens(120.0, 90.0))
    stand(first, sized_by="iris"), stand(second)
    page = light(head, first)
    assert page.count("light that arrives 4.44 fc (47.8 lx)") == 5
    assert "from one figure to another" not in page
    page = light(head, second)
    assert page.count("light that arrives 4.44 to 284 fc (47.8 to 3062 lx)") == 5
    assert "Nobody recorded whether a zoom or an iris makes the beam smaller." in page


def test_a_pane_that_nobody_measured_keeps_back_12_to_15_percent(head: Client, cast: Cast) -> None:
    """85 and 88 % of 47.78 lx."""
    position = make_position(cast.house, glass="fixed")
    place = make_place(position, **lens(120.0, 90.0))
    stand(place, sized_by="iris")
    page = light(head, place)
    assert "light that arrives 3.78 to 3.91 fc (40.7 to 42.1 lx)" in page
    assert "A closed pane keeps back 12 to 15 %" in page
    assert "The pane's loss was not measured." in page


def test_nearer_than_the_far_field_distance_light_is_a_rough_guide(head: Client, position: Position) -> None:
    place = make_place(position, **lens(120.0, 90.0))
    stand(place, far_field_m=50.0)
    assert "shorter than the far-field distance" in light(head, place)


def test_two_filters_take_their_share_and_turn_the_color(head: Client, cast: Cast, position: Position) -> None:
    """0.5 times 0.8 is 40 %; 10^6 / 5600 is 178.6 mired, plus 120 is 298.6, which are 3349 K."""
    place = make_place(position, **lens(120.0, 90.0))
    stand(place, sized_by="iris")
    warm = ColorFilter.objects.create(house=cast.house, code="C-1", transmission_pct=50.0, shift_mired=100.0)
    pale = ColorFilter.objects.create(house=cast.house, code="C-2", transmission_pct=80.0, shift_mired=20.0)
    page = light(head, place, {"filter": [str(warm.ref), str(pale.ref)], "target": "target"})
    assert "C-1 + C-2: 40 % of the light passes. That is rough" in page
    assert "light that arrives 1.78 fc (19.1 lx)" in page
    assert "5600 K from the unit, 3349 K behind the filters" in page
    page = light(head, place, {"filter": [str(warm.ref)] * 3})
    assert "Two filters of the house are counted at most" in page
    assert "25 % of the light passes" in page


def test_a_filter_of_unknown_transmission_leaves_no_figure(head: Client, cast: Cast, position: Position) -> None:
    place = make_place(position, **lens(120.0, 90.0))
    stand(place)
    unknown = ColorFilter.objects.create(house=cast.house, code="C-9")
    page = light(head, place, {"filter": str(unknown.ref)})
    assert "what C-9 lets through is not recorded" in page
    assert page.count("light that arrives not known") == 5


def test_figures_may_be_about_the_end_points_of_throws_at_the_height_of_a_face(
    head: Client, cast: Cast, position: Position
) -> None:
    """10 m of depth: center stage is 5 m upstage, so 36.576 + 5 = 41.576 m in plan, 27.432 m of rise: 49.81 m."""
    Setup.objects.filter(house=cast.house).update(depth_m=10.0, apron_m=2.0)
    place = make_place(
        position, **lens(120.0, 90.0), throw_m=40.0, throw_end="mark", throw_mark="the ring", throw_end_y_m=1.0
    )
    page = light(head, place, {"target": "center"})
    assert "To center stage, a performer's face throw 163' 5\" (49.81 m)" in page
    assert "The ring" in page
    assert "To the ring, a performer's face" in light(head, place, {"target": "mark"})
    assert "The set-up has no point of that name" in light(head, place, {"target": "moon"})


@pytest.mark.parametrize(
    "query", [{"filter": "x\x00"}, {"filter": "'; --"}, {"target": "\x00"}, {"camera": "9e999"}, {"place": "-1"}]
)
def test_odd_questions_never_break_a_page(head: Client, position: Position, query: dict[str, str]) -> None:
    place = make_place(position, **lens(120.0, 90.0))
    assert "Light of Rear booth" in light(head, place, query)
    assert "Throws" in throws(head, position.house, **query)
    assert "Rear booth" in reach(head, position, **query)


def test_an_unknown_set_up_and_an_ended_place_are_not_found(head: Client, position: Position) -> None:
    place = make_place(position)
    at = reverse("venue:place_light", args=[position.house.slug, place.ref])
    assert head.get(at, {"setup": "nonsense"}).status_code == 404
    Place.objects.filter(pk=place.pk).update(ended_at=NOON, ended_reason="walled up")
    assert head.get(at).status_code == 404


def test_a_place_without_anything_still_has_its_page(head: Client, position: Position) -> None:
    page = light(head, make_place(position))
    assert "No unit stands here now." in page
    assert "without it there is no throw" in page
    assert page.count("light that arrives not known") == 5


# -- what a position reaches


def a_stage(house: House) -> Setup:
    Setup.objects.filter(house=house).update(opening_m=12.0, depth_m=10.0)
    return house.setups.get()


def test_each_place_has_its_share_of_each_area(head: Client, cast: Cast) -> None:
    """Upstage of 7.5 m of 10 nothing is reached; a zone of half the width takes half of what is left for one place."""
    setup = a_stage(cast.house)
    position = make_position(cast.house, name="Rear booth", farthest_upstage_m=7.5)
    first, _second = make_place(position, "1", **lens(120.0, 90.0)), make_place(position, "2", **lens(120.0, 90.0))
    Area.objects.create(setup=setup, name="Pit", kind="pit", corners=[[-6, -4], [6, -4], [6, 0], [-6, 0]])
    zone = [[0, -9], [6, -9], [6, 10], [0, 10]]
    Blockage.objects.create(position=position, name="banner", corners=zone, place=first)
    Blockage.objects.create(position=position, name="speaker stack")
    page = reach(head, position)
    assert "Area Place 1 Place 2 Stage 38 % 75 % Pit 50 % 100 %" in page
    assert "banner a zone of the plan, taken off; in the way of place 1 alone" in page
    assert "speaker stack known only in words: not in the percentages" in page
    assert "Hatched is what place 1 reaches." in page


def test_without_a_limit_nothing_is_promised(head: Client, cast: Cast, position: Position) -> None:
    a_stage(cast.house)
    make_place(position, "1", **lens(120.0, 90.0)), make_place(position, "2")
    page = reach(head, position)
    assert "No limit is recorded: nothing is promised." in page
    assert "Stage no limit recorded lens not recorded" in page
    assert "Nothing is hatched" in page


def test_without_a_stage_there_is_nothing_to_hold_the_view_against(head: Client, position: Position) -> None:
    make_place(position, "1", **lens(120.0, 90.0))
    assert "records neither opening and depth" in reach(head, position)


# -- for all of them


def test_the_queries_of_each_page_do_not_grow_with_the_places(head: Client, cast: Cast) -> None:
    setup = a_stage(cast.house)
    Area.objects.create(setup=setup, name="Pit", kind="pit", corners=[[-6, -4], [6, -4], [6, 0]])
    positions = [make_position(cast.house, farthest_upstage_m=8.0) for _ in range(2)]
    for position, places in zip(positions, (2, 20), strict=True):
        for number in range(places):
            stand(make_place(position, str(number + 1), **lens(120.0, 90.0)))
    counts = [_count(head, reverse("venue:position_reach", args=[cast.house.slug, each.ref])) for each in positions]
    assert counts[0] == counts[1]
    pages = [each.places.get(label="1").ref for each in positions]
    counts = [_count(head, reverse("venue:place_light", args=[cast.house.slug, ref])) for ref in pages]
    assert counts[0] == counts[1]
    many = _count(head, reverse("venue:throw_list", args=[cast.house.slug]))
    Place.objects.filter(position=positions[1]).update(ended_at=NOON, ended_reason="gone")
    assert _count(head, reverse("venue:throw_list", args=[cast.house.slug])) == many


def _count(client: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)


def test_the_positions_and_the_units_pages_lead_here(head: Client, position: Position) -> None:
    place = make_place(position, **lens(120.0, 90.0))
    unit = stand(place)
    slug = position.house.slug
    at = reverse("venue:place_light", args=[slug, place.ref])
    page = head.get(reverse("venue:position_detail", args=[slug, position.ref])).content.decode()
    assert at in page
    assert reverse("venue:position_reach", args=[slug, position.ref]) in page
    assert at in head.get(reverse("venue:unit_detail", args=[slug, unit.ref])).content.decode()
