"""Circuits, filters, sizes, areas, what is in the way and what a position sees, in a house file."""

import json
from typing import Any

import pytest

from tests.factories import ACTOR, NOON
from tests.venue.house_documents import a_house, booth, found, read, sentence, slot
from tests.venue.test_house_file_storing import assert_written_again_byte_for_byte, differences, dumped, rows, stored
from venue import actions
from venue.core.ranges import BEAM_DEG, CANDELA, COLOR_K, HEIGHT_M, THROW_M, VOLTS, WATTS, WEIGHT_KG, Range
from venue.house_file.shape import MOST_OUTLINES, house_schema, resolved
from venue.models import Area, Blockage, Circuit, ColorFilter, House, PickUpSize, Place, Position, Setup, Unit

Document = dict[str, Any]
PIT = {"name": "Pit", "kind": "pit", "corners": [[-5.0, -1.5], [5.0, -1.5], [5.0, -4.25], [-5.0, -4.25]]}
AISLE = {"name": "Aisle 2", "kind": "aisle", "corners": [[2.0, -8.0], [3.2, -8.0], [3.2, -20.0], [2.0, -20.0]],
         "corners_text": "2 m house right, 8 m downstage\n3.2 m house right, 8 m downstage\n…"}  # fmt: skip
STACK = {
    "name": "speaker stack",
    "place": "1",
    "corners": [[6.0, 0.0], [8.0, 0.0], [8.0, 2.0]],
    "noted_on": "2026-02-28",
}
BEAM = {"name": "beam", "pan_from_deg": 12.0, "pan_to_deg": 14.5}
VIEW: Document = {
    "glass_loss_pct": 13.5, "other_load_kg": 120, "seats_lost": 4, "needs": "a second chair",
    "farthest_upstage_m": 9.0, "farthest_upstage_text": "9 m", "farthest_downstage_m": -6.5,
    "pan_from_deg": -24.0, "pan_to_deg": 24.0, "blocked": [STACK, BEAM],
}  # fmt: skip
SPOT: Document = {
    "tag": "FS-01", "narrow_deg": 0.9, "wide_deg": 7.0, "angle_percent": 50, "sized_by": "iris", "far_field_m": 12.5,
    "far_field_text": "41'", "weight_kg": 95, "input_w": 2600, "power_factor": 0.95,
}  # fmt: skip
CIRCUIT = {"name": "LP-3/12", "volts": 208, "rating_a": 30, "other_a": 0.5}
PALE = {"code": "C-1", "name": "pale warm", "transmission_pct": 61.5, "shift_mired": 100, "is_near_neutral": False}
FROST = {"code": "D-1", "name": "", "is_diffusion": True}
WAIST = {"size": "waist", "diameter_m": 1.4, "diameter_text": "4' 7\""}
HEAD = {"size": "head", "diameter_m": 0.6}


def lit(**more: Any) -> Document:
    """A house that says all of it."""
    document = a_house(
        booth(slot("1", -2.0, circuit="lp-3/12"), slot("2", 2.0), **VIEW),
        house={"tech_note": "Load in by the river door.\nNo trucks before 8.", "areas": [PIT, AISLE]},
        setups=[{"name": "Thrust", "areas": [AISLE | {"kind": "stage"}]}],
        circuits=[CIRCUIT],
        filters=[PALE, {key: value for key, value in FROST.items() if value != ""}],
        sizes=[HEAD, WAIST],
        units=[SPOT],
    )
    return {**document, **more}


def updated(document: Document) -> House:
    house: House = stored(document, update=True)
    return house


# -- stored and written again --------------------------------------------------------------------------


@pytest.mark.django_db
def test_all_of_it_is_stored_in_its_columns() -> None:
    house = stored(lit())
    place, unit, booth_row = Place.objects.get(label="1"), Unit.objects.get(), Position.objects.get()
    assert (house.tech_note.splitlines()[1], str(place.circuit)) == ("No trucks before 8.", "LP-3/12")
    assert (unit.angle_percent, unit.sized_by, unit.far_field_m, unit.power_factor) == (50, "iris", 12.5, 0.95)
    assert (booth_row.seats_lost, booth_row.farthest_downstage_m, booth_row.pan_to_deg) == (4, -6.5, 24.0)
    assert Area.objects.get(name="Pit").polygon == ((-5.0, -1.5), (5.0, -1.5), (5.0, -4.25), (-5.0, -4.25))
    assert [area.setup.name for area in Area.objects.filter(name="Aisle 2").order_by("pk")] == ["Usual", "Thrust"]
    assert [(str(each), each.place) for each in Blockage.objects.all()] == [("speaker stack", place), ("beam", None)]
    assert ColorFilter.objects.get(code="C-1").is_near_neutral is False
    assert ColorFilter.objects.get(code="D-1").is_near_neutral is None
    assert dict(PickUpSize.objects.values_list("size", "diameter_m")) == {"head": 0.6, "waist": 1.4}


@pytest.mark.django_db
def test_all_of_it_is_written_as_it_was_told_and_again_byte_for_byte() -> None:
    written = json.loads(dumped(stored(lit())))
    assert written["house"]["areas"] == [AISLE, PIT]
    assert written["setups"][0]["areas"] == [AISLE | {"kind": "stage"}]
    position = written["positions"][0]
    assert {key: position[key] for key in VIEW} == VIEW
    assert [each.get("circuit") for each in position["slots"]] == ["LP-3/12", None]
    assert (written["circuits"], written["sizes"], written["units"]) == ([CIRCUIT], [HEAD, WAIST], [SPOT])
    assert written["filters"] == [PALE, {"code": "D-1", "is_diffusion": True}]
    written["house"]["slug"] = "again"
    assert_written_again_byte_for_byte(json.dumps(written).encode())


@pytest.mark.django_db
def test_a_house_without_any_of_it_is_written_without_its_keys() -> None:
    written = json.loads(dumped(stored(a_house())))
    assert list(written) == ["format", "version", "house", "positions", "units"]
    assert list(written["positions"][0]) == ["name", "kind", "zone", "level", "slots"]
    assert (list(written["positions"][0]["slots"][0]), written["units"][0]) == (
        ["label", "x_m", "y_m", "z_m"],
        {"tag": "FS-01"},
    )
    assert not {"areas", "tech_note"} & written["house"].keys()


@pytest.mark.django_db
def test_what_has_ended_or_belongs_to_an_engagement_is_no_part_of_the_file() -> None:
    house = stored(lit())
    Blockage.objects.filter(name="beam").update(only_for="0b1f0f6e-8a57-4a2b-9d6c-5d2f6f6f9b01")
    end = {"actor": ACTOR, "at": NOON, "reason": "rebuilt"}
    for color in ColorFilter.objects.all():
        actions.end_filter(color=color, **end)
    for area in Area.objects.filter(name="Pit"):
        actions.end_area(area=area, **end)
    actions.end_place(place=Place.objects.get(label="1"), **end)
    actions.end_circuit(circuit=Circuit.objects.get(), **end)
    written = json.loads(dumped(house))
    assert not {"filters", "circuits"} & written.keys()
    assert written["house"]["areas"] == [AISLE]
    assert "blocked" not in written["positions"][0]  # the stack stood before the place that is no more
    assert read(written).warnings == ()


# -- updates and differences ---------------------------------------------------------------------------


def identities() -> set[tuple[str, int, Any]]:
    models = (Area, Blockage, Circuit, ColorFilter, PickUpSize, Setup, Place)
    return {(model.__name__, row.pk, getattr(row, "ref", None)) for model in models for row in model.objects.all()}


@pytest.mark.django_db
def test_an_update_matches_by_names_keeps_identities_and_ends_nothing() -> None:
    stored(lit())
    before = identities()
    updated(
        a_house(
            booth(slot("1", circuit="LP-3/12"), blocked=[STACK | {"name": "Speaker  Stack", "noted_on": "2026-03-01"}]),
            house={"areas": [{"name": "PIT", "kind": "stage", "corners": PIT["corners"]}]},
            setups=[{"name": "Thrust", "areas": [{"name": "Aisle 2", "corners": PIT["corners"]}]}],
            circuits=[{"name": "lp-3/12", "rating_a": 20}],
            filters=[{"code": "c-1", "transmission_pct": 58}],
            sizes=[{"size": "waist", "diameter_m": 1.3}],
            units=[{"tag": "FS-01", "far_field_m": 13}],
        )
    )
    assert identities() == before
    circuit, waist = Circuit.objects.get(), PickUpSize.objects.get(size="waist")
    assert (circuit.name, circuit.volts, circuit.rating_a) == ("lp-3/12", 208.0, 20.0)
    assert (waist.diameter_m, waist.diameter_text) == (1.3, "")
    assert ColorFilter.objects.get(code="c-1").shift_mired == 100.0
    assert (Unit.objects.get().far_field_text, Unit.objects.get().weight_kg) == ("", 95.0)
    assert [area.kind for area in Area.objects.filter(name="PIT")] == ["stage"]
    thrust = Area.objects.get(setup__name="Thrust")
    assert (thrust.kind, thrust.corners[0], thrust.corners_text) == ("stage", [-5.0, -1.5], "")
    assert str(Blockage.objects.order_by("pk")[0].noted_on) == "2026-03-01"
    assert not any(row.has_ended for model in (Area, Blockage, Circuit, ColorFilter) for row in model.objects.all())


@pytest.mark.django_db
def test_an_update_that_says_the_same_changes_nothing() -> None:
    house = stored(lit())
    before, text = rows(), dumped(house)
    updated(json.loads(text))
    assert (rows(), dumped(house)) == (before, text)
    assert set(Blockage.objects.values_list("version", flat=True)) == {1}
    assert set(Place.objects.values_list("version", flat=True)) == {1}


@pytest.mark.django_db
def test_new_things_are_added_beside_the_old_ones() -> None:
    stored(lit())
    updated(
        a_house(
            booth(slot("2", circuit="LP-4"), blocked=[{"name": "beam", "place": "02"}]),
            house={"areas": [AISLE | {"name": "Aisle 3"}]},
            circuits=[{"name": "LP-4"}],
            units=[],
        )
    )
    assert str(Place.objects.get(label="2").circuit) == "LP-4"
    assert sorted(Area.objects.values_list("name", flat=True)) == ["Aisle 2", "Aisle 2", "Aisle 3", "Pit"]
    assert Blockage.objects.get(name="beam", place__label="2").pan_to_deg is None
    assert (Circuit.objects.count(), Blockage.objects.count()) == (2, 3)


@pytest.mark.django_db
def test_two_things_of_one_name_are_told_apart_by_what_else_they_say() -> None:
    east, west = ({"name": "stack", "pan_from_deg": pan, "pan_to_deg": pan + 5.0} for pan in (-30.0, 25.0))
    house = stored(a_house(booth(slot("1"), blocked=[east, west])))
    text = dumped(house)
    other_way_round = a_house(booth(slot("1"), blocked=[west, east]))
    assert differences(other_way_round) == []
    updated(other_way_round)
    assert dumped(house) == text


@pytest.mark.django_db
def test_each_difference_is_named_where_it_stands() -> None:
    stored(lit())
    changed = lit(circuits=[CIRCUIT | {"volts": 120}, {"name": "LP-9"}], filters=[PALE], sizes=[HEAD, WAIST])
    changed["house"] = changed["house"] | {"tech_note": "Ring first.", "areas": [PIT | {"kind": "stage"}]}
    blocked = [STACK, BEAM | {"pan_to_deg": 15.0}, {"name": "flag"}]
    slots = [slot("1", -2.0, circuit="LP-9"), slot("2", 2.0)]
    changed["positions"] = [booth(*slots, **{**VIEW, "seats_lost": 5, "blocked": blocked})]
    changed["units"] = [SPOT | {"angle_percent": 10}]
    said = dict(differences(changed))
    assert said["$.house.areas[0].kind"] == 'stored "pit", file "stage"'
    assert said["$.house.areas"].startswith('only stored: {"name": "Aisle 2"')
    assert said["$.positions[0].blocked[1].pan_to_deg"] == "stored 14.5, file 15.0"
    assert said["$.positions[0].blocked[2]"] == 'only in the file: {"name": "flag"}'
    assert said["$.positions[0].slots[0].circuit"] == 'stored "LP-3/12", file "LP-9"'
    assert said["$.circuits[0].volts"] == "stored 208, file 120"
    assert said["$.filters"] == 'only stored: {"code": "D-1", "is_diffusion": true}'
    assert said["$.units[0].angle_percent"] == "stored 50, file 10"
    assert {path.split(".")[1].split("[")[0] for path in said} == {"house", "positions", "circuits", "filters", "units"}
    assert len(said) == 11


# -- refusals ------------------------------------------------------------------------------------------

BLOCKED = "$.positions[0].blocked[0]"


def in_the_way(**facts: Any) -> Document:
    return a_house(booth(slot("1"), blocked=[{"name": "beam", **facts}]))


def area(corners: Any) -> Document:
    return a_house(house={"areas": [{"name": "Pit", "corners": corners}]})


@pytest.mark.parametrize(
    ("document", "problems"),
    [
        (a_house(booth(slot("1", circuit="LP-3"))), {"$.positions[0].slots[0].circuit": "unknown-circuit"}),
        (a_house(circuits=[{"name": "LP-3"}, {"name": "lp-3 "}]), {"$.circuits[1].name": "duplicate-circuit"}),
        (a_house(filters=[{"code": "C-1"}, {"code": "c-1"}]), {"$.filters[1].code": "duplicate-filter"}),
        (a_house(sizes=[HEAD, HEAD]), {"$.sizes[1].size": "duplicate-size"}),
        (a_house(house={"areas": [PIT, PIT]}), {"$.house.areas[1].name": "duplicate-area"}),
        (a_house(setups=[{"name": "Thrust", "areas": [PIT, PIT]}]), {"$.setups[0].areas[1].name": "duplicate-area"}),
        (a_house(sizes=[{"size": "hand", "diameter_m": 1}]), {"$.sizes[0].size": "not-a-choice"}),
        (a_house(sizes=[{"size": "head"}]), {"$.sizes[0].diameter_m": "missing"}),
        (a_house(house={"areas": [{"name": "Pit"}]}), {"$.house.areas[0].corners": "missing"}),
        (area([]), {"$.house.areas[0].corners": "too-few-corners"}),
        (area([[0, 0], [1, 0], [1, 0], [0, 0]]), {"$.house.areas[0].corners": "too-few-corners"}),
        (area([[0, 0], [1, 1], [2, 2]]), {"$.house.areas[0].corners": "no-area"}),
        (area([[0, 0], [2, 2], [2, 0], [0, 1]]), {"$.house.areas[0].corners": "crosses-itself"}),
        (area([[0, 0], [1, 0], [1]]), {"$.house.areas[0].corners[2]": "wrong-count"}),
        (area([[0, 0], [1, 0], [1, 1001]]), {"$.house.areas[0].corners[2][1]": "out-of-range"}),
        (area([[0, 0], [1, 0], [1, "2"]]), {"$.house.areas[0].corners[2][1]": "wrong-type"}),
        (area([[n, n * n] for n in range(41)]), {"$.house.areas[0].corners": "wrong-count"}),
        (in_the_way(corners=[[0, 0], [1, 1]]), {f"{BLOCKED}.corners": "too-few-corners"}),
        (in_the_way(pan_from_deg=1), {f"{BLOCKED}.pan_to_deg": "goes-with"}),
        (in_the_way(pan_from_deg=1, pan_to_deg=361), {f"{BLOCKED}.pan_to_deg": "out-of-range"}),
        (in_the_way(place="2"), {f"{BLOCKED}.place": "unknown-label"}),
        (in_the_way(noted_on="28 Feb"), {f"{BLOCKED}.noted_on": "not-a-day"}),
        (in_the_way(only_for="x"), {f"{BLOCKED}.only_for": "unknown-key"}),
        (a_house(booth(pan_to_deg=1)), {"$.positions[0].pan_from_deg": "goes-with"}),
        (a_house(booth(seats_lost=1.5)), {"$.positions[0].seats_lost": "wrong-type"}),
        (a_house(booth(glass_loss_pct=60.5)), {"$.positions[0].glass_loss_pct": "out-of-range"}),
        (
            a_house(booth(farthest_downstage_m=2, farthest_upstage_m=2)),
            {"$.positions[0].farthest_downstage_m": "downstage-past-upstage"},
        ),
        (a_house(units=[{"tag": "FS-01", "angle_percent": 20}]), {"$.units[0].angle_percent": "not-a-choice"}),
        (a_house(units=[{"tag": "FS-01", "sized_by": "hand"}]), {"$.units[0].sized_by": "not-a-choice"}),
    ],
)
def test_what_can_not_be_is_refused_at_its_path(document: Document, problems: dict[str, str]) -> None:
    assert found(document) == problems


def test_an_unknown_circuit_is_named_with_those_that_are_known() -> None:
    path = "$.positions[0].slots[0].circuit"
    known = a_house(booth(slot("1", circuit="LP-3")), circuits=[{"name": "LP-1"}, {"name": "LP-\u202e2"}])
    assert sentence(known, path) == (
        '"LP-3" is not the name of a circuit in circuits ("LP-1", "LP-\\u202e2"); add it, or correct it'
    )
    assert "(none)" in sentence(a_house(booth(slot("1", circuit="LP-3"))), path)


def test_a_house_of_too_many_outlines_is_refused_before_each_is_looked_at() -> None:
    """The most that are read take a star of 40 corners each within the time of the hostile files."""
    blocked = [{"name": "beam", "corners": [[0, 0]]}] * (MOST_OUTLINES + 1)
    assert found(a_house(booth(blocked=blocked))) == {"$": "too-many-outlines"}


@pytest.mark.django_db
def test_a_view_that_only_the_stored_half_makes_impossible_is_refused_at_the_position() -> None:
    from venue.house_file.problems import HouseFileRefused

    stored(lit())
    with pytest.raises(HouseFileRefused) as refused:
        updated(a_house(booth(farthest_upstage_m=-7.0), units=[]))
    assert [problem.where for problem in refused.value.problems] == ["$.positions[0]"]
    assert Position.objects.get().farthest_upstage_m == 9.0


# Common practice, no source: the ranges of `venue.core.ranges`.
@pytest.mark.parametrize(
    ("part", "key", "usual"),
    [
        ("slot", "throw_m", THROW_M),
        ("slot", "z_m", HEIGHT_M),
        ("unit", "narrow_deg", BEAM_DEG),
        ("unit", "wide_deg", BEAM_DEG),
        ("unit", "narrow_cd", CANDELA),
        ("unit", "wide_cd", CANDELA),
        ("unit", "cct_k", COLOR_K),
        ("unit", "watts", WATTS),
        ("unit", "input_w", WATTS),
        ("unit", "weight_kg", WEIGHT_KG),
        ("circuit", "volts", VOLTS),
    ],
)
def test_the_format_has_the_ranges_that_the_rest_of_the_house_has(part: str, key: str, usual: Range) -> None:
    schema = resolved(house_schema()["$defs"][part]["properties"][key])
    assert (schema["minimum"], schema["maximum"]) == usual.hard
