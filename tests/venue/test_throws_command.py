"""`throws` as somebody types it: the document, the text, exit codes, lines on standard error."""

import json
import math
from typing import Any

import pytest

from tests.venue.house_documents import SAMPLES, a_house, as_bytes, booth, ordered, slot, stay
from tests.venue.test_house_file_commands import typed

SPOT = {"tag": "FS-01", "narrow_deg": 0.9, "wide_deg": 7.0, "narrow_cd": 6_500_000, "wide_cd": 900_000}
Entry = dict[str, Any]


def entries(document: Any, *options: str) -> list[Entry]:
    answer = typed("throws", "-", "--json", *options, stdin=as_bytes(document))
    assert (answer.code, answer.lines) == (0, [])
    found: list[Entry] = json.loads(answer.out)
    return found


def test_every_key_of_a_slot_with_its_unit() -> None:
    """A lens 30 m out and 40 m up, at the target's own height above it: throw 50 by 3, 4 and 5."""
    lens = {"label": "1", "x_m": 0.0, "y_m": -30.0, "z_m": 41.5, "unit": "FS-01"}
    (found,) = entries(a_house(booth(lens), units=[SPOT]))
    assert list(found) == [
        *("position", "label", "throw_m", "plan_m", "rise_m", "angle_deg", "pan_deg", "bearing_deg"),
        *("pick_ups", "narrow", "wide"),
    ]
    assert (found["position"], found["label"]) == ("Rear booth", "1")
    lengths = [found[key] for key in ("throw_m", "plan_m", "rise_m")]
    assert lengths == pytest.approx([50, 30, 40])
    angles = [found[key] for key in ("angle_deg", "pan_deg", "bearing_deg")]
    assert angles == pytest.approx([math.degrees(math.atan2(4, 3)), 0, 180])
    assert [(each["size"], each["diameter_m"], each["reach"]) for each in found["pick_ups"]] == [
        ("head", 0.60, "too-small"),
        ("head and shoulders", 1.00, "ok"),
        ("waist", 1.30, "ok"),
        ("knees", 1.75, "ok"),
        ("full body", 2.45, "ok"),
    ]
    assert found["pick_ups"][0]["beam_deg"] == pytest.approx(2 * math.degrees(math.atan(0.3 / 50)))
    assert list(found["wide"]) == ["diameter_m", "lux", "footprint"]
    assert found["wide"]["diameter_m"] == pytest.approx(100 * math.tan(math.radians(3.5)))
    assert (found["narrow"]["lux"], found["wide"]["lux"]) == pytest.approx((2600, 360))
    down = math.degrees(math.atan2(4, 3))
    ends = [41.5 / math.tan(math.radians(down + 3.5)), 41.5 / math.tan(math.radians(down - 3.5))]
    pool = found["wide"]["footprint"]
    assert [pool["near_m"], pool["far_m"], pool["length_m"]] == pytest.approx([*ends, ends[1] - ends[0]])
    assert list(pool) == ["near_m", "far_m", "length_m", "width_m"]


def test_another_target_is_taken_with_negative_numbers_too() -> None:
    lens = {"label": "1", "x_m": 3.0, "y_m": -30.0, "z_m": 41.5}
    for options in (["--target", "-3,-30,1.5"], ["--target=-3, -30.0 ,+1.5e0"]):
        (found,) = entries(a_house(booth(lens)), *options)
        assert (found["plan_m"], found["pan_deg"], found["bearing_deg"]) == pytest.approx((6, -90, 90))
    (own,) = entries(a_house(booth(lens), house={"target": [3.0, 0.0, 1.5]}))
    assert own["plan_m"] == pytest.approx(30)


def test_a_slot_without_coordinates_is_listed_with_nulls() -> None:
    first, second = entries(a_house(booth(ordered("1", 1, unit="FS-01", bearing_deg=170.0), ordered("2", 2))))
    assert [first[key] for key in ("throw_m", "plan_m", "rise_m", "angle_deg", "pan_deg")] == [None] * 5
    assert (first["narrow"], first["wide"]) == (None, None)
    assert (first["bearing_deg"], second["bearing_deg"]) == (170.0, None)
    head = {"size": "head", "diameter_m": 0.6, "beam_deg": None, "reach": None}
    assert first["pick_ups"][0] == second["pick_ups"][0] == head


def test_without_the_units_data_beams_are_null_and_reach_is_not_said() -> None:
    found = entries(a_house(booth(slot("1", -2.0, unit="FS-01"), slot("2", 2.0))))
    assert [(each["narrow"], each["wide"], each["pick_ups"][0]["reach"]) for each in found] == [(None, None, None)] * 2
    assert all(each["pick_ups"][0]["beam_deg"] > 0 for each in found)


def test_the_footprint_is_null_where_the_cone_reaches_the_horizon() -> None:
    low = slot("1", 0.0, unit="FS-01") | {"z_m": 2.5}  # 1.5 degrees down, the wide cone opens 3.5 upward
    (found,) = entries(a_house(booth(low), units=[SPOT]))
    assert found["wide"]["footprint"] is None
    assert found["narrow"]["footprint"]["far_m"] > 38


def test_the_unit_is_who_stands_there_now_else_who_comes_next() -> None:
    stays = [
        stay("OLD", "1", "2020-01-01", "2021-01-01"),
        stay("NEW", "1", "2021-01-01"),
        stay("NEXT", "2", "2190-01-01", "2191-01-01"),
        stay("LATER", "2", "2191-01-01"),
        stay("GONE", "3", "2020-01-01", "2021-01-01"),
    ]
    units = [{"tag": tag, "narrow_cd": 1600 * (n + 1)} for n, tag in enumerate(("OLD", "NEW", "NEXT", "LATER", "GONE"))]
    slots = [{"label": label, "x_m": 0.0, "y_m": -40.0, "z_m": 1.5} for label in "123"]
    found = entries(a_house(booth(*slots), units=units, placements=stays))
    assert [each["narrow"] and each["narrow"]["lux"] for each in found] == pytest.approx([2.0, 3.0, None])


def test_the_entries_are_in_the_order_of_the_file() -> None:
    positions = booth(slot("2", 2.0), slot("1", -2.0)), booth(ordered("1", 1), name="Cove")
    found = entries(a_house(*positions))
    assert [(each["position"], each["label"]) for each in found] == [
        ("Rear booth", "2"),
        ("Rear booth", "1"),
        ("Cove", "1"),
    ]
    assert entries(a_house(booth())) == []


@pytest.mark.parametrize("name", ["vellory.json", "tarn_bowl.json"])
def test_whole_files_are_answered_in_both_forms(name: str) -> None:
    as_json, as_text = typed("throws", SAMPLES / name, "--json"), typed("throws", SAMPLES / name)
    assert (as_json.code, as_text.code) == (0, 0)
    for entry in json.loads(as_json.out):
        assert f"{entry['position']}, place {entry['label']} (" in as_text.out


def test_the_text_says_lengths_in_the_houses_units_and_what_it_leaves_out() -> None:
    glazed = booth(slot("1", -2.0, unit="FS-01", order=1), ordered("2", 2), glass="fixed")
    for system, throw in (("imperial", "throw 131' 5\", plan 124' 10\", rise 41'"), ("metric", "throw 40.05 m")):
        text = typed("throws", "-", stdin=as_bytes(a_house(glazed, house={"units": system}, units=[SPOT]))).out
        assert throw in text
        assert "head 0.86° can't close to it" in text
        assert "behind a pane: 12 to 15 % less light while it is closed" in text
        assert "Rear booth, place 2 (no unit)\n  no throw: x, y and z of the lens are not recorded\n" in text
        assert "4052 lx (376 fc)" in text
    assert "narrow: 0.9° at 50 % or 10 % of the peak, not recorded which, " in text


def test_the_text_says_the_level_of_the_angles_the_measured_glass_and_a_throw_that_is_too_short() -> None:
    glazed = booth(slot("1", unit="FS-01"), glass="sliding", glass_loss_pct=13.5)
    spot = SPOT | {"angle_percent": 10, "far_field_m": 45}
    text = typed("throws", "-", stdin=as_bytes(a_house(glazed, house={"units": "metric"}, units=[spot]))).out
    assert "narrow: 0.9° at 10 % of the peak, 0.63 m across, " in text
    assert "behind a pane: 13.5 % less light while it is closed, as measured" in text
    assert "the light is a rough guide: nearer than 45.00 m the inverse square does not hold" in text
    assert "rough guide" not in typed("throws", "-", stdin=as_bytes(a_house(glazed, units=[SPOT]))).out


def test_the_houses_own_sizes_stand_in_place_of_the_usual_ones_and_the_keys_stay() -> None:
    spot = SPOT | {"angle_percent": 50, "sized_by": "zoom"}
    own = [{"size": "waist", "diameter_m": 1.45}]
    (usual,) = entries(a_house(booth(slot("1", unit="FS-01")), units=[SPOT]))
    (found,) = entries(
        a_house(booth(slot("1", unit="FS-01"), glass="fixed", glass_loss_pct=9), units=[spot], sizes=own)
    )
    assert [each["diameter_m"] for each in found["pick_ups"]] == [0.6, 1.0, 1.45, 1.75, 2.45]
    others = [[each for each in entry["pick_ups"] if each["size"] != "waist"] for entry in (found, usual)]
    assert others[0] == others[1]
    assert {key: found[key] for key in found if key != "pick_ups"} == {
        key: usual[key] for key in usual if key != "pick_ups"
    }


@pytest.mark.parametrize(
    "target", ["", "1,2", "1,2,3,4", "a,b,c", "nan,0,0", "inf,0,0", "1_0,2,3", "0,0,1001", "1e999,0,0"]
)
def test_a_target_that_is_no_point_is_refused_in_one_line(target: str) -> None:
    answer = typed("throws", "-", f"--target={target}", stdin=as_bytes(a_house()))
    assert (answer.code, answer.out) == (2, "")
    assert answer.lines == [
        f"--target: can't read “{target}”; write three lengths in meters, none over 1000: --target=0,2.5,1.5"
    ]


def test_a_bad_file_is_refused_by_its_paths() -> None:
    answer = typed("throws", "-", "--json", stdin=as_bytes(a_house(booth(slot("1", height=3)))))
    assert (answer.code, answer.out) == (2, "")
    assert answer.lines[0].startswith("-: $.positions[0].slots[0].height: unknown key")


def test_a_lens_in_the_target_or_next_to_it_is_still_answered() -> None:
    lenses = [slot("1") | {"y_m": y, "z_m": 1.5, "unit": "FS-01"} for y in (0.0,)]
    lenses += [slot("2") | {"y_m": 1e-300, "z_m": 1.5, "unit": "FS-02"}]
    document = a_house(booth(*lenses), units=[SPOT, SPOT | {"tag": "FS-02"}])
    answer = typed("throws", "-", "--json", stdin=as_bytes(document))
    assert answer.code == 0
    assert [each["narrow"]["lux"] for each in json.loads(answer.out)] == [None, None]
