"""Loading a book onto the house that has one: matched thing by thing, nothing ends unsaid, nothing is lost."""

import copy
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest

from tests.factories import ACTOR, NOON
from tests.venue.house_documents import a_house, booth, slot
from tests.venue.test_house_file_book import EVERYTHING, PUBLISHED, house_with
from tests.venue.test_house_file_storing import dumped, rows, stored
from tests.venue.test_house_file_updating import refused, updated
from venue.actions import end_unit, strike_reading
from venue.house_file.differences import MOST_NAMED
from venue.house_file.problems import HouseExists
from venue.models import (
    CareItem,
    CarePlan,
    Event,
    Fault,
    Fitting,
    HoursAdded,
    Lamp,
    LampDecision,
    LampKind,
    LampTally,
    LightReading,
    LogEntry,
    Meter,
    Placement,
    Reading,
    Unit,
    UnitTally,
)

pytestmark = pytest.mark.django_db
BOOK = (LampKind, Lamp, Meter, Reading, Fitting, LampDecision, HoursAdded, Fault, LogEntry, CarePlan, LightReading)
LATER = "2026-02-10T23:00:00-06:00"


def identities() -> dict[str, set[Any]]:
    """Which row is which, whatever it says now."""
    return {model.__name__: set(model._base_manager.values_list("pk", "ref")) for model in BOOK}


def changed(**sections: Any) -> dict[str, Any]:
    """The published book with other sections, its house and units as they were."""
    return house_with(**copy.deepcopy({**PUBLISHED, **sections}))


def with_last(section: str, **values: Any) -> dict[str, Any]:
    """The published book whose last entry of the section says something else."""
    *others, last = copy.deepcopy(PUBLISHED[section])
    return changed(**{section: [*others, {**last, **values}]})


# -- nothing new ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("sections", [PUBLISHED, EVERYTHING], ids=["published", "every key"])
def test_a_book_that_says_the_same_changes_nothing_and_adds_no_history(sections: dict[str, Any]) -> None:
    house = stored(house_with(**sections))
    before, who, text = rows(), identities(), dumped(house)
    updated(house_with(**sections))
    assert (rows(), identities(), dumped(house)) == (before, who, text)


def test_what_a_file_leaves_out_stays() -> None:
    house = stored(house_with(**EVERYTHING))
    text = dumped(house)
    units = [{"tag": "FS-01"}, {"tag": "FS-02", "ended": "2026-02-20T12:00:00Z", "ended_reason": "sold"}]
    updated(a_house(booth(slot("1", -2.0), slot("2", 2.0)), units=units))
    assert dumped(house) == text
    fault, entry = EVERYTHING["faults"][0], EVERYTHING["log"][0]
    least = {"unit": "FS-01", "part": "douser", "opened": fault["opened"], "means": "limited", "limit": fault["limit"]}
    updated(house_with(units=units, faults=[least], log=[{"unit": "fs-01", "at": entry["at"], "kind": "relamp"}]))
    assert dumped(house) == text


def test_a_house_on_file_is_refused_with_the_differences_of_its_book() -> None:
    stored(house_with(**PUBLISHED))
    document = with_last("readings", strikes=140)
    document["lamps"][0]["fitted"][0] |= {"until": LATER, "meter_out_h": 850.0}
    document["faults"] = [{"unit": "FS-02", "means": "out", "opened": "2026-02-01T00:00:00Z"}]
    with pytest.raises(HouseExists) as exists:
        stored(document)
    said = [(each.where, each.sentence) for each in exists.value.differences]
    assert said[:3] == [
        ("$.lamps[0].fitted[0].until", 'only in the file: "2026-02-10T23:00:00-06:00"'),
        ("$.lamps[0].fitted[0].meter_out_h", "only in the file: 850.0"),
        ("$.readings[0].strikes", "stored 131, file 140"),
    ]
    paths = [where for where, _sentence in said[3:]]
    assert paths == ["$.readings[2]", "$.faults[0]", "$.faults"]


def test_of_many_new_readings_the_first_are_named_and_the_rest_counted() -> None:
    stored(house_with(**PUBLISHED))
    days = range(MOST_NAMED + 30)
    more = [{"unit": "FS-01", "at": (NOON + timedelta(days=day)).isoformat(), "meter_h": 900 + day} for day in days]
    with pytest.raises(HouseExists) as exists:
        stored(changed(readings=[*PUBLISHED["readings"], *more]))
    assert len(exists.value.differences) == MOST_NAMED + 1
    assert [each.file for each in exists.value.differences if isinstance(each.file, str)] == ["and 30 more"]


# -- new and changed things ----------------------------------------------------------------------------


def test_new_things_stand_beside_the_old_ones_and_the_tallies_follow() -> None:
    stored(house_with(**PUBLISHED))
    before = identities()
    updated(changed(readings=[{"unit": "FS-01", "at": LATER, "meter_h": 860.0, "strikes": 140}]))
    after = identities()
    assert {name: after[name] >= before[name] for name in before} == dict.fromkeys(before, True)
    assert Reading.objects.count() == 3
    assert (LampTally.objects.get().hours, UnitTally.objects.get(unit__tag="FS-01").meter_h) == (48, 860)


def test_changed_things_keep_their_identity_and_the_history_has_old_and_new() -> None:
    stored(house_with(**PUBLISHED))
    before = identities()
    document = with_last("lamp_kinds", rated_h=1500, spares=3)
    document["faults"][0] |= {"limit": "frames 2, 4 out"}
    document["log"][0] |= {"by": "Hollis"}
    document["meters"][0] |= {"counts": "power"}
    updated(document)
    assert identities() == before
    assert (LampKind.objects.get().spares, LampTally.objects.get().left_h) == (3, Decimal("1465.5"))
    assert (Fault.objects.get().frames_out, LogEntry.objects.get().by, Meter.objects.get().counts) == (
        "2, 4", "Hollis", "power",
    )  # fmt: skip
    line = Event.objects.get(verb="book.corrected", subject_kind="lampkind")
    assert line.data["changed"] == {"rated_h": [2000.0, 1500.0], "spares": [0, 3]}


def test_what_a_reading_left_open_is_filled_in() -> None:
    stored(changed(readings=[{"unit": "FS-01", "at": LATER, "meter_h": 860.0}]))
    before = Reading.objects.get(hours=860)
    updated(changed(readings=[{"unit": "FS-01", "at": LATER, "meter_h": 860.0, "strikes": 140}]))
    after = Reading.objects.get(hours=860)
    assert (after.pk, after.strikes, after.is_struck) == (before.pk, 140, False)


def test_another_reading_of_the_same_time_strikes_the_old_one_out_and_stands_beside_it() -> None:
    stored(house_with(**PUBLISHED))
    updated(with_last("readings", meter_h=864.5))
    old, new = Reading.objects.filter(at=datetime(2026, 2, 2, 5, 10, tzinfo=UTC)).order_by("pk")
    assert (old.hours, old.struck_by, old.struck_reason) == (
        Decimal("846.5"), ACTOR.name, "a house file says otherwise",
    )  # fmt: skip
    assert (new.hours, new.is_struck, LampTally.objects.get().hours) == (Decimal("864.5"), False, Decimal("52.5"))


def test_a_reading_that_was_struck_out_in_the_house_is_not_brought_back() -> None:
    stored(house_with(**PUBLISHED))
    strike_reading(actor=ACTOR, reading=Reading.objects.get(strikes=131), at=NOON, reason="another unit's")
    before = rows()
    updated(house_with(**PUBLISHED))
    assert rows() == before
    assert Reading.objects.get(strikes=131).struck_reason == "another unit's"


def test_a_reading_that_the_file_strikes_out_is_struck_out() -> None:
    stored(house_with(**PUBLISHED))
    updated(with_last("readings", struck="2026-03-01T00:00:00Z", struck_by="Ike", struck_reason="a slip"))
    reading = Reading.objects.get(strikes=131)
    assert (reading.struck_by, reading.struck_reason, LampTally.objects.get().hours) == ("Ike", "a slip", 0)


def test_a_lamp_that_the_file_takes_out_makes_room_for_the_next_one() -> None:
    stored(house_with(**PUBLISHED))
    document = changed()
    first = copy.deepcopy(PUBLISHED["lamps"][0])
    first["fitted"][0] |= {"until": LATER, "meter_out_h": 850.0, "fate": "spent"}
    first |= {"ended": LATER, "ended_reason": "spent"}
    second = {
        "serial": "L-0118",
        "kind": "2 kW short-arc",
        "fitted": [{"unit": "FS-01", "from": LATER, "meter_h": 850}],
    }
    document["lamps"] = [second, first]
    updated(document)
    assert list(Fitting.objects.values_list("lamp__serial", "fate")) == [("L-0117", "spent"), ("L-0118", "")]
    old, new = Fitting.objects.order_by("from_at")
    assert old.until_reading == new.from_reading
    assert dict(LampTally.objects.values_list("lamp__serial", "hours")) == {"L-0117": 38, "L-0118": 0}


def test_a_meter_that_the_file_adds_ends_the_one_before_and_takes_over_what_was_read_since() -> None:
    stored(house_with(**PUBLISHED))
    old = Meter.objects.get()
    new = {"unit": "FS-01", "from": "2026-01-20T00:00:00Z", "starts_h": 830.0}
    updated(changed(meters=[*PUBLISHED["meters"], new]))
    old.refresh_from_db()
    assert old.ends_at == datetime(2026, 1, 20, tzinfo=UTC)
    assert Reading.objects.get(strikes=131).meter.starts_h == 830
    assert LampTally.objects.get().hours == Decimal("16.5")


def test_a_fault_that_the_file_closes_is_closed_by_its_entry() -> None:
    stored(house_with(**PUBLISHED))
    document = with_last("faults", closed=LATER, closed_by="Ike", closed_by_entry={"at": LATER, "kind": "repair"})
    document["log"] = [*document["log"], {"unit": "FS-01", "at": LATER, "kind": "repair", "text": "new frame"}]
    updated(document)
    fault = Fault.objects.get()
    assert (fault.closed_by, fault.closing.text) == ("Ike", "new frame")  # type: ignore[union-attr]


def test_a_fault_that_is_limited_no_more_has_no_limit() -> None:
    stored(house_with(**PUBLISHED))
    fault = {**PUBLISHED["faults"][0], "means": "usable", "limit": "frame 4 sticks"}
    updated(changed(faults=[fault]))
    row = Fault.objects.get()
    assert (row.means, row.limit_kind, row.frames_out, row.limit) == ("usable", "", "", "frame 4 sticks")


def test_what_was_done_since_moves_the_item_that_stands() -> None:
    plan = {"what": "Clean", "covers": "all", "every_days": 30}
    stored(house_with(care_plans=[plan]))
    done = [{"unit": "FS-01", "at": LATER}]
    updated(house_with(care_plans=[{**plan, "done": done}]))
    item = CareItem.objects.standing().get(unit__tag="FS-01")
    assert (str(item.due_on), CareItem.objects.count()) == ("2026-03-12", 2)
    updated(house_with(care_plans=[{**plan, "done": [{"unit": "FS-01", "at": "2026-02-12T00:00:00Z"}]}]))
    assert CareItem.objects.count() == 2
    assert str(CareItem.objects.standing().get(unit__tag="FS-01").due_on) == "2026-03-13"


def test_two_things_of_one_unit_and_instant_stay_two() -> None:
    entry = {"unit": "FS-01", "at": LATER, "kind": "repair", "text": "pin"}
    entries = [entry, {**entry, "text": "belt"}, {**entry, "kind": "clean"}]
    stored(house_with(log=entries))
    before = identities()
    updated(house_with(log=[entries[2], {**entries[1], "by": "Ike"}, entries[0]]))
    assert identities() == before
    assert list(LogEntry.objects.order_by("pk").values_list("text", "by")) == [
        ("pin", ""),
        ("belt", "Ike"),
        ("pin", ""),
    ]


def test_a_unit_that_the_file_ends_is_ended_once_it_stands_nowhere() -> None:
    stay = {"unit": "FS-01", "position": "Rear booth", "label": "1", "from": "2025-09-01T00:00:00Z"}
    ended = {"tag": "FS-01", "ended": LATER, "ended_reason": "sold"}
    stored(house_with(placements=[stay]))
    assert list(refused(house_with(units=[ended]))) == ["$.units[0].ended"]
    updated(house_with(units=[ended], placements=[{**stay, "until": LATER}]))
    assert Unit.objects.get(tag="FS-01").ended_reason == "sold"


def test_a_stay_elsewhere_is_matched_and_ends_when_the_file_says_so() -> None:
    away = {"unit": "FS-01", "elsewhere": "lent", "from": "2025-09-01T00:00:00Z"}
    stored(house_with(placements=[away]))
    before = Placement.objects.get().pk
    updated(house_with(placements=[{**away, "elsewhere_words": "Lantern Street", "until": "2026-01-01T00:00:00Z"}]))
    stay = Placement.objects.get()
    assert (stay.pk, stay.elsewhere_words, stay.ends_at) == (before, "Lantern Street", datetime(2026, 1, 1, tzinfo=UTC))


# -- refused, and nothing stored -----------------------------------------------------------------------

REFUSED: dict[str, tuple[dict[str, Any], dict[str, str]]] = {
    "backward against what is stored": (
        changed(readings=[{"unit": "FS-01", "at": LATER, "meter_h": 840.0}]),
        {"$.readings[0].meter_h": "the meter would go back from 846.50 h"},
    ),
    "a late one above what is stored": (
        changed(readings=[{"unit": "FS-01", "at": "2026-01-20T00:00:00Z", "meter_h": 900.0}]),
        {"$.readings[0].meter_h": "the meter would go back from 900.00 h"},
    ),
    "a second lamp in a unit that has one": (
        changed(lamps=[{"serial": "L-2", "kind": "2 kW short-arc", "fitted": [{"unit": "FS-01", "from": LATER}]}]),
        {"$.lamps[0].fitted[0]": "the unit has another lamp then, by what is stored"},
    ),
    "a lamp that is in another unit": (
        changed(lamps=[{"serial": "L-0117", "kind": "2 kW short-arc", "fitted": [{"unit": "FS-02", "from": LATER}]}]),
        {"$.lamps[0].fitted[0]": "the lamp is in a unit already then, by what is stored"},
    ),
    "a reading before the stored meter": (
        changed(meters=[], readings=[{"unit": "FS-01", "at": "2025-08-01T00:00:00Z", "meter_h": 600.0}]),
        {"$.readings[0].at": "FS-01 has no meter then"},
    ),
    "other hours than a stored fitting's": (
        changed(lamps=[], readings=[{"unit": "FS-01", "at": "2026-01-10T10:00:00-06:00", "meter_h": 813.0}]),
        {"$.readings[0].meter_h": "lamp L-0117 was fitted or taken out then at 812.00 h"},
    ),
}


@pytest.mark.parametrize(("document", "problems"), REFUSED.values(), ids=REFUSED)
def test_the_rules_hold_for_the_file_and_what_is_stored_together(document: Any, problems: dict[str, str]) -> None:
    stored(house_with(**PUBLISHED))
    found = refused(document)
    assert list(found) == list(problems)
    assert all(found[path].startswith(said) for path, said in problems.items())


def test_what_has_ended_is_not_opened_again() -> None:
    first = copy.deepcopy(PUBLISHED["lamps"][0])
    first["fitted"][0] |= {"until": LATER}
    fault = {**PUBLISHED["faults"][0], "closed": LATER}
    stored(changed(lamps=[first], faults=[fault]))
    first["fitted"][0] |= {"until": None}
    found = refused(changed(lamps=[first], faults=[{**fault, "closed": None}]))
    assert set(found) == {"$.lamps[0].fitted[0].until", "$.faults[0].closed"}
    assert all(said.endswith("has ended already. Nothing was changed.") for said in found.values())


def test_a_unit_off_the_books_takes_no_more() -> None:
    stored(house_with(**PUBLISHED))
    end_unit(actor=ACTOR, unit=Unit.objects.get(tag="FS-02"), at=NOON, reason="sold")
    assert list(refused(house_with(**PUBLISHED))) == ["$.units[1].tag"]
