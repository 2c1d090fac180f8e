"""Storing a house file: each row by its verb, all or nothing, and written again byte for byte."""

from contextlib import contextmanager
from datetime import timedelta

import pytest
from django.apps import apps
from django.db import transaction
from hypothesis import given, settings

from tests.factories import ACTOR, NOON, make_a_house, make_place, make_position
from tests.venue.house_documents import a_house, as_bytes, booth, ordered, read, sample, slot, stay
from tests.venue.house_strategies import house_documents
from venue import actions
from venue.errors import Overlap
from venue.house_file.gathering import gathered
from venue.house_file.problems import HouseExists, HouseFileRefused
from venue.house_file.reading import read_house_file
from venue.house_file.storing import store_house
from venue.house_file.writing import house_text
from venue.models import Event, House, Place, Placement, Position, Unit

pytestmark = pytest.mark.django_db

QUERIES_TO_GATHER = 27
"""However much is on file."""


def stored(document, **options):
    """The document's house, stored at noon."""
    file = document if not isinstance(document, dict | bytes) else _file(document)
    return store_house(file, actor=ACTOR, now=NOON, **options)


def _file(document):
    return read_house_file(document) if isinstance(document, bytes) else read(document)


def dumped(house):
    return house_text(gathered(house))


def rows():
    """How many rows there are of each model."""
    return {model.__name__: model._base_manager.count() for model in apps.get_models()}


@contextmanager
def taken_back():
    """What is stored inside is gone afterwards."""
    with transaction.atomic():
        yield
        transaction.set_rollback(True)


def test_the_sample_house_is_stored_with_all_that_it_says():
    house = stored(sample("vellory.json"))
    assert (house.slug, house.time_zone, house.unit_system) == ("vellory", "America/Chicago", "imperial")
    usual = house.setups.get(is_default=True)
    assert (usual.name, usual.layout, usual.target_z_m, usual.twelve_deg) == ("Proscenium", "proscenium", 1.55, 12.5)
    assert sorted(house.setups.values_list("name", flat=True)) == ["In the round", "Proscenium", "Thrust"]
    assert [position.name for position in house.positions.order_by("row_order")] == [
        "Rear booth", "Cove", "Box booms", "Gallery",
    ]  # fmt: skip
    place = Place.objects.get(position__name="Rear booth", label="10")
    assert (place.x_m, place.x_text, place.row_order) == (4.5, "14' 9\"", 3)
    assert str(Place.objects.get(label="L").operated_from) == "Rear booth, place 1"
    assert house.units.get(tag="FS-02").frame_1_end == "lamp"


def test_a_unit_named_at_a_slot_stands_there_from_the_time_of_loading():
    stored(sample("vellory.json"))
    placement = Placement.objects.get(unit__tag="Aux “7”")
    assert (placement.place.label, placement.starts_at, placement.ends_at) == ("R", NOON, None)


def test_the_history_says_what_was_added_and_by_whom():
    house = stored(a_house(placements=[stay("FS-01", "1", "2025-09-01")]))
    verbs = list(Event.objects.filter(house=house).values_list("verb", flat=True))
    assert verbs == [
        "house.made", "setup.added", "unit.added", "unit.added",
        "position.added", "place.added", "place.added", "unit.placed",
    ]  # fmt: skip
    assert set(Event.objects.values_list("actor_name", flat=True)) == {ACTOR.name}


def test_an_empty_section_is_no_section():
    house = stored(a_house(lamps=[], log=[]))
    assert '"lamps"' not in dumped(house)


# -- all or nothing ------------------------------------------------------------------------------------


@pytest.mark.parametrize("verb", ["add_unit", "add_position", "add_place", "set_zone", "place_unit"])
def test_a_failure_on_the_way_leaves_no_row(verb, monkeypatch):
    def failing(**_facts):
        raise RuntimeError("the power is out")

    before = rows()
    with monkeypatch.context() as patched:
        patched.setattr(actions, verb, failing)
        with pytest.raises(RuntimeError):
            stored(sample("vellory.json"))
    assert rows() == before


def test_refusals_on_the_way_are_all_named_and_leave_no_row(monkeypatch):
    holder = make_place()

    def taken(**facts):
        raise Overlap(holder, NOON, None, "UTC")

    before = rows()
    with monkeypatch.context() as patched:
        patched.setattr(actions, "place_unit", taken)
        with pytest.raises(HouseFileRefused) as refused:
            stored(sample("vellory.json"))
    assert {problem.where for problem in refused.value.problems} == {
        "$.placements[0]", "$.placements[1]", "$.placements[2]", "$.placements[3]", "$.positions[1].slots[1].unit",
    }  # fmt: skip
    assert rows() == before


# -- a house that is there -----------------------------------------------------------------------------


def differences(document):
    """What is said at each path when the document is loaded onto the house that is there."""
    with pytest.raises(HouseExists) as exists:
        stored(document)
    return [(each.where, each.sentence) for each in exists.value.differences]


def test_a_slug_that_is_there_is_refused_and_nothing_is_stored():
    stored(a_house())
    before = rows()
    with pytest.raises(HouseExists) as exists:
        stored(a_house())
    assert exists.value.differences == ()
    assert str(exists.value) == "the house vellory is on file already and says the same"
    assert rows() == before


def test_the_refusal_names_each_difference_with_both_values():
    stored(a_house(placements=[stay("FS-01", "1", "2025-09-01")]))
    document = a_house(
        booth(slot("01", -2.5), slot("3", 4.0), level=4),
        {"name": "Attic"},
        house={"layout": "thrust", "target": [0, 0, 1.7]},
        units=[{"tag": "FS-01", "watts": 2000}],
        placements=[stay("FS-01", "1", "2025-09-01", "2026-01-01")],
    )
    assert differences(document) == [
        ("$.house.layout", 'stored "proscenium", file "thrust"'),
        ("$.house.target", "stored [0.0, 0.0, 1.5], file [0.0, 0.0, 1.7]"),
        ("$.positions[0].level", "stored 3, file 4"),
        ("$.positions[0].slots[0].label", 'stored "1", file "01"'),
        ("$.positions[0].slots[0].x_m", "stored -2.0, file -2.5"),
        ("$.positions[0].slots[1]", 'only in the file: {"label": "3", "x_m": 4.0, "y_m": -38.0, "z_m": 14.0}'),
        ("$.positions[0].slots", 'only stored: {"label": "2", "x_m": 2.0, "y_m": -38.0, "z_m": 14.0}'),
        ("$.positions[1]", 'only in the file: {"name": "Attic", "zone": "front", "slots": []}'),
        ("$.units[0].watts", "only in the file: 2000"),
        ("$.units", 'only stored: {"tag": "FS-02"}'),
        ("$.placements[0].until", 'only in the file: "2025-12-31T18:00:00-06:00"'),
    ]


def test_what_a_file_leaves_out_does_not_differ():
    stored(sample("vellory.json"))
    document = {
        "format": "throwbook-house",
        "version": 1,
        "house": {"name": "Vellory Opera “Süd”", "slug": "vellory"},
        "positions": [{"name": "rear booth"}],
    }
    paths = [where for where, _said in differences(document)]
    assert paths[0] == "$.positions[0].name"
    assert set(paths[1:]) == {"$.setups", "$.positions", "$.positions[0].slots", "$.units", "$.placements"}


def test_positions_in_another_order_differ():
    stored(a_house(booth(), {"name": "Attic"}))
    said = differences(a_house({"name": "Attic"}, booth()))
    assert said == [("$.positions", 'stored ["rear booth", "attic"], file ["attic", "rear booth"]')]


def test_a_unit_at_its_slot_in_short_is_the_placement_that_is_stored():
    document = a_house(booth(slot("1", unit="FS-01")))
    stored(document)
    assert differences(document) == []


def test_times_in_another_zone_are_the_same_instants():
    stored(a_house(placements=[stay("FS-01", "1", "2025-09-01")]))
    document = a_house(house={"time_zone": "Asia/Kathmandu"}, placements=[stay("FS-01", "1", "2025-09-01")])
    assert differences(document) == [("$.house.time_zone", 'stored "America/Chicago", file "Asia/Kathmandu"')]


def test_two_houses_do_not_meet():
    stored(a_house())
    other = stored(a_house(house={"slug": "other"}))
    assert House.objects.count() == 2
    assert Position.objects.filter(house=other).count() == 1
    assert Unit.objects.filter(house=other).count() == 2


# -- written again -------------------------------------------------------------------------------------


def assert_written_again_byte_for_byte(data):
    with taken_back():
        first = dumped(stored(data))
    with taken_back():
        second = dumped(stored(first.encode()))
    assert second == first


@pytest.mark.parametrize("name", ["vellory.json", "tarn_bowl.json", "vellory.written.json"])
def test_a_sample_house_is_written_again_byte_for_byte(name):
    assert_written_again_byte_for_byte(sample(name))


def test_the_sample_house_is_written_as_it_stands_in_its_file():
    assert dumped(stored(sample("vellory.json"))).encode() == sample("vellory.written.json")


@settings(max_examples=6)
@given(house_documents())
def test_a_house_of_any_kind_is_written_again_byte_for_byte(document):
    assert_written_again_byte_for_byte(as_bytes(document))


@settings(max_examples=6)
@given(house_documents())
def test_a_house_of_any_kind_does_not_differ_from_its_own_file(document):
    with taken_back():
        stored(document)
        assert differences(document) == []


def test_numbers_are_written_with_every_digit_that_counts():
    text = dumped(stored(a_house(booth(slot("1", 0.1 + 0.2)), units=[{"tag": "FS-01", "watts": 1200.5}])))
    assert '"x_m": 0.30000000000000004, "y_m": -38.0' in text
    assert '"watts": 1200.5' in text
    assert '"level": 3,' in text


def test_letters_of_every_script_are_written_as_they_are():
    assert '"name": "Ложа 剧場 “ü”"' in dumped(stored(a_house(booth(name="Ложа 剧場 “ü”"))))


def test_places_that_have_ended_and_what_an_engagement_brings_are_no_part_of_the_file():
    house = stored(
        a_house(
            booth(slot("1", -2.0), slot("2", 2.0)),
            {"name": "Attic", "slots": [ordered("1", 1)]},
            units=[{"tag": "FS-01"}, {"tag": "FS-02"}, {"tag": "FS-03"}],
            placements=[
                stay("FS-01", "2", "2025-09-01", "2025-10-01"),
                stay("FS-02", "1", "2025-09-01", "2025-10-01"),
                stay("FS-03", "1", "2025-11-01"),
            ],
        )
    )
    truss = make_position(house, "Tour truss", only_for="0b1f0f6e-8a57-4a2b-9d6c-5d2f6f6f9b01")
    make_place(truss, "1")
    end = {"actor": ACTOR, "at": NOON, "reason": "rebuilt"}
    actions.end_place(place=Place.objects.get(position__name="Rear booth", label="2"), **end)
    actions.end_position(position=Position.objects.get(name="Attic"), **end)
    actions.end_unit(unit=Unit.objects.get(tag="FS-02"), **end)
    planned = actions.place_unit(
        actor=ACTOR,
        unit=Unit.objects.get(tag="FS-01"),
        place=Place.objects.get(position__name="Rear booth", label="1"),
        starts_at=NOON - timedelta(days=300),
        ends_at=NOON - timedelta(days=299),
    )
    Placement.objects.filter(pk=planned.pk).update(ends_at=planned.starts_at)
    file = gathered(house)
    assert [position.name for position in file.positions] == ["Rear booth"]
    assert [each.label for each in file.positions[0].slots] == ["1"]
    assert [(unit.tag, unit.ended_reason) for unit in file.units] == [
        ("FS-01", ""),
        ("FS-02", "rebuilt"),
        ("FS-03", ""),
    ]
    assert [(each.unit, each.starts_at.month) for each in file.placements] == [("FS-02", 9), ("FS-03", 11)]


def test_a_house_made_by_hand_is_written_and_can_be_loaded():
    house = make_a_house("By Hand", slug="by-hand", time_zone="America/Chicago")
    make_place(make_position(house, "Rail"), "1", x_m=-0.0, y_m=-12.0, z_m=6.0, bearing_deg=360.0)
    text = dumped(house)
    file = read_house_file(text.encode())
    assert (file.positions[0].level, file.positions[0].slots[0].bearing_deg) == (None, 0.0)
    with transaction.atomic():
        again = dumped(stored(text.replace('"by-hand"', '"again"').encode()))
        transaction.set_rollback(True)
    assert again == text.replace('"by-hand"', '"again"')


def test_writing_a_house_asks_the_database_as_often_for_many_places_as_for_few(django_assert_num_queries):
    few = stored(a_house(booth(slot("1")), placements=[stay("FS-01", "1", "2025-09-01")]))
    slots = [slot(str(number), number / 2) for number in range(20)]
    many = stored(a_house(booth(*slots), *({"name": f"Rail {n}"} for n in range(20)), house={"slug": "many"}))
    for house in (few, many):
        with django_assert_num_queries(QUERIES_TO_GATHER):
            gathered(house)
