"""A house file without problems: what its records say, and what they say where the file says nothing."""

from datetime import UTC, datetime, time

import pytest

from tests.venue.house_documents import a_house, booth, ordered, read, sample, slot, stay
from venue.house_file.reading import read_house_file

LEAST = {"format": "throwbook-house", "version": 1, "house": {"name": "Vellory Opera"}, "positions": []}


def test_a_file_may_leave_out_everything_but_format_version_name_and_positions():
    file = read(LEAST)
    assert (file.house.name, file.house.slug) == ("Vellory Opera", "vellory-opera")
    assert (file.house.time_zone, file.house.units, file.house.day_turns_at) == ("UTC", "imperial", time(5))
    assert (file.house.setup.layout, file.house.setup.prompt_side) == ("proscenium", "stage left")
    assert file.house.setup.target == (0.0, 0.0, 1.5)
    assert file.positions == file.setups == file.units == file.placements == file.warnings == ()


def test_the_sample_house_is_read_with_all_that_it_says():
    file = read_house_file(sample("vellory.json"))
    assert [position.name for position in file.positions] == ["Rear booth", "Cove", "Box booms", "Gallery"]
    assert file.house.setup.zones == (("box  BOOMS", "side"),)
    assert [file.house.setup.zone_of(position) for position in file.positions] == ["front", "front", "side", "front"]
    assert file.positions[0].slots[0].lens == (4.5, -38.0, 14.0)
    assert file.positions[1].slots[0].operated_from.key == ("rear booth", "1")
    assert file.units[0].narrow_cd == 6_500_000.0
    assert [file.units[1].frames, file.units[2].frames] == [0, None]
    assert file.warnings == ()


def test_positions_and_slots_keep_the_order_of_the_file():
    file = read(a_house(booth(slot("2"), slot("10"), slot("1")), {"name": "Attic"}))
    assert [position.name for position in file.positions] == ["Rear booth", "Attic"]
    assert [each.label for each in file.positions[0].slots] == ["2", "10", "1"]


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("Vellory Opera", "vellory-opera"),
        ("  The “Süd” Hall, No. 2 ", "the-sud-hall-no-2"),
        ("劇場", "house"),
        ("x" * 120, "x" * 60),
    ],
)
def test_a_slug_left_out_is_made_from_the_name(name, slug):
    assert read({**LEAST, "house": {"name": name}}).house.slug == slug


@pytest.mark.parametrize(("layout", "zone"), [("proscenium", "front"), ("round", "front"), ("bowl", "bowl")])
def test_a_zone_left_out_is_bowl_in_a_bowl_and_front_elsewhere(layout, zone):
    file = read(a_house({"name": "Rear booth"}, house={"layout": layout}))
    assert file.positions[0].zone == zone


def test_space_around_names_does_not_count():
    file = read(a_house(booth(slot(" 1 "), name=" Rear booth ")))
    assert (file.positions[0].name, file.positions[0].slots[0].label) == ("Rear booth", "1")


def test_whole_numbers_may_be_written_with_a_fraction_of_zero():
    file = read(a_house(booth(ordered("1", 2.0), level=3), units=[{"tag": "FS-01", "frames": 6.0, "watts": 2000}]))
    assert repr(file.positions[0].slots[0].order) == "2"
    assert repr(file.units[0].frames) == "6"
    assert (repr(file.units[0].watts), repr(file.positions[0].level)) == ("2000.0", "3.0")


def test_minus_zero_is_zero():
    file = read(a_house(booth(slot("1", -0.0)), house={"target": [-0.0, 0, 1.5]}))
    assert (repr(file.positions[0].slots[0].x_m), repr(file.house.setup.target[0])) == ("0.0", "0.0")


@pytest.mark.parametrize(
    "text",
    ["2025-09-01T00:00:00-05:00", "2025-09-01T05:00:00Z", "2025-09-01 05:00+00:00", "20250901T070000+0200"],
)
def test_one_instant_may_be_written_with_any_offset(text):
    placement = stay("FS-01", "1", "2025-09-01") | {"from": text}
    file = read(a_house(placements=[placement]))
    assert file.placements[0].starts_at == datetime(2025, 9, 1, 5, tzinfo=UTC)


def test_an_until_of_null_is_no_end():
    file = read(a_house(placements=[stay("FS-01", "1", "2025-09-01") | {"until": None}]))
    assert file.placements[0].ends_at is None


def test_a_missing_bearing_is_computed_about_the_target_and_a_given_one_kept():
    file = read(a_house(booth(slot("1", 38.0), slot("2", 38.0, bearing_deg=10))))
    first, second = file.positions[0].slots
    assert first.bearing((0.0, 0.0, 1.5)) == pytest.approx(135.0)
    assert first.bearing((38.0, 0.0, 1.5)) == pytest.approx(180.0)
    assert second.bearing((0.0, 0.0, 1.5)) == 10.0


def test_a_slot_of_which_only_the_order_is_known_has_no_bearing_and_no_lens():
    only = read(a_house(booth(ordered("1", 1)))).positions[0].slots[0]
    assert (only.bearing((0.0, 0.0, 1.5)), only.lens) == (None, None)


def test_a_byte_order_mark_is_no_part_of_the_file():
    assert read_house_file(b"\xef\xbb\xbf" + sample("tarn_bowl.json")).house.name == "Tarn Bowl"


def test_two_readings_of_one_file_are_equal():
    assert read_house_file(sample("vellory.json")) == read_house_file(sample("vellory.json"))
