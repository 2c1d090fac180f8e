"""Everything that is wrong in a house file is named, with its path and with what would be right."""

import json

import pytest

from tests.venue.house_documents import a_house, booth, found, ordered, problems_of, sentence, slot, stay
from venue.house_file.parsing import MOST_BYTES
from venue.house_file.shape import MOST_PLACES, house_schema


def with_slot(**fields):
    return a_house(booth({"label": "1", "order": 1, **fields}))


def with_unit(**fields):
    return a_house(units=[{"tag": "FS-01", **fields}])


def test_the_schema_is_itself_valid():
    from jsonschema import Draft202012Validator

    Draft202012Validator.check_schema(house_schema())


def test_every_object_of_the_schema_names_its_keys_and_every_list_its_longest():
    schemas = [house_schema(), *house_schema()["$defs"].values()]
    assert all("additionalProperties" in each for each in schemas if each.get("type") == "object")
    assert all("maxItems" in each for each in schemas if each.get("type") == "array")


# -- bytes that are no document ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"", "empty"),
        (b" \n\t ", "empty"),
        (b"\xef\xbb\xbf", "empty"),
        ("{}".encode("utf-16"), "utf-16"),
        (b'{"house": {"name": "caf\xe9"}}', "not-utf-8"),
        (b"\x89PNG\r\n\x1a\n\x00", "not-utf-8"),
        (b"\x00\x00\x00", "not-json"),
        (b"FS-01,Rear booth,1", "not-json"),
        (b"{'format': 1}", "not-json"),
        (b'{"format": 1} {}', "not-json"),
        (b'{"format": 01}', "not-json"),
        (b'{"a": "line\nbreak"}', "not-json"),
        (b"[" * 200_000, "too-deep"),
        (b'{"a":' * 200_000, "too-deep"),
        (b"[" * 14 + b"]" * 14, "too-deep"),
        (b" " * (MOST_BYTES + 1), "too-large"),
    ],
)
def test_bytes_that_are_no_document_are_refused_as_a_whole(data, code):
    assert found(data) == {"$": code}


def test_a_mistake_in_the_json_is_named_by_line_and_column():
    assert sentence(b'{\n  "format": ,\n}', "$") == "line 2, column 13 is not JSON: Expecting value"


def test_a_byte_that_is_not_utf_8_is_named_by_its_line():
    assert sentence(b'{\n"house":\n{"name": "\xff"}}', "$") == "line 3 is not UTF-8; save the file as UTF-8"


@pytest.mark.parametrize("data", [b"null", b"3", b'"house"', b"[]", b"true"])
def test_a_document_that_is_no_object_is_refused(data):
    assert found(data) == {"$": "wrong-type"}


# -- values anywhere -----------------------------------------------------------------------------------


def test_a_key_that_stands_twice_in_one_object_is_named():
    data = json.dumps(a_house()).replace('"kind": "booth"', '"kind": "booth", "kind": "rail"').encode()
    assert found(data) == {"$.positions[0].kind": "duplicate-key"}


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999", "-1e999", "9" * 5000])
def test_a_number_that_is_none_is_refused(number):
    data = json.dumps(a_house()).replace("-38.0", number, 1).encode()
    assert found(data) == {"$.positions[0].slots[0].y_m": "not-finite"}


def test_half_a_character_is_refused():
    data = json.dumps(a_house()).replace('"FS-01"', '"FS-\\ud83d"', 1).encode()
    assert found(data) == {"$.units[0].tag": "half-character"}


@pytest.mark.parametrize("text", ["a\x00b", "a\nb", "a\x1bb", "a\x7f"])
def test_a_control_character_in_a_name_is_refused(text):
    assert found(a_house(booth(name=text))) == {"$.positions[0].name": "control-character"}


def test_an_unknown_key_is_named_with_those_that_are_known():
    document = with_slot(colour="red")
    assert found(document) == {"$.positions[0].slots[0].colour": "unknown-key"}
    assert sentence(document, "$.positions[0].slots[0].colour") == (
        "unknown key; known here: label, x_m, y_m, z_m, x_text, y_text, z_text, throw_m, throw_text, throw_end, "
        "throw_mark, throw_end_y_m, throw_end_text, bearing_deg, order, unit, operated_from, circuit"
    )


@pytest.mark.parametrize(
    ("document", "path"),
    [
        (a_house(weather=[]), "$.weather"),
        (a_house(house={"city": "Vellory"}), "$.house.city"),
        (a_house(setups=[{"name": "Thrust", "slug": "thrust"}]), "$.setups[0].slug"),
        (a_house(booth(color="red")), "$.positions[0].color"),
        (with_unit(maker="none"), "$.units[0].maker"),
        (a_house(placements=[stay("FS-01", "1", "2025-09-01") | {"to": "x"}]), "$.placements[0].to"),
        (a_house(lamp_kinds=[{"name": "a", "watts": 5}]), "$.lamp_kinds[0].watts"),
        (a_house(**{"two words": 1}), '$["two words"]'),
        (a_house(**{"x\ny\u202e": 1}), '$["x\\ny\\u202e"]'),
    ],
)
def test_an_unknown_key_is_refused_wherever_it_stands(document, path):
    assert found(document) == {path: "unknown-key"}


def test_each_missing_key_is_named():
    assert found({}) == {
        "$.format": "missing",
        "$.version": "missing",
        "$.house": "missing",
        "$.positions": "missing",
    }
    assert sentence({}, "$.format") == 'is missing; write "throwbook-house"'


@pytest.mark.parametrize(
    ("document", "path"),
    [
        (a_house({"kind": "booth"}), "$.positions[0].name"),
        (a_house(booth({"order": 1})), "$.positions[0].slots[0].label"),
        (a_house(units=[{"watts": 2000}]), "$.units[0].tag"),
        (a_house(setups=[{}]), "$.setups[0].name"),
        (a_house(placements=[{"unit": "FS-01", "position": "Rear booth", "label": "1"}]), "$.placements[0].from"),
    ],
)
def test_a_thing_needs_its_name(document, path):
    assert found(document) == {path: "missing"}


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"format": "other"}, 'is "other"; write "throwbook-house"'),
        ({"version": 2}, "is 2; write 1"),
        ({"version": True}, "is true; write 1"),
    ],
)
def test_another_format_or_version_is_refused(change, said):
    (path,) = (f"$.{key}" for key in change)
    assert sentence(a_house(**change), path) == said


@pytest.mark.parametrize(
    ("document", "path", "said"),
    [
        (with_slot(order="1"), "$.positions[0].slots[0].order", 'is "1"; write a whole number from 1 to 100000'),
        (with_slot(order=1.5), "$.positions[0].slots[0].order", "is 1.5; write a whole number from 1 to 100000"),
        (with_slot(label=1), "$.positions[0].slots[0].label",
         "is 1; write text of 1 to 40 characters, not only spaces"),
        (with_slot(label=None), "$.positions[0].slots[0].label",
         "is null; write text of 1 to 40 characters, not only spaces"),
        (with_slot(bearing_deg=True), "$.positions[0].slots[0].bearing_deg",
         "is true; write a number from 0 to below 360"),
        (a_house(house={"target": [0, 0]}), "$.house.target", "has 2 entries; write a list of 3 numbers"),
        (a_house(house={"target": [0, 0, "1.5"]}), "$.house.target[2]",
         'is "1.5"; write a number from -3.048 to 91.44'),
        (a_house(positions={}), "$.positions", "is {}; write a list [ … ] of at most 200 entries"),
        (a_house("Rear booth"), "$.positions[0]", 'is "Rear booth"; write an object { … }'),
        (a_house(house={"slug": "a b"}), "$.house.slug", 'is "a b"; write 1 to 60 letters a to z, digits, - or _'),
        (a_house(house={"slug": "vellory\n"}), "$.house.slug",
         '"vellory\\n" holds a control character; take it out'),
        (a_house(lamp_kinds=[{"name": "a", "warn_at": 0}]), "$.lamp_kinds[0].warn_at",
         "is 0; write a number from 0.01 to 2"),
    ],
)  # fmt: skip
def test_a_value_of_the_wrong_kind_is_told_what_it_should_be(document, path, said):
    assert sentence(document, path) == said


@pytest.mark.parametrize(
    ("document", "path", "choices"),
    [
        (a_house(house={"layout": "oval"}), "$.house.layout", '"proscenium", "thrust", "round", "bowl"'),
        (a_house(booth(zone="back")), "$.positions[0].zone", '"front", "side", "rear", "overhead", "bowl"'),
        (a_house(house={"units": "feet"}), "$.house.units", '"imperial", "metric"'),
        (a_house(house={"prompt_side": "left"}), "$.house.prompt_side", '"stage left", "stage right"'),
        (a_house(house={"zones": {"Rear booth": "back"}}), '$.house.zones["Rear booth"]', '"front", "side", '),
        (with_unit(frame_1_end="operator"), "$.units[0].frame_1_end", '"lens", "lamp"'),
        (with_unit(magazine="rear"), "$.units[0].magazine", '"front", "between"'),
    ],
)
def test_a_choice_that_is_none_is_told_all_choices(document, path, choices):
    assert found(document) == {path: "not-a-choice"}
    assert f"write one of {choices}" in sentence(document, path)


# Ranges: common practice, no source; beyond them a value is a slip of the pen.
RANGES = [
    ("watts", 50, 10_000),
    ("frames", 0, 12),
    ("narrow_deg", 0.3, 60),
    ("wide_deg", 0.3, 60),
    ("narrow_cd", 1_000, 50_000_000),
    ("wide_cd", 1_000, 50_000_000),
    ("cct_k", 1_500, 20_000),
    ("far_field_m", 0, 305),
    ("weight_kg", 1, 1_000),
    ("input_w", 50, 10_000),
    ("power_factor", 0.05, 1),
]


@pytest.mark.parametrize(("key", "low", "high"), RANGES)
def test_a_number_of_a_unit_is_refused_just_outside_its_range(key, low, high):
    for value in (low - 1, high + 1):
        assert found(with_unit(**{key: value})) == {"$.units[0]." + key: "out-of-range"}
    for value in (low, high):
        assert "$.units[0]." + key not in _found_or_nothing(with_unit(**{key: value}))


@pytest.mark.parametrize(
    ("key", "value"),
    [("z_m", -3.05), ("z_m", 91.45), ("x_m", 1000.5), ("y_m", -1000.5)],
)
def test_a_lens_outside_every_building_is_refused(key, value):
    assert found(a_house(booth(slot("1") | {key: value}))) == {f"$.positions[0].slots[0].{key}": "out-of-range"}


@pytest.mark.parametrize("bearing", [-0.001, 360])
def test_a_bearing_is_at_least_0_and_below_360(bearing):
    assert found(with_slot(bearing_deg=bearing)) == {"$.positions[0].slots[0].bearing_deg": "out-of-range"}


def _found_or_nothing(document):
    from venue.house_file.problems import HouseFileRefused
    from venue.house_file.reading import read_house_file

    try:
        read_house_file(json.dumps(document).encode())
    except HouseFileRefused as refused:
        return {problem.where: problem.code for problem in refused.problems}
    return {}


@pytest.mark.parametrize(
    ("document", "path"),
    [
        (with_slot(label="1" * 41), "$.positions[0].slots[0].label"),
        (a_house(booth(name="b" * 81)), "$.positions[0].name"),
        (a_house(house={"name": "h" * 121}), "$.house.name"),
        (a_house(house={"stage_end_landmark": "r" * 61}), "$.house.stage_end_landmark"),
        (with_unit(source="s" * 41), "$.units[0].source"),
    ],
)
def test_a_text_that_is_too_long_is_refused(document, path):
    assert found(document) == {path: "too-long"}


@pytest.mark.parametrize("blank", ["", "   ", "\u00a0"])
def test_a_name_of_nothing_is_refused(blank):
    assert found(a_house(booth(name=blank))) == {"$.positions[0].name": "wrong-text"}


def test_a_value_is_quoted_on_one_line_and_cut_short():
    said = sentence(with_unit(source="line\nbreak \u202e" + "x" * 5000), "$.units[0].source")
    assert said.startswith('is "line\\nbreak \\u202exxx')
    assert said.isprintable()
    assert len(said) < 150


def test_at_most_200_positions_and_500_slots_in_each():
    positions = [{"name": f"Booth {n}"} for n in range(201)]
    assert found(a_house(*positions)) == {"$.positions": "wrong-count"}
    assert sentence(a_house(*positions), "$.positions") == (
        "has 201 entries; write a list [ … ] of at most 200 entries"
    )
    slots = [ordered(str(n), n) for n in range(1, 502)]
    assert found(a_house(booth(*slots))) == {"$.positions[0].slots": "wrong-count"}


def test_a_house_of_too_many_slots_is_refused_before_each_is_looked_at():
    position = {"slots": [{}] * 500}
    assert found(a_house(*[position] * 5)) == {"$.positions": "too-many-places"}
    assert str(MOST_PLACES) in sentence(a_house(*[position] * 5), "$.positions")


# -- times and zones -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("2025-09-01T00:00:00", "time-without-offset"),
        ("2025-09-01", "time-without-offset"),
        ("yesterday", "not-a-time"),
        ("2025-02-30T00:00:00Z", "not-a-time"),
        ("2025-09-01T25:00:00Z", "not-a-time"),
        ("", "not-a-time"),
        ("0001-01-01T00:00:00+23:00", "time-out-of-range"),
        ("9999-12-31T23:59:59-23:00", "time-out-of-range"),
    ],
)
def test_a_time_that_names_no_instant_is_refused(text, code):
    placement = stay("FS-01", "1", "2025-09-01") | {"from": text}
    assert found(a_house(placements=[placement])) == {"$.placements[0].from": code}


@pytest.mark.parametrize(
    "zone",
    [
        "Mars/Base",
        "CST?",
        "america/chicago",
        "America",
        "../etc/passwd",
        "/etc/localtime",
        "posix/UTC",
        "localtime",
        "",
    ],
)
def test_an_unknown_time_zone_is_refused(zone):
    document = a_house(house={"time_zone": zone})
    assert found(document) == {"$.house.time_zone": "wrong-value"}
    assert "write a time zone such as America/Chicago" in sentence(document, "$.house.time_zone")


@pytest.mark.parametrize("text", ["five", "25:00", "05:00+01:00"])
def test_the_turn_of_the_day_is_a_time_of_day(text):
    assert found(a_house(house={"day_turns_at": text})) == {"$.house.day_turns_at": "not-a-wall-time"}


# -- names, labels, tags -------------------------------------------------------------------------------


def test_two_positions_of_one_name_are_refused_however_they_are_spelled():
    document = a_house(booth(), booth(name="REAR  booth"))
    assert found(document) == {"$.positions[1].name": "duplicate-position"}
    assert "there already at $.positions[0].name" in sentence(document, "$.positions[1].name")


@pytest.mark.parametrize("label", ["01", "#1", "Spot 1", " 1 "])
def test_a_label_stands_once_in_a_position_however_it_is_spelled(label):
    document = a_house(booth(slot("1", -2.0), slot(label, 2.0)))
    assert found(document) == {"$.positions[0].slots[1].label": "duplicate-label"}


def test_a_label_may_stand_in_two_positions():
    assert _found_or_nothing(a_house(booth(slot("1")), booth(slot("1"), name="Rail"))) == {}


def test_two_units_of_one_tag_are_refused():
    assert found(a_house(units=[{"tag": "FS-01"}, {"tag": "fs-01"}])) == {"$.units[1].tag": "duplicate-unit"}


def test_two_setups_of_one_name_are_refused():
    document = a_house(setups=[{"name": "Thrust"}, {"name": "Thrust"}])
    assert found(document) == {"$.setups[1].name": "duplicate-setup"}


def test_a_setup_named_as_the_houses_own_is_refused():
    document = a_house(house={"setup_name": "Thrust"}, setups=[{"name": "Thrust"}])
    assert found(document) == {"$.setups[0].name": "duplicate-setup"}


@pytest.mark.parametrize("label", ["-", "..", "\u200b"])
def test_a_label_without_letter_or_digit_is_refused(label):
    assert found(a_house(booth(ordered(label, 1)))) == {"$.positions[0].slots[0].label": "nothing-to-tell-by"}


def test_a_label_that_grows_too_long_in_plain_characters_is_refused():
    ligature_of_eighteen_letters = "\ufdfa"
    document = a_house(booth(ordered(ligature_of_eighteen_letters * 40, 1)))
    assert found(document) == {"$.positions[0].slots[0].label": "too-long-written-out"}


@pytest.mark.parametrize(
    ("document", "path"),
    [
        (a_house(booth(slot("1", unit="FS-09"))), "$.positions[0].slots[0].unit"),
        (a_house(placements=[stay("FS-09", "1", "2025-09-01")]), "$.placements[0].unit"),
        (a_house(readings=[{"unit": "FS-09", "at": "2026-02-01T23:10:00Z", "meter_h": 1}]), "$.readings[0].unit"),
    ],
)
def test_a_unit_that_is_not_in_units_is_refused(document, path):
    assert found(document) == {path: "unknown-unit"}
    assert '"FS-09" is not the tag of a unit in units' in sentence(document, path)


def test_a_placement_at_a_position_or_label_that_is_not_there_is_refused():
    document = a_house(
        placements=[
            stay("FS-01", "1", "2025-09-01", position="Front booth"),
            stay("FS-02", "7", "2025-09-01"),
        ]
    )
    assert found(document) == {
        "$.placements[0].position": "unknown-position",
        "$.placements[1].label": "unknown-label",
    }


def test_a_zone_for_a_position_that_is_not_there_is_refused():
    document = a_house(setups=[{"name": "Thrust", "zones": {"Attic": "rear"}}])
    assert found(document) == {"$.setups[0].zones.Attic": "unknown-position"}


def test_a_position_has_one_zone_in_a_setup():
    document = a_house(setups=[{"name": "Thrust", "zones": {"Rear booth": "rear", "rear booth": "side"}}])
    assert found(document) == {'$.setups[0].zones["rear booth"]': "duplicate-position"}


def test_a_lamp_of_a_kind_that_is_not_there_is_refused():
    assert found(a_house(lamps=[{"serial": "L-1", "kind": "lamp"}])) == {"$.lamps[0].kind": "unknown-lamp-kind"}


# -- places and beams ----------------------------------------------------------------------------------


def test_a_slot_that_says_nothing_of_where_it_is_is_refused():
    assert found(a_house(booth(slot("1"), {"label": "2"}))) == {"$.positions[0].slots[1]": "no-place"}


@pytest.mark.parametrize("left_out", ["x_m", "y_m", "z_m"])
def test_coordinates_go_together(left_out):
    lens = slot("1")
    del lens[left_out]
    document = a_house(booth(lens))
    path = f"$.positions[0].slots[0].{left_out}"
    assert found(document) == {path: "x-y-z-together"}
    assert sentence(document, path) == "is missing; x_m, y_m and z_m go together: write all three or none"


def test_a_slot_is_operated_from_another_slot_of_the_file():
    itself = ordered("1", 1, operated_from={"position": "Rear booth", "label": "01"})
    nowhere = ordered("2", 2, operated_from={"position": "Rear booth", "label": "9"})
    assert found(a_house(booth(itself, nowhere))) == {
        "$.positions[0].slots[0].operated_from": "operated-from-itself",
        "$.positions[0].slots[1].operated_from.label": "unknown-label",
    }


def test_the_narrowest_beam_is_no_wider_than_the_widest():
    document = with_unit(narrow_deg=9, wide_deg=7)
    assert found(document) == {"$.units[0].narrow_deg": "narrow-wider-than-wide"}
    assert _found_or_nothing(with_unit(narrow_deg=7, wide_deg=7)) == {}


# -- placements ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("until", ["2025-08-31", "2025-09-01"])
def test_a_placement_ends_after_it_begins(until):
    document = a_house(placements=[stay("FS-01", "1", "2025-09-01", until)])
    assert found(document) == {"$.placements[0].until": "until-before-from"}


def test_a_unit_stands_at_one_place_at_a_time():
    document = a_house(placements=[stay("FS-01", "1", "2025-09-01"), stay("fs-01", "2", "2025-10-01")])
    assert found(document) == {"$.placements[1]": "unit-overlaps"}
    assert "by $.placements[0]" in sentence(document, "$.placements[1]")


def test_a_place_holds_one_unit_at_a_time():
    document = a_house(placements=[stay("FS-01", "01", "2025-09-01", "2025-11-01"), stay("FS-02", "1", "2025-10-31")])
    assert found(document) == {"$.placements[1]": "place-overlaps"}


def test_a_long_stay_overlaps_a_later_one_across_a_short_one():
    document = a_house(
        placements=[
            stay("FS-01", "1", "2025-01-01", "2025-12-31"),
            stay("FS-01", "2", "2025-02-01", "2025-03-01"),
            stay("FS-01", "2", "2025-06-01", "2025-07-01"),
        ]
    )
    assert found(document) == {"$.placements[1]": "unit-overlaps", "$.placements[2]": "unit-overlaps"}


def test_a_unit_may_come_at_the_instant_another_leaves():
    document = a_house(
        placements=[
            stay("FS-01", "1", "2025-09-01", "2025-10-01"),
            stay("FS-02", "1", "2025-10-01"),
            stay("FS-01", "2", "2025-10-01"),
        ]
    )
    assert _found_or_nothing(document) == {}


def test_a_unit_named_at_two_slots_is_refused():
    document = a_house(booth(slot("1", -2, unit="FS-01"), slot("2", 2, unit="FS-01")))
    assert found(document) == {"$.positions[0].slots[1].unit": "unit-overlaps"}


def test_a_unit_named_at_a_slot_has_no_open_placement_elsewhere():
    document = a_house(booth(slot("1", -2, unit="FS-01"), slot("2", 2)), placements=[stay("FS-01", "2", "2025-09-01")])
    assert found(document) == {"$.positions[0].slots[0].unit": "unit-overlaps"}


def test_a_slot_that_names_a_unit_has_no_other_in_an_open_placement():
    document = a_house(booth(slot("1", -2, unit="FS-01"), slot("2", 2)), placements=[stay("FS-02", "1", "2025-09-01")])
    assert found(document) == {"$.positions[0].slots[0].unit": "place-overlaps"}


def test_a_slot_may_name_the_unit_of_its_own_open_placement():
    document = a_house(booth(slot("1", unit="FS-01")), placements=[stay("FS-01", "1", "2025-09-01")])
    assert _found_or_nothing(document) == {}


# -- all at once ---------------------------------------------------------------------------------------


def test_every_problem_is_named_at_once():
    document = a_house(
        booth(slot("1", -2), slot("01", 2, height=3), ordered("3", 0)),
        booth(name="rear booth", zone="back"),
        house={"layout": "oval"},
        units=[{"tag": "FS-01", "watts": "2 kW"}, {"tag": "FS-01"}],
        placements=[stay("FS-01", "1", "2025-09-01", "2025-08-01")],
        weather=[],
    )
    assert found(document) == {
        "$.weather": "unknown-key",
        "$.house.layout": "not-a-choice",
        "$.positions[0].slots[1].height": "unknown-key",
        "$.positions[0].slots[1].label": "duplicate-label",
        "$.positions[0].slots[2].order": "out-of-range",
        "$.positions[1].name": "duplicate-position",
        "$.positions[1].zone": "not-a-choice",
        "$.units[0].watts": "wrong-type",
        "$.units[1].tag": "duplicate-unit",
        "$.placements[0].until": "until-before-from",
    }


def test_a_faulty_value_causes_no_second_problem_elsewhere():
    document = a_house(
        booth(slot("1") | {"x_m": "2 m"}, {"label": "2", "odrer": 2}),
        units=[{"tag": 1}],
        placements=[stay("FS-01", "1", "2025-09-01")],
    )
    assert found(document) == {
        "$.positions[0].slots[0].x_m": "wrong-type",
        "$.positions[0].slots[1].odrer": "unknown-key",
        "$.units[0].tag": "wrong-type",
    }


def test_each_path_is_named_once():
    problems = problems_of(a_house(house={"name": "\n" * 200}))
    assert [problem.where for problem in problems] == ["$.house.name"]


def test_the_refusal_as_text_has_a_line_for_each_problem():
    from venue.house_file.problems import HouseFileRefused

    refused = HouseFileRefused(problems_of({"format": "throwbook-house", "version": 1, "house": {}}))
    assert str(refused).splitlines() == [
        "$.positions: is missing; write a list [ … ] of at most 200 entries",
        "$.house.name: is missing; write text of 1 to 120 characters, not only spaces",
    ]
