"""Circuits, filters and sizes of pick-ups, as a person reads and changes them; what a unit's sheet says."""

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from tests.factories import Cast, make_place, make_position, make_unit, the_cast
from tests.venue.pages import as_user, errors_of, send, words
from tests.venue.recorded import a_circuit, a_filter
from venue.models import Circuit, ColorFilter, Event, House, PickUpSize, Unit
from venue.throw_book import sizes_of
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db
TOP = "/houses/quillmark-hall/"


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


def last_line(house: House) -> str:
    return event_sentence(Event.objects.filter(house=house).latest("pk"))


def test_a_circuit_is_added_changed_and_says_what_is_not_recorded(cast: Cast, head: Client) -> None:
    assert "Add the first one by the name at its panel" in words(head.get(f"{TOP}circuits/"))
    assert send(head, f"{TOP}circuits/new/", name="FS-A", volts="120").status_code == 302
    page = words(head.get(f"{TOP}circuits/"))
    assert "FS-A 120 V, rating not recorded, what else draws on it is not recorded" in page
    assert "a licensed electrician decides" in page
    circuit = Circuit.objects.get()
    assert send(head, f"{TOP}circuits/{circuit.ref}/edit/", rating_a="20", other_a="0").status_code == 302
    assert "FS-A 120 V, 20 A, nothing else draws on it" in words(as_user(cast.reader).get(f"{TOP}circuits/"))
    assert last_line(cast.house) == "changed the circuit FS-A"


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "fs-a "}, "__all__"),
        ({"volts": "5"}, "volts"),
        ({"volts": "nan"}, "volts"),
        ({"rating_a": "-20"}, "rating_a"),
        ({"other_a": "9" * 400}, "other_a"),
    ],
)
def test_a_circuit_that_can_not_be_is_refused_at_its_field(
    cast: Cast, head: Client, changes: dict[str, str], field: str
) -> None:
    a_circuit(cast.house, "FS-A")
    assert list(errors_of(send(head, f"{TOP}circuits/new/", **{"name": "FS-B", **changes}))) == [field]
    assert Circuit.objects.count() == 1


def test_a_circuit_in_use_does_not_end_and_the_places_on_it_are_named(cast: Cast, head: Client) -> None:
    circuit, other = a_circuit(cast.house, "FS-A"), a_circuit(cast.house, "FS-B")
    place = make_place(make_position(cast.house, name="Rail"), label="R1", row_order=1)
    edit = f"{TOP}places/{place.ref}/edit/"
    assert send(head, edit, circuit=circuit.pk).status_code == 302
    refused = errors_of(send(head, f"{TOP}circuits/{circuit.ref}/end/", reason="rewired"))
    assert refused["__all__"] == [
        "On this circuit: Rail, place R1. Say there which other circuit they are on, then end this one."
    ]
    assert "On it: Rail, place R1." in words(head.get(f"{TOP}circuits/"))
    assert "Circuits: place R1 on FS-A." in words(head.get(f"{TOP}positions/{place.position.ref}/"))
    assert send(head, edit, circuit=other.pk).status_code == 302
    assert send(head, f"{TOP}circuits/{circuit.ref}/end/", reason="rewired").status_code == 302
    assert last_line(cast.house) == "ended the circuit FS-A: rewired"
    assert head.get(f"{TOP}circuits/{circuit.ref}/edit/").status_code == 404


def test_a_place_takes_no_circuit_of_another_house(cast: Cast, head: Client) -> None:
    place = make_place(make_position(cast.house, name="Rail"), label="R1", row_order=1)
    foreign = a_circuit(make_position().house, "FS-X")
    assert list(errors_of(send(head, f"{TOP}places/{place.ref}/edit/", circuit=foreign.pk))) == ["circuit"]


def test_a_filter_carries_its_own_figures_because_its_name_is_no_number(cast: Cast, head: Client) -> None:
    sent = {"code": "C-7", "name": "pale amber", "transmission_pct": "62", "shift_mired": "-40", "near_neutral": "no"}
    assert "A name is no number" in words(head.get(f"{TOP}filters/new/"))
    assert send(head, f"{TOP}filters/new/", **sent).status_code == 302
    page = words(head.get(f"{TOP}filters/"))
    assert "C-7 pale amber 62 % of the light passes, 40 mired cooler, takes some colors more than others" in page
    color = ColorFilter.objects.get()
    edit = f"{TOP}filters/{color.ref}/edit/"
    assert send(head, edit).status_code == 302
    assert send(head, edit, near_neutral="", is_diffusion="on", shift_mired="").status_code == 302
    assert "62 % of the light passes, diffuses" in words(head.get(f"{TOP}filters/"))
    assert ColorFilter.objects.get().version == 2
    assert list(errors_of(send(head, f"{TOP}filters/new/", code="c-7"))) == ["__all__"]
    assert list(errors_of(send(head, f"{TOP}filters/new/", code="C-8", transmission_pct="101"))) == ["transmission_pct"]
    assert send(head, f"{TOP}filters/{color.ref}/end/", reason="used up").status_code == 302
    assert last_line(cast.house) == "ended the filter C-7 pale amber: used up"


def test_a_size_is_the_default_until_the_house_has_its_own_and_again_when_emptied(cast: Cast, head: Client) -> None:
    assert "Full body 8', the default" in words(head.get(f"{TOP}sizes/"))
    edit = f"{TOP}sizes/full-body/edit/"
    assert send(head, edit).status_code == 302
    assert not PickUpSize.objects.exists()
    assert send(head, edit, diameter="9' 6\"").status_code == 302
    assert "Full body 9' 6\", the house's own; the default is 8'" in words(head.get(f"{TOP}sizes/"))
    assert sizes_of(cast.house)[-1].diameter_m == pytest.approx(2.8956)
    assert send(head, edit, diameter="").status_code == 302
    assert PickUpSize.objects.values_list("diameter_m", "diameter_text", "version").get() == (2.45, "", 2)
    assert "Full body 8', the default" in words(head.get(f"{TOP}sizes/"))
    assert last_line(cast.house) == "set the pick-up size “full body” to 2.45 m"


def test_a_size_smaller_than_its_part_of_a_body_is_stored_with_a_warning(cast: Cast, head: Client) -> None:
    sent = send(head, f"{TOP}sizes/waist/edit/", diameter="2'")
    page = words(head.get(sent["Location"]))
    warning = "2' is less than the part of a body that “waist” names: 2' 5\" on a tall person"
    assert page.count(warning) == 2  # once said, once standing at the size
    assert "ANSUR II" in page and "common practice, no source" in page


@pytest.mark.parametrize("typed", ["wide", "-2'", '1"', "70'", "\0"])
def test_a_size_that_no_pool_has_is_refused_at_its_field(cast: Cast, head: Client, typed: str) -> None:
    assert list(errors_of(send(head, f"{TOP}sizes/head/edit/", diameter=typed))) == ["diameter"]
    assert not PickUpSize.objects.exists()


def test_of_two_who_set_a_size_the_second_sees_both(cast: Cast, head: Client) -> None:
    PickUpSize.objects.create(house=cast.house, size="head", diameter_m=0.7)
    edit = f"{TOP}sizes/head/edit/"
    assert send(head, edit, diameter="3'").status_code == 302
    stale = send(head, edit, diameter="4'", version="1")
    assert "Stored now" in words(stale) and "3' 4'" in words(stale)
    assert head.get(f"{TOP}sizes/hips/edit/").status_code == 404


SHEET = {
    "narrow_deg": "5",
    "wide_deg": "14",
    "angle_percent": "50",
    "sized_by": "zoom",
    "far_field": "32' 6\"",
    "weight_kg": "85",
    "input_w": "2300",
    "power_factor": "0.95",
}


def test_what_the_sheet_says_of_a_unit_is_kept_and_shown_as_typed(cast: Cast, head: Client) -> None:
    unit = make_unit(cast.house, tag="FS-01", narrow_deg=5.0)
    page = words(head.get(f"{TOP}units/{unit.ref}/"))
    assert "narrowest 5°, widest not recorded; not recorded whether at 50 % or at 10 % of the peak" in page
    assert send(head, f"{TOP}units/{unit.ref}/edit/", **SHEET).status_code == 302
    page = words(head.get(f"{TOP}units/{unit.ref}/"))
    for sentence in (
        "narrowest 5°, widest 14°; ends at 50 % of the peak (beam angle)",
        "its candela hold from a throw of 32' 6\"",
        "sized by zoom",
        "taken from the supply 2,300 W",
        "power factor 0.95",
        "weight 85 kg",
        "color temperature not recorded",
    ):
        assert sentence in page
    assert send(head, f"{TOP}units/{unit.ref}/edit/").status_code == 302
    assert Unit.objects.get().version == 2


def test_an_unusual_figure_is_stored_and_asked_about(head: Client) -> None:
    sent = send(head, f"{TOP}units/new/", tag="FS-01", wide_deg="45", weight_kg="8")
    page = words(head.get(sent["Location"]))
    assert "Stored, but unusual: widest beam 45°; weight 8 kg. Check against the maker's sheet." in page
    assert Unit.objects.get().weight_kg == 8.0


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("angle_percent", "30"),
        ("sized_by", "lens"),
        ("far_field", "2000'"),
        ("far_field", "near"),
        ("weight_kg", "0"),
        ("input_w", "20"),
        ("power_factor", "1.2"),
    ],
)
def test_a_figure_that_no_sheet_has_is_refused_at_its_field(cast: Cast, head: Client, field: str, value: str) -> None:
    assert list(errors_of(send(head, f"{TOP}units/new/", **{"tag": "FS-01", field: value}))) == [field]
    assert not Unit.objects.exists()


def test_what_a_tour_should_know_is_kept_and_names_nobody(cast: Cast, head: Client) -> None:
    assert "name nobody here" in words(head.get(f"{TOP}edit/"))
    assert send(head, f"{TOP}edit/", tech_note="Load in by the dock.").status_code == 302
    assert House.objects.get(pk=cast.house.pk).tech_note == "Load in by the dock."


def test_the_lists_ask_the_database_as_often_for_two_rows_as_for_twenty(cast: Cast, head: Client) -> None:
    position = make_position(cast.house, name="Rail")
    few = _filled(cast, head, position.pk, range(2))
    assert few == _filled(cast, head, position.pk, range(2, 20))


def _filled(cast: Cast, client: Client, position: int, numbers: range) -> list[int]:
    """The queries of each list once these rows are there too."""
    rail = cast.house.positions.get(pk=position)
    for number in numbers:
        circuit = a_circuit(cast.house, f"FS-{number}")
        make_place(rail, label=f"R{number}", row_order=number + 1, circuit=circuit)
        a_filter(cast.house, f"C-{number}", transmission_pct=50.0)
    return [_queries(client, f"{TOP}{name}") for name in ("circuits/", "filters/", f"positions/{rail.ref}/")]


def _queries(client: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)
