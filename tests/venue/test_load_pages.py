"""Supply and load on the page: amperes on circuits, kilograms on positions, against what is recorded."""

from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from tests.factories import ACTOR, NOON, Cast, hours, make_place, make_position, make_unit, the_cast
from tests.venue.pages import as_user, words
from tests.venue.recorded import a_circuit
from venue.actions import end_place, place_unit
from venue.load_book import circuit_sums, stands_of
from venue.models import House, Place, Position, Unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


def stand(position: Position, label: str, **data: Any) -> Unit:
    """A unit FS-<label> at a place of the label; `circuit` is the place's."""
    place = make_place(position, label, circuit=data.pop("circuit", None))
    unit = make_unit(position.house, f"FS-{label}", **data)
    place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)
    return unit


def page(client: Client, house: House, **query: Any) -> str:
    response = client.get(reverse("venue:load_list", args=[house.slug]), query)
    assert response.status_code == 200
    shown = words(response)
    assert " ok" not in shown.casefold()
    return shown


# -- circuits


def test_a_circuit_over_its_rating_says_by_how_much_and_to_stop(head: Client, cast: Cast) -> None:
    """Twice 1320 W at 120 V and a power factor of 1 are 22 A, and 2.2 A more besides: 24.2 of 20."""
    booth, circuit = make_position(cast.house, name="Rear booth"), a_circuit(cast.house, other_a=2.2)
    for label in "12":
        stand(booth, label, circuit=circuit, input_w=1320.0, power_factor=1.0)
    shown = page(head, cast.house)
    assert "1 recorded limit is exceeded: stop, have an electrician or a rigger look." in shown
    assert "FS-A 24.2 A of 20 A Over the recorded limit by 4.2 A: stop, have an electrician look." in shown
    assert "FS-1 at Rear booth, place 1 11 A: 1,320 W from the supply, power factor 1" in shown
    assert "120 V, 20 A, other things draw 2.2 A" in shown
    assert "Caution: electrical work" in shown


def test_a_circuit_within_its_rating_is_left_to_an_electrician(head: Client, cast: Cast) -> None:
    stand(make_position(cast.house), "1", circuit=a_circuit(cast.house, other_a=0.0), input_w=1200.0, power_factor=0.8)
    shown = page(head, cast.house)
    assert "FS-A 12.5 A of 20 A Recorded limit not exceeded; an electrician decides." in shown
    assert "No recorded limit is exceeded; an electrician and a rigger decide." in shown


def test_the_lamps_watts_and_a_missing_power_factor_are_the_least(head: Client, cast: Cast) -> None:
    booth, circuit = make_position(cast.house, name="Rear booth"), a_circuit(cast.house, other_a=0.0)
    lamp = stand(booth, "1", circuit=circuit, watts=1200.0, power_factor=0.9)
    stand(booth, "2", circuit=circuit, input_w=600.0)
    shown = page(head, cast.house)
    assert "FS-A at least 15 A of 20 A" in shown
    assert "at least 10 A: its lamp's 1,200 W; its supply takes in more" in shown
    assert "at least 5 A: 600 W from the supply, power factor not recorded" in shown
    assert "Not recorded: watts taken from the supply of FS-1 power factor of FS-2" in shown
    assert "not exceeded;" not in shown
    assert "for 1 of 1 that is not enough" in shown
    lamp.watts = 2400.0
    lamp.save()
    assert "at least 25 A of 20 A Over the recorded limit by at least 5 A: stop" in page(head, cast.house)


def test_what_a_circuit_leaves_open_is_named_with_a_way_to_record_it(head: Client, cast: Cast) -> None:
    circuit = a_circuit(cast.house, volts=None, rating_a=None)
    unit = stand(make_position(cast.house), "1", circuit=circuit)
    response = head.get(reverse("venue:load_list", args=[cast.house.slug]))
    shown, body = words(response), response.content.decode()
    assert "Not recorded: the circuit's volts the circuit's rating what else draws on it" in shown
    assert "watts taken from the supply of FS-1 power factor of FS-1" in shown
    assert "at least 0 A; no limit recorded" in shown
    assert reverse("venue:circuit_edit", args=[cast.house.slug, circuit.ref]) in body
    assert reverse("venue:unit_edit", args=[cast.house.slug, unit.ref]) in body
    reader = as_user(cast.reader).get(reverse("venue:load_list", args=[cast.house.slug]))
    assert "/edit/" not in reader.content.decode()


def test_places_on_no_circuit_are_listed_with_their_units(head: Client, cast: Cast) -> None:
    booth = make_position(cast.house, name="Rear booth")
    stand(booth, "1")
    gone, empty = make_place(booth, "2"), make_place(booth, "3")
    end_place(actor=ACTOR, place=gone, at=NOON, reason="seats")
    response = head.get(reverse("venue:load_list", args=[cast.house.slug]))
    shown = words(response)
    assert "On no circuit of this book FS-1 at Rear booth, place 1 Rear booth, place 3" in shown
    assert "place 2" not in shown
    assert reverse("venue:place_edit", args=[cast.house.slug, empty.ref]) in response.content.decode()


def test_a_unit_at_a_tours_place_counts_on_its_circuit(cast: Cast) -> None:
    circuit = a_circuit(cast.house, other_a=0.0)
    own = make_position(cast.house)
    brought = make_position(cast.house, only_for=cast.engagement.ref)
    stand(own, "1", circuit=circuit, input_w=1200.0, power_factor=1.0)
    stand(brought, "2", circuit=circuit, input_w=1200.0, power_factor=1.0)
    make_place(brought, "3", circuit=circuit)
    (found,) = circuit_sums(stands_of(cast.house, NOON))
    assert (found.circuit, found.sum.total) == (circuit, 20)
    assert [light.place.label for light in found.lights] == ["1", "2"]


# -- positions


def test_a_position_over_its_limit_and_one_within_it(head: Client, cast: Cast) -> None:
    """Twice 95 kg and 60 kg besides are 250 of 245; 95 kg and nothing else are within it."""
    truss = make_position(cast.house, name="Truss 1", load_limit_kg=245.0, other_load_kg=60.0)
    rail = make_position(cast.house, name="Rail", load_limit_kg=245.0, other_load_kg=0.0)
    stand(truss, "1", weight_kg=95.0), stand(truss, "2", weight_kg=95.0), stand(rail, "3", weight_kg=95.0)
    shown = page(head, cast.house)
    assert "Truss 1 250 kg of 245 kg Over the recorded limit by 5 kg: stop, have a rigger look." in shown
    assert "Rail 95 kg of 245 kg Recorded limit not exceeded; a rigger decides." in shown
    assert "what else stands or hangs there: 60 kg" in shown
    assert "People and their gear are not counted" in shown
    assert "1 recorded limit is exceeded" in shown


def test_what_a_position_leaves_open_is_named(head: Client, cast: Cast) -> None:
    truss = make_position(cast.house, name="Truss 1", load_limit_kg=245.0)
    rail = make_position(cast.house, name="Rail")
    stand(truss, "1", weight_kg=95.0), stand(truss, "2")
    response = head.get(reverse("venue:load_list", args=[cast.house.slug]))
    shown, body = words(response), response.content.decode()
    assert "Truss 1 at least 95 kg of 245 kg" in shown
    assert "Not recorded: weight of FS-2 what else stands or hangs there" in shown
    assert "No load limit recorded Rail" in shown
    for position in (truss, rail):
        assert reverse("venue:position_edit", args=[cast.house.slug, position.ref]) in body


# -- for both


def test_units_count_where_they_stand_on_the_day_at_noon(head: Client, cast: Cast) -> None:
    """Quillmark Hall is in New York: noon of March 2, 2026 is 17:00 there by UTC; the unit comes at 18:00."""
    truss = make_position(cast.house, name="Truss 1", load_limit_kg=245.0, other_load_kg=0.0)
    unit = make_unit(cast.house, "FS-1", weight_kg=95.0)
    place_unit(actor=ACTOR, unit=unit, place=make_place(truss), starts_at=NOON + hours(6))
    assert "Truss 1 0 kg of 245 kg" in page(head, cast.house, on="2026-03-02")
    shown = page(head, cast.house, on="2026-03-03")
    assert "Truss 1 95 kg of 245 kg" in shown
    assert "Units as they stand on Tuesday, March 3, 2026 at noon" in shown


def test_odd_days_never_break_the_page(head: Client, cast: Cast) -> None:
    for day in ("", "0001-01-01", "9999-12-31", "2026-02-30", "\x00", "-1", "9" * 400):
        page(head, cast.house, on=day)
    assert "Write a date, such as 2026-03-02." in page(head, cast.house, on="2026-02-30")
    assert "Units as they stand now." in page(head, cast.house, on="2026-02-30")


def test_an_empty_house_says_what_to_put_on_file_first(head: Client, cast: Cast) -> None:
    shown = page(head, cast.house)
    assert "No circuit and no load limit is on file." in shown
    assert "Add a circuit" in shown
    assert "The house has no positions yet." in shown


def test_the_queries_do_not_grow_with_the_places(head: Client, cast: Cast) -> None:
    counts = []
    for some in (range(2), range(2, 20)):
        for number in some:
            position = make_position(cast.house, load_limit_kg=245.0)
            stand(position, str(number), circuit=a_circuit(cast.house, f"FS-{number}"), input_w=1200.0)
            make_place(position, "spare")
        with CaptureQueriesContext(connection) as queries:
            page(head, cast.house)
        counts.append(len(queries))
    assert counts[0] == counts[1]
    assert Place.objects.count() == 40
