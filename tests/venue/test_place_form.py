"""A place is told in three ways, sides in words; what was typed is shown back."""

from typing import Any

import pytest
from django.http import HttpResponse

from tests.factories import ACTOR, Cast, make_place, make_position, the_cast
from tests.venue.pages import as_user, errors_of, send, words
from venue.actions import change
from venue.models import Place, Position

pytestmark = pytest.mark.django_db

MEASURED = {
    "way": "measured",
    "from_center": "14' 9\"",
    "side": "house left",
    "height": "45' 11\"",
    "from_plaster": "124' 8\"",
    "direction": "house",
}
BY_THROW = {
    "way": "throw",
    "from_center": "3 m",
    "side": "house right",
    "height": "2 m",
    "throw": "7 m",
    "throw_end": "plaster",
    "lens_stands": "house",
}


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def position(cast: Cast) -> Position:
    return make_position(cast.house, name="Rear booth")


def add(cast: Cast, position: Position, **changes: Any) -> HttpResponse:
    address = f"/houses/quillmark-hall/positions/{position.ref}/places/new/"
    return send(as_user(cast.head), address, **{"label": "1", **changes})


def edit(cast: Cast, place: Place, **changes: Any) -> HttpResponse:
    return send(as_user(cast.head), f"/houses/quillmark-hall/places/{place.ref}/edit/", **changes)


def page_of(cast: Cast, position: Position) -> str:
    return words(as_user(cast.reader).get(f"/houses/quillmark-hall/positions/{position.ref}/"))


def test_a_measured_place_keeps_what_was_typed(cast: Cast, position: Position) -> None:
    assert add(cast, position, **MEASURED).status_code == 302
    place = Place.objects.get()
    assert (place.x_m, place.y_m, place.z_m) == pytest.approx((-4.4958, -37.99840, 13.99540))
    assert (place.x_text, place.y_text, place.z_text) == ("14' 9\"", "124' 8\"", "45' 11\"")
    assert "14' 9\" house left of center, 124' 8\" toward the house, 45' 11\" above the deck" in page_of(cast, position)


def test_a_place_by_throw_height_and_distance_gets_its_coordinates(cast: Cast, position: Position) -> None:
    assert add(cast, position, **BY_THROW).status_code == 302
    place = Place.objects.get()
    assert (place.x_m, place.y_m, place.z_m) == (3.0, -6.0, 2.0)
    assert (place.throw_m, place.throw_text, place.throw_end, place.throw_end_y_m) == (7.0, "7 m", "plaster", 0.0)
    assert "throw 7 m to the plaster line" in page_of(cast, position)


@pytest.mark.parametrize(
    ("end", "more", "y"),
    [
        ("lip", {}, -7.5),
        ("center", {}, -1.0),
        ("curtain", {"end_from_plaster": "1 m", "end_direction": "upstage"}, -5.0),
        ("mark", {"throw_mark": "vocal mark", "end_from_plaster": "2 m", "end_direction": "house"}, -8.0),
        ("lip", {"end_from_plaster": "2 m", "end_direction": "house"}, -8.0),
    ],
)
def test_the_end_point_is_where_the_set_up_or_the_form_says(
    cast: Cast, position: Position, end: str, more: dict[str, str], y: float
) -> None:
    cast.house.setups.update(apron_m=1.5, depth_m=10.0)
    assert add(cast, position, **{**BY_THROW, "throw_end": end, **more}).status_code == 302
    assert Place.objects.get().y_m == y


def test_a_lens_upstage_of_its_end_point_is_placed_there(cast: Cast, position: Position) -> None:
    add(cast, position, **{**BY_THROW, "lens_stands": "upstage"})
    assert Place.objects.get().y_m == 6.0


def test_a_place_known_by_its_order_alone(cast: Cast, position: Position) -> None:
    assert add(cast, position, way="order", row_order="1").status_code == 302
    add(cast, position, label="2", way="order", row_order="2")
    assert list(Place.objects.order_by("row_order").values_list("label", "row_order", "x_m")) == [
        ("1", 1, None),
        ("2", 2, None),
    ]


def test_a_place_in_a_bowl_may_have_a_bearing_instead(cast: Cast) -> None:
    bowl = make_position(cast.house, name="Concourse", zone="bowl")
    assert add(cast, bowl, way="order", row_order=None, bearing_deg="37.5").status_code == 302
    assert Place.objects.get().bearing_deg == 37.5
    assert "37.5° clockwise from the stage end" in page_of(cast, bowl)


REFUSED: list[tuple[str, dict[str, Any], str]] = [
    ("no side", {**MEASURED, "side": ""}, "side"),
    ("no distance", {**MEASURED, "from_center": ""}, "from_center"),
    ("a signed distance", {**MEASURED, "from_center": "-14 ft"}, "from_center"),
    ("a distance at the center", {**MEASURED, "side": "center"}, "from_center"),
    ("no direction", {**MEASURED, "direction": ""}, "direction"),
    ("no distance from the plaster line", {**MEASURED, "from_plaster": "", "direction": ""}, "from_plaster"),
    ("no height", {**MEASURED, "height": ""}, "height"),
    ("no length", {**MEASURED, "height": "up there"}, "height"),
    ("as high as a tower", {**MEASURED, "height": "301 ft"}, "height"),
    ("too far", {**MEASURED, "from_plaster": "2000 m"}, "from_plaster"),
    ("no end point", {**BY_THROW, "throw_end": ""}, "throw_end"),
    ("no end point beside coordinates", {**MEASURED, "throw": "140 ft"}, "throw_end"),
    ("an end point without a throw", {**MEASURED, "throw_end": "lip"}, "throw"),
    ("no throw", {**BY_THROW, "throw": "", "throw_end": ""}, "throw"),
    ("an end point nobody placed", {**BY_THROW, "throw_end": "lip"}, "end_from_plaster"),
    (
        "a mark without words",
        {**BY_THROW, "throw_end": "mark", "end_from_plaster": "1 m", "end_direction": "house"},
        "throw_mark",
    ),
    ("a plaster line elsewhere", {**BY_THROW, "end_from_plaster": "1 m", "end_direction": "house"}, "end_from_plaster"),
    ("higher than the throw", {**BY_THROW, "height": "8 m"}, "height"),
    ("beyond the throw", {**BY_THROW, "from_center": "6.9 m"}, "from_center"),
    ("a throw too short to be one", {**MEASURED, "throw": "1 m", "throw_end": "mark", "throw_mark": "x"}, "throw"),
    ("no order", {"way": "order", "row_order": ""}, "row_order"),
    ("an order of nothing", {"way": "order", "row_order": "0"}, "row_order"),
    ("no way chosen", {"way": ""}, "way"),
    ("no label", {**MEASURED, "label": ""}, "label"),
]


@pytest.mark.parametrize(
    ("changes", "field"), [(case[1], case[2]) for case in REFUSED], ids=[case[0] for case in REFUSED]
)
def test_what_does_not_say_where_is_refused_at_its_field_and_kept(
    cast: Cast, position: Position, changes: dict[str, Any], field: str
) -> None:
    answer = add(cast, position, **changes)
    assert list(errors_of(answer)) == [field]
    assert not Place.objects.exists()
    form = answer.context["form"]  # type: ignore[attr-defined]
    assert all(form[name].value() == value for name, value in changes.items())


def test_a_label_or_an_order_twice_is_refused_by_name(cast: Cast, position: Position) -> None:
    make_place(position, label="3", row_order=1)
    assert (
        "a place of this label already"
        in errors_of(add(cast, position, label="#03", way="order", row_order="2"))["__all__"][0]
    )
    assert errors_of(add(cast, position, way="order", row_order="1"))["row_order"] == [
        "Place 3 is number 1 already. Choose another number, or say below that this one goes before it."
    ]


def test_a_throw_far_from_the_measures_is_asked_and_kept_when_confirmed(cast: Cast, position: Position) -> None:
    changes = {**MEASURED, "throw": "150 ft", "throw_end": "plaster"}  # the measures give 133' 8"
    asked = add(cast, position, **changes)
    assert errors_of(asked)["throw"] == [
        "The throw is written as 150 ft, but the measures give 133' 8\": over 5 % apart. Correct one of them, or say "
        "below that both are right."
    ]
    assert "Both are right: keep the throw as written" in words(asked)
    assert not Place.objects.exists()
    assert add(cast, position, **changes, keep_throw="on").status_code == 302
    assert "throw 150 ft to the plaster line, measures give 133' 8\"" in page_of(cast, position)


def test_a_throw_near_the_measures_is_not_asked(cast: Cast, position: Position) -> None:
    assert add(cast, position, **MEASURED, throw="134 ft", throw_end="plaster").status_code == 302
    assert "Both are right" not in words(
        as_user(cast.head).get(f"/houses/quillmark-hall/positions/{position.ref}/places/new/")
    )


@pytest.mark.parametrize(
    "changes", [MEASURED, BY_THROW, {"way": "order", "row_order": "1"}], ids=["measured", "throw", "order"]
)
def test_a_form_opened_and_sent_again_changes_nothing(cast: Cast, position: Position, changes: dict[str, str]) -> None:
    add(cast, position, **changes)
    before = Place.objects.values().get()
    assert edit(cast, Place.objects.get()).status_code == 302
    assert Place.objects.values().get() == before


def test_coordinates_without_a_text_survive_the_form_to_the_last_bit(cast: Cast, position: Position) -> None:
    make_place(position, x_m=-4.1 / 3, y_m=-38.0, z_m=-0.1)
    before = Place.objects.values().get()
    assert edit(cast, Place.objects.get()).status_code == 302
    assert Place.objects.values().get() == before


def test_another_way_replaces_what_was_there_and_the_history_keeps_it(cast: Cast, position: Position) -> None:
    add(cast, position, **MEASURED)
    assert edit(cast, Place.objects.get(), way="order", row_order="4").status_code == 302
    place = Place.objects.get()
    assert (place.x_m, place.x_text, place.row_order) == (None, "", 4)
    changed = cast.house.history.filter(verb="place.changed").get().data["changed"]
    assert changed["x_text"] == ["14' 9\"", ""]


def test_a_stale_place_is_refused_and_shows_both(cast: Cast, position: Position) -> None:
    place = make_place(position, label="1", row_order=1)
    change(actor=ACTOR, row=place, house=cast.house, seen=1, values={"label": "7"})
    answer = edit(cast, Place.objects.get(), version="1", label="8")
    assert "label 7 8" in words(answer)
    assert Place.objects.get().label == "7"


def test_two_versions_are_shown_with_sides_in_words(cast: Cast, position: Position) -> None:
    place = make_place(position, label="1", x_m=-4.5, y_m=-38.0, z_m=14.0)
    change(actor=ACTOR, row=place, house=cast.house, seen=1, values={"x_m": 4.5})
    page = words(edit(cast, Place.objects.get(), version="1", side="house left"))
    assert "x 14' 9\" house right of center 14' 9\" house left of center" in page


def test_a_unit_may_be_run_from_another_place_of_the_house(cast: Cast, position: Position) -> None:
    truss = make_place(make_position(cast.house, name="Truss"), label="A")
    booth, foreign = make_place(position, label="1", row_order=1), make_place(label="9")
    assert list(errors_of(edit(cast, truss, way="order", row_order="1", operated_from=foreign.pk))) == ["operated_from"]
    assert edit(cast, truss, way="order", row_order="1", operated_from=booth.pk).status_code == 302
    truss.refresh_from_db()
    assert truss.operated_from == booth
