"""What can't be among lamps, hours, faults and care is refused by its path; what is odd is warned of."""

from typing import Any

import pytest

from tests.venue.book_strategies import PNG
from tests.venue.house_documents import a_house, found, read, sentence, warned
from tests.venue.test_house_file_book import PUBLISHED

KIND = {"lamp_kinds": [{"name": "a"}]}


def at(day: int, hour: int = 0) -> str:
    return f"2026-02-{day:02}T{hour:02}:00:00Z"


def reading(day: int, meter_h: float, **more: Any) -> dict[str, Any]:
    return {"unit": "FS-01", "at": at(day), "meter_h": meter_h, **more}


def meter(day: int, starts_h: float, **more: Any) -> dict[str, Any]:
    return {"unit": "FS-01", "from": at(day), "starts_h": starts_h, **more}


def lamp(serial: str, *fitted: dict[str, Any]) -> dict[str, Any]:
    return {"serial": serial, "kind": "a", "fitted": list(fitted)}


def fitted(day: int, until: int | None = None, unit: str = "FS-01", **more: Any) -> dict[str, Any]:
    ends = {} if until is None else {"until": at(until)}
    return {"unit": unit, "from": at(day), **ends, **more}


def lamps(*entries: dict[str, Any], **more: Any) -> dict[str, Any]:
    return a_house(**KIND, lamps=list(entries), **more)


def fault(**more: Any) -> dict[str, Any]:
    return a_house(faults=[{"unit": "FS-01", "means": "limited", "opened": at(3), **more}])


def log(**more: Any) -> dict[str, Any]:
    return a_house(log=[{"unit": "FS-01", "at": at(3), "kind": "clean", **more}])


def plan(**more: Any) -> dict[str, Any]:
    return a_house(care_plans=[{"what": "Clean", "covers": "all", "every_days": 30, **more}])


READINGS = {
    "backward": ([reading(1, 500), reading(3, 498)], {"$.readings[1].meter_h": "backward"}),
    "a late one backward": ([reading(1, 500), reading(5, 520), reading(3, 530)], {"$.readings[1].meter_h": "backward"}),
    "faster than the clock": ([reading(1, 500), reading(2, 524.2)], {"$.readings[1].meter_h": "faster-than-clock"}),
    "as fast as the clock": ([reading(1, 500), reading(2, 524)], {}),
    "strikes backward": (
        [reading(1, 500, strikes=9), reading(3, 505), reading(5, 510, strikes=8)],
        {"$.readings[2].meter_h": "strikes-backward"},
    ),
    "twice at one time": ([reading(1, 500), reading(1, 500)], {"$.readings[1]": "duplicate-reading"}),
    "struck out, anything goes": (
        [
            reading(1, 500),
            reading(3, 9, struck=at(4), struck_reason="x"),
            reading(3, 505),
            reading(3, 9, struck=at(4), struck_reason="y"),
        ],
        {},
    ),
}


@pytest.mark.parametrize(("readings", "problems"), READINGS.values(), ids=READINGS)
def test_a_meter_never_runs_backward_nor_faster_than_the_clock(readings: Any, problems: dict[str, str]) -> None:
    document = a_house(readings=readings)
    if problems:
        assert found(document) == problems
    else:
        assert read(document).book.readings


METERS: dict[str, tuple[dict[str, Any], dict[str, str]]] = {
    "a reading below the start": (
        {"meters": [meter(1, 500)], "readings": [reading(2, 499)]},
        {"$.readings[0].meter_h": "backward"},
    ),
    "a reading before any meter": (
        {"meters": [meter(3, 500)], "readings": [reading(2, 500)]},
        {"$.readings[0].at": "no-meter-then"},
    ),
    "a reading in a gap": (
        {"meters": [meter(1, 500, until=at(3)), meter(5, 0)], "readings": [reading(4, 0)]},
        {"$.readings[0].at": "no-meter-then"},
    ),
    "a replaced meter may fall": (
        {"meters": [meter(1, 500), meter(3, 0)], "readings": [reading(2, 510), reading(4, 5)]},
        {},
    ),
    "a meter that overlaps the next": (
        {"meters": [meter(1, 500, until=at(9)), meter(5, 0)]},
        {"$.meters[1]": "meter-overlaps"},
    ),
    "a meter that ends before it begins": (
        {"meters": [meter(5, 0, until=at(4))]},
        {"$.meters[0].until": "until-before-from"},
    ),
    "two meters at once": ({"meters": [meter(1, 500), meter(1, 0)]}, {"$.meters[1]": "meter-overlaps"}),
}


@pytest.mark.parametrize(("sections", "problems"), METERS.values(), ids=METERS)
def test_a_unit_has_one_meter_at_a_time_and_is_read_on_it(sections: Any, problems: dict[str, str]) -> None:
    document = a_house(**sections)
    if problems:
        assert found(document) == problems
    else:
        assert read(document).book.meters


LAMPS: dict[str, tuple[dict[str, Any], dict[str, str]]] = {
    "in two units at once": (
        lamps(lamp("L-1", fitted(1), fitted(3, unit="FS-02"))),
        {"$.lamps[0].fitted[1]": "lamp-elsewhere"},
    ),
    "two in one unit": (
        lamps(lamp("L-1", fitted(1, 5)), lamp("L-2", fitted(4))),
        {"$.lamps[1].fitted[0]": "lamp-in-the-way"},
    ),
    "one after another": (lamps(lamp("L-1", fitted(1, 5)), lamp("L-2", fitted(5))), {}),
    "out before in": (lamps(lamp("L-1", fitted(5, 5))), {"$.lamps[0].fitted[0].until": "until-before-from"}),
    "hours that the meter can't show": (
        lamps(lamp("L-1", fitted(3, meter_h=400.0)), readings=[reading(1, 500)]),
        {"$.lamps[0].fitted[0].meter_h": "backward"},
    ),
    "hours that the readings tell otherwise": (
        lamps(lamp("L-1", fitted(3, meter_h=505.0)), readings=[reading(1, 500), reading(3, 504)]),
        {"$.lamps[0].fitted[0].meter_h": "reading-differs"},
    ),
    "hours without a meter then": (
        lamps(lamp("L-1", fitted(1, meter_h=5.0)), meters=[meter(3, 0)]),
        {"$.lamps[0].fitted[0].meter_h": "no-meter-then"},
    ),
    "the same serial twice": (lamps(lamp("L-1"), lamp("l-1")), {"$.lamps[1].serial": "duplicate-lamp"}),
    "a kind that is not there": (
        lamps({"serial": "L-1", "kind": "b"}),
        {"$.lamps[0].kind": "unknown-lamp-kind"},
    ),
    "a unit that is not there": (
        lamps(lamp("L-1", fitted(1, unit="FS-09"))),
        {"$.lamps[0].fitted[0].unit": "unknown-unit"},
    ),
    "a kind twice": (
        a_house(lamp_kinds=[{"name": "a"}, {"name": "A"}]),
        {"$.lamp_kinds[1].name": "duplicate-lamp-kind"},
    ),
    "a warning after the stop": (
        a_house(lamp_kinds=[{"name": "a", "warn_at": 0.9, "stop_at": 0.8}]),
        {"$.lamp_kinds[0].warn_at": "warns-after-stop"},
    ),
    "an end without a reason": (
        lamps({"serial": "L-1", "kind": "a", "ended": at(1)}),
        {"$.lamps[0].ended_reason": "goes-with"},
    ),
}


@pytest.mark.parametrize(("document", "problems"), LAMPS.values(), ids=LAMPS)
def test_a_lamp_is_in_one_unit_at_a_time_and_a_unit_has_one_lamp(document: Any, problems: dict[str, str]) -> None:
    if problems:
        assert found(document) == problems
    else:
        assert read(document).book.fittings


CARE: dict[str, tuple[dict[str, Any], dict[str, str]]] = {
    "limited, nobody says how": (fault(), {"$.faults[0].limit": "limited-says-how"}),
    "frames, nobody says which": (fault(limit_kind="frames"), {"$.faults[0].frames_out": "frames-out-which"}),
    "frames of another limit": (
        fault(limit_kind="iris", frames_out="2"),
        {"$.faults[0].frames_out": "frames-out-of-frames"},
    ),
    "a limit of what is out": (
        fault(means="out", limit_kind="iris"),
        {"$.faults[0].limit_kind": "limit-without-limited"},
    ),
    "a danger that is usable": (fault(means="usable", danger="glass"), {"$.faults[0].means": "danger-is-out"}),
    "a danger closed by nobody": (
        fault(means="out", danger="glass", closed=at(4)),
        {"$.faults[0].closed_by": "danger-closed-by-name"},
    ),
    "closed before opened": (fault(means="out", closed=at(2)), {"$.faults[0].closed": "closed-before-opened"}),
    "closed by somebody, never": (fault(means="out", closed_by="Ike"), {"$.faults[0].closed": "closed-says-when"}),
    "closed by an entry that is not there": (
        fault(means="out", closed=at(4), closed_by_entry={"at": at(4), "kind": "repair"}),
        {"$.faults[0].closed_by_entry": "unknown-entry"},
    ),
    "a means that is none": (fault(means="broken"), {"$.faults[0].means": "not-a-choice"}),
    "about nothing": (a_house(log=[{"at": at(1)}]), {"$.log[0].unit": "unit-or-accessory"}),
    "about two things": (log(accessory="sight"), {"$.log[0].unit": "unit-or-accessory"}),
    "open, and no relamp": (log(open=True), {"$.log[0].open": "only-of-a-relamp"}),
    "too long with its kind's word": (
        log(kind="weighed", text="x" * 1995),
        {"$.log[0].text": "text-too-long-with-kind"},
    ),
    "of a lamp that is not there": (
        log(fitting={"lamp": "L-1", "from": at(1)}),
        {"$.log[0].fitting.lamp": "unknown-lamp"},
    ),
    "of a fitting that is not there": (
        log(fitting={"lamp": "L-1", "from": at(1)}) | {**KIND, "lamps": [lamp("L-1", fitted(2))]},
        {"$.log[0].fitting.from": "unknown-fitting"},
    ),
    "an attachment of another kind": (
        log(attachments=[{"name": "x.png", "content": "aGVsbG8="}]),
        {"$.log[0].attachments[0].content": "not-attachable"},
    ),
    "an attachment that is no base64": (
        log(attachments=[{"name": "x.png", "content": PNG + "*"}]),
        {"$.log[0].attachments[0].content": "wrong-value"},
    ),
    "a plan for no unit": (plan(covers="unit"), {"$.care_plans[0].unit": "covers-needs"}),
    "a plan for all of one unit": (plan(unit="FS-01"), {"$.care_plans[0].unit": "covers-without"}),
    "a plan of no hours and days": (
        a_house(care_plans=[{"what": "x", "covers": "all"}]),
        {"$.care_plans[0].every_days": "hours-or-days"},
    ),
    "hours of an accessory": (
        plan(covers="accessory", accessory="sight", every_h=9),
        {"$.care_plans[0].every_h": "hours-are-for-units"},
    ),
    "done for no unit": (plan(done=[{"at": at(1)}]), {"$.care_plans[0].done[0].unit": "done-for-what"}),
    "last done twice": (
        plan(done=[{"unit": "FS-01", "at": at(1)}, {"unit": "fs-01", "at": at(2)}]),
        {"$.care_plans[0].done[1]": "there-already"},
    ),
    "a stay nowhere": (
        a_house(placements=[{"unit": "FS-01", "from": at(1)}]),
        {"$.placements[0].position": "where-is-it", "$.placements[0].label": "where-is-it"},
    ),
    "a stay at a place and elsewhere": (
        a_house(
            placements=[{"unit": "FS-01", "position": "Rear booth", "label": "1", "elsewhere": "shop", "from": at(1)}]
        ),
        {"$.placements[0].elsewhere": "place-or-elsewhere"},
    ),
    "a unit in the house and in the shop": (
        a_house(
            placements=[
                {"unit": "FS-01", "position": "Rear booth", "label": "1", "from": at(1)},
                {"unit": "FS-01", "elsewhere": "shop", "from": at(3)},
            ]
        ),
        {"$.placements[1]": "unit-overlaps"},
    ),
    "light without its distance": (
        a_house(light_readings=[{"unit": "FS-01", "at": at(1), "lux": 9, "setting": "x"}]),
        {"$.light_readings[0].distance_m": "missing"},
    ),
    "hours added of nothing": (
        a_house(hours_added=[{"unit": "FS-01", "at": at(1), "hours": 0}]),
        {"$.hours_added[0].hours": "out-of-range"},
    ),
    "struck out without a reason": (
        a_house(readings=[reading(1, 5, struck=at(2))]),
        {"$.readings[0].struck_reason": "goes-with"},
    ),
}


@pytest.mark.parametrize(("document", "problems"), CARE.values(), ids=CARE)
def test_what_says_too_little_or_two_things_at_once_is_refused_at_its_path(document: Any, problems: Any) -> None:
    assert found(document) == problems


def test_every_problem_of_a_file_is_named_at_once() -> None:
    readings = [reading(1, 500), reading(3, 498), {"unit": "FS-09", "at": at(4), "meter_h": -1}]
    document = fault(limit_kind="frames") | {"readings": readings, "lamp_kinds": [{"name": "a", "stop_at": 3}]}
    assert found(document) == {
        "$.lamp_kinds[0].stop_at": "out-of-range",
        "$.readings[2].meter_h": "out-of-range",
        "$.readings[2].unit": "unknown-unit",
        "$.faults[0].frames_out": "frames-out-which",
        "$.readings[1].meter_h": "backward",
    }


def test_a_refusal_names_both_readings_in_the_houses_time_and_what_to_do() -> None:
    document = a_house(readings=[reading(1, 512), reading(3, 498)])
    assert sentence(document, "$.readings[1].meter_h") == (
        "the meter would go back from 512.00 h at 2026-01-31T18:00:00-06:00 to 498.00 h at 2026-02-02T18:00:00-06:00; "
        "correct one of the two, or add the meter that replaced it to meters"
    )


def test_what_is_odd_is_warned_of_and_read() -> None:
    document = a_house(readings=[reading(1, 500, strikes=1), reading(2, 515, strikes=2), reading(4, 515.2, strikes=5)])
    assert warned(document) == {"$.readings[1].meter_h": "over-14", "$.readings[2].meter_h": "few-hours-a-strike"}


def test_an_unknown_key_is_refused_in_every_section() -> None:
    for section, entries in PUBLISHED.items():
        document = a_house(**PUBLISHED) | {section: [{**entries[0], "colour": 1}]}
        assert found(document)[f"$.{section}[0].colour"] == "unknown-key"


def test_a_kind_is_named_however_it_is_spelled() -> None:
    document = a_house(lamp_kinds=[{"name": "2 kW  Short-arc"}], lamps=[{"serial": "L-1", "kind": "2 kw short-arc"}])
    assert read(document).book.lamps[0].kind == "2 kw short-arc"
