"""The house on file, its positions and units, as a person reads and changes them."""

from datetime import UTC, datetime

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, NOON, Cast, hours, make_a_house, make_place, make_position, make_unit, the_cast
from tests.venue.pages import addresses, as_user, errors_of, fill, furnished, send, words
from venue.actions import change, place_unit
from venue.models import Event, House, Placement, Position, SetupZone, Unit
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast() -> Cast:
    return the_cast()


def test_an_empty_house_says_what_to_do_first(cast: Cast) -> None:
    page = words(as_user(cast.head).get("/houses/quillmark-hall/"))
    assert "Begin with one position" in page
    assert "The house head puts the first position on file" in words(
        as_user(cast.reader).get("/houses/quillmark-hall/")
    )


def test_the_house_lists_its_places_in_order_with_sides_in_words(cast: Cast) -> None:
    house = furnished(cast)
    with time_machine.travel(NOON + hours(1), tick=False):
        page = words(as_user(cast.reader).get("/houses/quillmark-hall/"))
    assert page.index("house left · stage right") < page.index("Place 1 FS-01") < page.index("Place 3 FS-03")
    assert "3' 3\" house right of center, 124' 8\" toward the house, 45' 11\" above the deck" in page
    assert "Walked by Hollis Varga on Mar 2, 2026: the order fits." in page
    assert "Not recorded yet: how to get there" in page and "rescue plan" in page
    make_place(make_position(house, name="Rail"), label="R1", row_order=1)
    assert "1 position has no walk that fits the book yet" in words(as_user(cast.reader).get("/houses/quillmark-hall/"))


@pytest.mark.parametrize(
    "name", ["house_detail", "position_detail", "unit_list", "walk", "place_edit", "placement_move"]
)
def test_a_page_asks_the_database_as_often_for_two_places_as_for_sixty(cast: Cast, name: str) -> None:
    house = furnished(cast, places=2)
    address, client = addresses(house)[name], as_user(cast.head)
    few = queries_of(client, address)
    fill(house.positions.get(), range(3, 61))
    make_place(make_position(house, name="Rail"), label="R1")
    assert few == queries_of(client, address) < 20


def queries_of(client: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)


def test_a_row_is_added_in_one_step(cast: Cast) -> None:
    client = as_user(cast.head)
    answer = send(client, "/houses/quillmark-hall/rows/new/", name="Rear booth", how_many="4", labels="4, 3, 2, 1")
    position = Position.objects.get()
    assert answer["Location"] == f"/houses/quillmark-hall/positions/{position.ref}/"
    assert list(position.places.order_by("row_order").values_list("label", flat=True)) == ["4", "3", "2", "1"]


@pytest.mark.parametrize(
    ("labels", "found"), [("", ["1", "2", "3"]), ("A B C", ["A", "B", "C"]), ("Far left; Mid; Far right", None)]
)
def test_labels_may_stay_empty_or_be_apart_by_spaces_or_marks(cast: Cast, labels: str, found: list[str] | None) -> None:
    send(as_user(cast.head), "/houses/quillmark-hall/rows/new/", name="Rail", how_many="3", labels=labels)
    stored = list(Position.objects.get().places.order_by("row_order").values_list("label", flat=True))
    assert stored == (found or ["Far left", "Mid", "Far right"])


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"labels": "1 2"}, "labels"),
        ({"labels": "1 01 2"}, "labels"),
        ({"how_many": "0"}, "how_many"),
        ({"how_many": "many"}, "how_many"),
        ({"name": ""}, "name"),
        ({"zone": "cellar"}, "zone"),
    ],
)
def test_a_row_that_can_not_be_is_refused_at_its_field_and_kept(
    cast: Cast, changes: dict[str, str], field: str
) -> None:
    values = {"name": "Rail", "how_many": "3", "labels": "", **changes}
    answer = send(as_user(cast.head), "/houses/quillmark-hall/rows/new/", **values)
    assert list(errors_of(answer)) == [field]
    assert not Position.objects.exists()
    assert answer.context["form"]["labels"].value() == values["labels"]  # type: ignore[attr-defined]


def test_the_facts_of_a_position_are_kept_and_shown_as_typed(cast: Cast) -> None:
    house = furnished(cast)
    facts = {
        "access": "catwalk, then ladder",
        "access_min": "6",
        "passage": "2' 3 1/2\"",
        "power": "208 V single phase",
        "power_switched_at": "panel LP-3, dimmer room",
        "fall_protection": "harness",
        "glass": "sliding",
        "show_exit": "no",
        "show_exit_words": "after the first act only",
        "who_may_operate": "house",
        "checked_on": "2026-02-28",
        "checked_by": "Hollis Varga",
    }
    pages = addresses(house)
    assert send(as_user(cast.head), pages["position_edit"], **facts).status_code == 302
    position = house.positions.get()
    assert (position.passage_m, position.passage_text) == (pytest.approx(0.69850), "2' 3 1/2\"")
    page = words(as_user(cast.reader).get(pages["position_detail"]))
    for sentence in (
        "6 minutes",
        "2' 3 1/2\"",
        "where the power is switched off panel LP-3, dimmer room",
        "full-body harness",
        "no, after the first act only",
        "rescue plan not recorded",
        "Checked on Feb. 28, 2026 by Hollis Varga.",
        "Local codes, the maker's manual and a qualified person come first",
    ):
        assert sentence in page
    assert position.version == 2


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"passage": "wide"}, "passage"),
        ({"passage": "-1 m"}, "passage"),
        ({"passage": "90 m"}, "passage"),
        ({"name": ""}, "name"),
        ({"access_min": "-5"}, "access_min"),
        ({"checked_on": "2026-02-30"}, "checked_on"),
        ({"checked_by": "Hollis"}, "__all__"),
        ({"version": ""}, "version"),
        ({"glass": "stained"}, "glass"),
        ({"access": "x" * 301}, "access"),
    ],
)
def test_bad_facts_are_refused_at_their_field(cast: Cast, changes: dict[str, str], field: str) -> None:
    answer = send(as_user(cast.head), addresses(furnished(cast))["position_edit"], **changes)
    assert list(errors_of(answer)) == [field]
    assert Position.objects.get().version == 1


def test_a_stale_form_is_refused_shows_both_and_can_be_sent_again(cast: Cast) -> None:
    house = furnished(cast)
    address, client = addresses(house)["position_edit"], as_user(cast.head)
    position = house.positions.get()
    change(actor=ACTOR, row=position, house=house, seen=1, values={"intercom": "channel A"})
    answer = send(client, address, version="1", intercom="channel B")
    page = words(answer)
    assert "Somebody else changed this" in page and "intercom channel A channel B" in page
    form = answer.context["form"]  # type: ignore[attr-defined]
    assert (form["version"].value(), form["intercom"].value()) == ("2", "channel B")
    assert house.positions.get().intercom == "channel A"
    assert send(client, address, version="2", intercom="channel B").status_code == 302
    assert house.positions.get().intercom == "channel B"


def test_a_position_ends_when_nothing_stands_there_with_a_reason(cast: Cast) -> None:
    house = furnished(cast)
    address, client = addresses(house)["position_end"], as_user(cast.head)
    assert "end or move that first" in errors_of(send(client, address, reason="wall moved"))["__all__"][0]
    Placement.objects.update(ends_at=NOON)
    assert list(errors_of(send(client, address, reason=""))) == ["reason"]
    assert send(client, address, reason="wall moved").status_code == 302
    position = house.positions.get()
    assert position.ended_reason == "wall moved"
    page = words(as_user(cast.reader).get(f"/houses/quillmark-hall/positions/{position.ref}/"))
    assert "This position ended on" in page and "wall moved" in page
    assert client.get(address).status_code == 404


def test_an_end_is_refused_if_the_row_changed_meanwhile(cast: Cast) -> None:
    position = make_position(cast.house)
    change(actor=ACTOR, row=position, house=cast.house, seen=1, values={"kind": "rail"})
    answer = send(
        as_user(cast.head), f"/houses/quillmark-hall/positions/{position.ref}/end/", version="1", reason="gone"
    )
    assert "Somebody else changed this" in words(answer)
    assert not Position.objects.get().has_ended


def test_a_set_up_keeps_lengths_as_typed_and_sides_as_words(cast: Cast) -> None:
    house = furnished(cast)
    changes = {
        "opening": "46 ft",
        "apron": "4' 6\"",
        "target_from_center": "2 ft",
        "target_side": "house left",
        "target_from_plaster": "10'",
        "target_direction": "upstage",
        "house_left_landmark": "river side",
        "twelve_deg": "90",
    }
    pages, client = addresses(house), as_user(cast.head)
    assert send(client, pages["setup_edit"], **changes).status_code == 302
    setup = house.setups.get()
    assert (setup.target_x_m, setup.target_y_m) == (pytest.approx(-0.6096), pytest.approx(3.048))
    assert (setup.opening_text, setup.apron_m) == ("46 ft", pytest.approx(1.3716))
    form = client.get(pages["setup_edit"]).context["form"]
    shown = [form[name].value() for name in ("target_from_center", "target_side", "target_direction", "opening")]
    assert shown == ["2 ft", "house left", "upstage", "46 ft"]
    assert "river side" in words(client.get(pages["house_detail"]))


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"target_from_center": "2 ft", "target_side": ""}, "target_side"),
        ({"target_from_center": "2 ft", "target_side": "center"}, "target_from_center"),
        ({"target_from_center": "-2 ft", "target_side": "house left"}, "target_from_center"),
        ({"target_from_center": "", "target_side": "house left"}, "target_from_center"),
        ({"target_height": ""}, "target_height"),
        ({"target_height": "301 ft"}, "target_height"),
        ({"opening": "600 m"}, "opening"),
        ({"twelve_deg": "361"}, "twelve_deg"),
    ],
)
def test_a_set_up_that_can_not_be_is_refused_at_its_field(cast: Cast, changes: dict[str, str], field: str) -> None:
    answer = send(as_user(cast.head), addresses(furnished(cast))["setup_edit"], **changes)
    assert list(errors_of(answer)) == [field]


def test_a_set_up_says_where_each_position_is_and_may_become_the_usual_one(cast: Cast) -> None:
    house = furnished(cast)
    client = as_user(cast.head)
    assert send(client, addresses(house)["setup_new"], name="In the round", layout="round").status_code == 302
    position, round_ = house.positions.get(), house.setups.get(name="In the round")
    address = f"/houses/quillmark-hall/setups/{round_.ref}/edit/"
    assert send(client, address, **{f"zone_{position.ref}": "bowl", "is_default": "on"}).status_code == 302
    assert SetupZone.objects.get().zone == "bowl"
    assert list(house.setups.filter(is_default=True)) == [round_]
    page = words(client.get("/houses/quillmark-hall/"))
    assert "From the stage end clockwise, seen from above" in page and "Not walked yet" in page


def test_only_a_changed_zone_is_stored_and_raises_the_version_of_the_set_up(cast: Cast) -> None:
    house = furnished(cast)
    client, address = as_user(cast.head), addresses(house)["setup_edit"]
    send(client, address)
    assert (house.setups.get().version, SetupZone.objects.count()) == (1, 0)
    zone = {f"zone_{house.positions.get().ref}": "overhead"}
    send(client, address, **zone)
    assert (house.setups.get().version, SetupZone.objects.get().zone) == (2, "overhead")


def test_a_position_may_go_by_its_own_zone_again_in_a_set_up(cast: Cast) -> None:
    house = furnished(cast)
    client, address = as_user(cast.head), addresses(house)["setup_edit"]
    field = f"zone_{house.positions.get().ref}"
    send(client, address, **{field: "overhead"})
    assert "as the position itself: front" in words(client.get(address))
    send(client, address, **{field: ""})
    assert (house.setups.get().version, SetupZone.objects.count()) == (3, 0)
    told = [event_sentence(line) for line in Event.objects.filter(verb="setup.zone_set")]
    assert told[-1].endswith("in the set-up Usual to that of the position itself, front")


def test_the_house_itself_is_changed(cast: Cast) -> None:
    client = as_user(cast.head)
    assert list(errors_of(send(client, "/houses/quillmark-hall/edit/", time_zone="Nowhere"))) == ["time_zone"]
    assert send(client, "/houses/quillmark-hall/edit/", unit_system="metric").status_code == 302
    assert House.objects.get().unit_system == "metric"


def test_new_is_no_short_name_of_a_house(cast: Cast) -> None:
    make_a_house(slug="new-hall")
    assert as_user(cast.head).get("/houses/new-hall/").status_code == 404
    assert as_user(cast.head).get("/houses/new/positions/new/").status_code == 404


def test_units_are_added_changed_and_taken_off_the_books(cast: Cast) -> None:
    client = as_user(cast.head)
    assert "Add the first one" in words(client.get("/houses/quillmark-hall/units/"))
    assert send(client, "/houses/quillmark-hall/units/new/", tag="FS-01", frames="6").status_code == 302
    unit = Unit.objects.get()
    assert "Which end frame 1 is at: not recorded." in words(client.get("/houses/quillmark-hall/units/"))
    address = f"/houses/quillmark-hall/units/{unit.ref}/"
    assert send(client, f"{address}edit/", frame_1_end="lens").status_code == 302
    assert "Frame 1 is at the lens end." in words(client.get("/houses/quillmark-hall/units/"))
    assert list(errors_of(send(client, "/houses/quillmark-hall/units/new/", tag="fs-01"))) == ["__all__"]
    assert send(client, f"{address}end/", reason="sold").status_code == 302
    assert Unit.objects.get().ended_reason == "sold"


@pytest.mark.parametrize(
    ("field", "value"),
    [("tag", ""), ("frames", "13"), ("watts", "20"), ("narrow_deg", "0.2"), ("wide_cd", "nan"), ("magazine", "side")],
)
def test_a_unit_that_can_not_be_is_refused_at_its_field(cast: Cast, field: str, value: str) -> None:
    answer = send(as_user(cast.head), "/houses/quillmark-hall/units/new/", **{"tag": "FS-01", field: value})
    assert list(errors_of(answer)) == [field]
    assert not Unit.objects.exists()


def test_a_unit_is_put_on_a_place_at_a_wall_time_of_the_house(cast: Cast) -> None:
    place, unit = make_place(make_position(cast.house)), make_unit(cast.house, tag="FS-09")
    address = f"/houses/quillmark-hall/places/{place.ref}/stand/"
    answer = send(as_user(cast.head), address, unit=unit.pk, starts_at="2026-07-01T08:00", ends_at="2026-07-02T08:00")
    assert answer.status_code == 302
    stay = Placement.objects.get()
    assert (stay.starts_at, stay.ends_at) == (
        datetime(2026, 7, 1, 12, tzinfo=UTC),
        datetime(2026, 7, 2, 12, tzinfo=UTC),
    )
    assert "Planned at" in words_before(cast, stay.starts_at)


def words_before(cast: Cast, when: datetime) -> str:
    with time_machine.travel(when - hours(1), tick=False):
        return words(as_user(cast.head).get("/houses/quillmark-hall/units/"))


def test_who_stands_there_and_when_is_said_where_two_units_want_one_place(cast: Cast) -> None:
    house = furnished(cast)
    unit = make_unit(house, tag="FS-77")
    answer = send(as_user(cast.head), addresses(house)["place_stand"], unit=unit.pk, starts_at="2026-07-01T08:00")
    assert errors_of(answer)["__all__"] == [
        "FS-01 at Rear booth, place 1, from 2026-03-02 07:00 on, is in the way. End that first, or choose another time."
    ]
    assert answer.context["form"]["starts_at"].value() == "2026-07-01T08:00"  # type: ignore[attr-defined]


def test_a_wall_time_that_comes_twice_is_asked_and_one_that_never_comes_refused(cast: Cast) -> None:
    place, unit = make_place(make_position(cast.house)), make_unit(cast.house)
    client, address = as_user(cast.head), f"/houses/quillmark-hall/places/{place.ref}/stand/"
    missing = send(client, address, unit=unit.pk, starts_at="2026-03-08T02:30")
    assert "does not exist" in errors_of(missing)["starts_at"][0]
    twice = send(client, address, unit=unit.pk, starts_at="2026-11-01T01:30")
    assert "happens twice" in errors_of(twice)["starts_at"][0]
    assert "The clocks show this time twice. Which one?" in words(twice)
    second = send(client, address, unit=unit.pk, starts_at="2026-11-01T01:30", starts_at_fold="1")
    assert second.status_code == 302
    assert Placement.objects.get().starts_at == datetime(2026, 11, 1, 6, 30, tzinfo=UTC)


def test_a_unit_moves_and_leaves(cast: Cast) -> None:
    house = furnished(cast)
    client, pages = as_user(cast.head), addresses(house)
    free = make_place(make_position(house, name="Rail"), label="R1")
    taken = house.positions.get(name="Rear booth").places.get(label="2")
    refused = send(client, pages["placement_move"], to=taken.pk, at="2026-07-01T08:00")
    assert "is in the way" in errors_of(refused)["__all__"][0]
    assert send(client, pages["placement_move"], to=free.pk, at="2026-07-01T08:00").status_code == 302
    stay = Placement.objects.get(place=free)
    early = send(client, f"/houses/quillmark-hall/placements/{stay.ref}/move/", to=taken.pk, at="2026-06-01T08:00")
    assert "Choose a time of this stay" in errors_of(early)["at"][0]
    assert send(client, f"/houses/quillmark-hall/placements/{stay.ref}/end/", at="2026-07-03T08:00").status_code == 302
    assert Placement.objects.get(pk=stay.pk).ends_at == datetime(2026, 7, 3, 12, tzinfo=UTC)


def test_a_placement_that_somebody_else_changed_is_not_moved_unseen(cast: Cast) -> None:
    house = furnished(cast)
    address = addresses(house)["placement_move"]
    free = make_place(make_position(house, name="Rail"), label="R1")
    stale = send(as_user(cast.head), address, to=free.pk, at="2026-07-01T08:00", version="7")
    assert "Somebody else changed this" in words(stale)
    assert not free.placements.exists()


def test_a_plan_is_taken_back(cast: Cast) -> None:
    place, unit = make_place(make_position(cast.house)), make_unit(cast.house)
    stay = place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON + hours(100))
    address = f"/houses/quillmark-hall/placements/{stay.ref}/end/"
    with time_machine.travel(NOON, tick=False):
        assert send(as_user(cast.head), address, at="2026-03-02T08:00").status_code == 302
    assert not Placement.objects.real().exists()
