"""Lamps, hours, faults and care in a house file: stored as they are told, written again byte for byte."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings

from tests.factories import ACTOR, NOON
from tests.venue.book_strategies import PNG, book_documents
from tests.venue.house_documents import a_house, as_bytes, booth, read, slot
from tests.venue.test_house_file_storing import (
    QUERIES_TO_GATHER,
    assert_written_again_byte_for_byte,
    dumped,
    stored,
    taken_back,
)
from venue.house_file.gathering import gathered
from venue.house_file.problems import HouseExists
from venue.house_file.reading import read_house_file
from venue.house_file.writing import house_text
from venue.models import (
    Attachment,
    CareItem,
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

DAY = timedelta(days=1)

FITTED = {"unit": "FS-01", "from": "2026-01-10T10:00:00-06:00", "meter_h": 812.0}
PUBLISHED: dict[str, Any] = {
    "lamp_kinds": [{"name": "2 kW short-arc", "source": "short-arc", "rated_h": 2000, "warn_at": 0.8, "stop_at": 1.0}],
    "lamps": [{"serial": "L-0117", "kind": "2 kW short-arc", "fitted": [FITTED]}],
    "meters": [{"unit": "FS-01", "counts": "lamp", "from": "2025-09-01T00:00:00-05:00", "starts_h": 640.0}],
    "readings": [{"unit": "FS-01", "at": "2026-02-01T23:10:00-06:00", "meter_h": 846.5, "strikes": 131}],
    "faults": [
        {"unit": "FS-01", "part": "frame 4", "means": "limited", "limit": "frame 4 out",
         "opened": "2026-01-20T18:00:00-06:00", "closed": None}
    ],
    "log": [{"unit": "FS-01", "at": "2026-01-10T10:00:00-06:00", "kind": "relamp", "by": "Ike", "text": "at 812 h"}],
}  # fmt: skip
"""Every section as the format was published, with no key of ours."""
EVERYTHING: dict[str, Any] = {
    "house": {"burn_before_min": 45, "usual_event_min": 150, "use_window_days": 14},
    "units": [
        {"tag": "FS-01", "source": "short-arc", "hired_from": "Lantern Street", "back_on": "2026-06-01"},
        {"tag": "FS-02", "ended": "2026-02-20T12:00:00Z", "ended_reason": "sold"},
    ],
    "lamp_kinds": [
        {"name": "2 kW short-arc", "source": "short-arc", "rated_h": 2000, "warn_at": 0.75, "stop_at": 0.9,
         "warm_up_min": 3, "run_down_min": 12.5, "restrike_min": 10, "opening_min": 15, "least_burn_min": 5,
         "spares": 2, "on_order": 1, "lead_days": 21, "keep_at_least": 1},
        {"name": "carbon", "longest_burn_min": 30, "ended": "2026-01-01T00:00:00Z", "ended_reason": "no more arcs"},
    ],
    "lamps": [
        {"serial": "L-0099", "kind": "2 kW short-arc",
         "fitted": [{"unit": "FS-02", "from": "2025-09-01T00:00:00Z", "until": "2025-10-01T00:00:00Z"}]},
        {"serial": "L-0117", "kind": "2 kW short-arc", "came_with_h": 12.5, "came_with_strikes": 4,
         "fitted": [
             {**FITTED, "until": "2026-02-01T10:00:00-06:00", "meter_out_h": 846.5, "reason": "old one dim",
              "out_reason": "flickers", "fate": "spent"}],
         "decisions": [
             {"at": "2026-01-30T12:00:00Z", "by": "Hollis Varga", "makers_source": "manual, page 12: 2,200 h",
              "reason": "last week of the run", "until_h": 2100}],
         "ended": "2026-02-01T16:00:00Z", "ended_reason": "spent"},
        {"serial": "L-0118", "kind": "2 kW short-arc",
         "fitted": [{"unit": "FS-01", "from": "2026-02-01T10:00:00-06:00", "meter_h": 0.0}]},
    ],
    "meters": [
        {"unit": "FS-01", "counts": "lamp", "from": "2025-09-01T00:00:00-05:00", "starts_h": 640.0,
         "until": "2026-02-01T10:00:00-06:00"},
        {"unit": "FS-01", "counts": "power", "from": "2026-02-01T10:00:00-06:00", "note": "the old one stuck"},
    ],
    "readings": [
        {"unit": "FS-01", "at": "2026-01-10T10:00:00-06:00", "meter_h": 812.0, "strikes": 101, "cause": "booth",
         "entered": "2026-01-10T16:05:00.250Z", "entered_by": "Ike Thornapple"},
        {"unit": "FS-01", "at": "2026-01-12T10:00:00-06:00", "meter_h": 918.0, "cause": "form",
         "struck": "2026-01-13T00:00:00Z", "struck_by": "Ike Thornapple", "struck_reason": "digits exchanged"},
        {"unit": "FS-01", "at": "2026-02-01T10:00:00-06:00", "meter_h": 846.5, "cause": "meter", "closes_meter": True},
        {"unit": "FS-01", "at": "2026-02-01T10:00:00-06:00", "meter_h": 0.0, "cause": "fitting"},
    ],
    "hours_added": [
        {"unit": "FS-02", "at": "2025-09-20T00:00:00Z", "hours": 3.25, "strikes": 2, "why": "show times"},
        {"unit": "FS-02", "at": "2025-09-21T00:00:00Z", "hours": 30, "struck": "2025-09-22T00:00:00Z",
         "struck_reason": "a slip"},
    ],
    "placements": [
        {"unit": "FS-01", "position": "Rear booth", "label": "1", "from": "2025-09-01T00:00:00Z",
         "until": "2026-02-10T00:00:00Z"},
        {"unit": "FS-01", "elsewhere": "lent", "elsewhere_words": "Lantern Street", "from": "2026-02-10T00:00:00Z",
         "until": "2026-02-20T00:00:00Z"},
        {"unit": "FS-01", "elsewhere": "shop", "from": "2026-02-20T00:00:00Z"},
    ],
    "faults": [
        {"unit": "FS-01", "part": "douser", "means": "limited", "limit": "leaks at the hinge", "limit_kind": "blackout",
         "opened": "2026-01-20T18:00:00-06:00", "opened_by": "Ike", "closed": "2026-01-22T18:00:00-06:00",
         "closed_by": "Hollis", "closed_by_entry": {"at": "2026-01-22T18:00:00-06:00", "kind": "repair", "nth": 2}},
        {"unit": "FS-01", "means": "out", "danger": "glass", "opened": "2026-01-21T18:00:00-06:00"},
    ],
    "log": [
        {"unit": "FS-01", "at": "2026-01-10T10:00:00-06:00", "kind": "relamp", "by": "Ike", "meter_h": 812.0,
         "fitting": {"lamp": "L-0117", "from": "2026-01-10T10:00:00-06:00"}, "open": True,
         "answers": {"isolated": True, "cooled": True, "protected": False}},
        {"unit": "FS-01", "at": "2026-01-22T18:00:00-06:00", "kind": "repair", "text": "loosened it",
         "struck": "2026-01-23T00:00:00Z", "struck_reason": "wrong unit"},
        {"unit": "FS-01", "at": "2026-01-22T18:00:00-06:00", "kind": "repair", "text": "bent it back", "parts": "pin",
         "before_lux": 0.0, "after_lux": 1450.5, "entered": "2026-01-23T01:00:00Z", "entered_by": "Ike",
         "attachments": [{"name": "hinge.png", "content": PNG, "added": "2026-01-23T01:02:00Z", "added_by": "Ike"}]},
        {"accessory": "sight", "at": "2026-01-24T18:00:00-06:00", "kind": "clean", "text": "new cells"},
        {"unit": "FS-01", "at": "2026-01-25T18:00:00-06:00", "kind": "light-reading", "after_lux": 1400.0},
    ],
    "care_plans": [
        {"what": "Cells of the sight", "covers": "accessory", "accessory": "sight", "every_days": 60, "done": [
            {"at": "2026-01-24T18:00:00-06:00", "entry": {"at": "2026-01-24T18:00:00-06:00", "kind": "clean"}}]},
        {"what": "Clean the lenses", "covers": "source", "source": "xenon", "every_h": 100, "every_days": 30,
         "log_kind": "clean", "done": [
             {"unit": "FS-01", "at": "2025-12-24T00:00:00Z", "unit_h": 150.0, "ended": "2026-01-22T00:00:00Z"},
             {"unit": "FS-01", "at": "2026-01-22T18:00:00-06:00", "unit_h": 190.5,
              "entry": {"at": "2026-01-22T18:00:00-06:00", "kind": "repair", "nth": 2}}]},
        {"what": "Grease", "covers": "all", "every_days": 90, "ended": "2026-01-01T00:00:00Z",
         "ended_reason": "the maker says none"},
        {"what": "Weigh", "covers": "unit", "unit": "FS-01", "every_days": 900},
    ],
    "light_readings": [
        {"unit": "FS-01", "at": "2026-01-25T18:00:00-06:00", "lux": 1400.0, "distance_m": 40.5,
         "distance_text": "132' 10\"", "setting": "iris open, flat",
         "entry": {"at": "2026-01-25T18:00:00-06:00", "kind": "light-reading"}},
        {"unit": "FS-01", "at": "2026-01-26T18:00:00-06:00", "lux": 14000.0, "distance_m": 40.5,
         "setting": "iris open, flat", "struck": "2026-01-27T00:00:00Z", "struck_reason": "a zero too many"},
    ],
}  # fmt: skip
"""Every section with every key."""


def house_with(**sections: Any) -> dict[str, Any]:
    return a_house(booth(slot("1", -2.0), slot("2", 2.0)), **sections)


# -- as it was published -------------------------------------------------------------------------------


def test_a_file_of_the_published_shape_is_stored_with_all_that_it_says() -> None:
    stored(house_with(**PUBLISHED))
    kind, lamp, meter = LampKind.objects.get(), Lamp.objects.get(), Meter.objects.get()
    assert (kind.name, kind.rated_h, kind.warn_h, kind.stop_h) == ("2 kW short-arc", 2000.0, 1600, 2000)
    assert (lamp.serial, lamp.kind, lamp.came_with_h) == ("L-0117", kind, 0)
    assert (meter.counts, meter.starts_h, meter.ends_at) == ("lamp", 640, None)
    fitting, last = Fitting.objects.get(), Reading.objects.latest("at")
    assert (fitting.from_reading.hours, fitting.from_reading.cause, fitting.until_at) == (812, "fitting", None)
    assert (last.hours, last.strikes, last.cause, last.entered_by) == (Decimal("846.5"), 131, "file", "")
    fault, entry = Fault.objects.get(), LogEntry.objects.get()
    assert (fault.limit_kind, fault.frames_out, fault.limit, fault.closed_at) == ("frames", "4", "", None)
    assert (entry.kind, entry.by, entry.text, entry.is_open) == ("relamp", "Ike", "at 812 h", False)


def test_tallies_are_derived_once_it_is_stored() -> None:
    stored(house_with(**PUBLISHED))
    lamp, unit = LampTally.objects.get(), UnitTally.objects.get(unit__tag="FS-01")
    assert (lamp.hours, lamp.left_h, lamp.unit.tag) == (Decimal("34.5"), Decimal("1965.5"), "FS-01")
    assert (unit.meter_h, unit.counted_to) == (Decimal("846.5"), datetime(2026, 2, 2, 5, 10, tzinfo=UTC))


def test_the_history_counts_what_was_taken_in() -> None:
    stored(house_with(**PUBLISHED))
    line = Event.objects.get(verb="house.book_loaded")
    assert line.data == {"listed": "faults 1, fittings 1, lamp_kinds 1, lamps 1, log 1, meters 1, readings 2"}


def test_without_meters_a_unit_has_one_that_counts_lamp_hours_from_its_first_reading() -> None:
    readings = [{"unit": "FS-01", "at": f"2026-02-0{day}T00:00:00Z", "meter_h": 90 + day} for day in (3, 1, 2)]
    stored(house_with(readings=readings))
    meter = Meter.objects.get()
    assert (meter.counts, meter.starts_h, meter.starts_at) == ("lamp", 91, datetime(2026, 2, 1, tzinfo=UTC))
    assert UnitTally.objects.get(unit__tag="FS-01").meter_h == 93


def test_without_meters_and_readings_it_begins_with_the_hours_of_the_first_fitting() -> None:
    stored(house_with(lamp_kinds=PUBLISHED["lamp_kinds"], lamps=PUBLISHED["lamps"]))
    meter, reading = Meter.objects.get(), Reading.objects.get()
    assert (meter.starts_h, meter.starts_at, reading.hours) == (812, reading.at, 812)


def test_a_meter_without_an_end_counts_until_its_units_next_one_begins() -> None:
    meters = [{"unit": "FS-01", "from": f"2026-0{month}-01T00:00:00Z", "starts_h": 5.0 * month} for month in (3, 1)]
    stored(house_with(meters=meters, readings=[{"unit": "FS-01", "at": "2026-02-27T00:00:00Z", "meter_h": 9}]))
    assert list(Meter.objects.values_list("starts_h", "ends_at")) == [
        (5, datetime(2026, 3, 1, tzinfo=UTC)), (15, None),
    ]  # fmt: skip
    assert Reading.objects.get().meter.starts_h == 5


@pytest.mark.parametrize(("meter_h", "starts_h"), [(900.0, 640), (0.0, 0)])
def test_a_reading_as_a_meter_is_replaced_is_of_the_meter_that_can_have_shown_it(meter_h: float, starts_h: int) -> None:
    meters = [{"unit": "FS-01", "from": "2025-09-01T00:00:00Z", "starts_h": 640.0}]
    meters.append({"unit": "FS-01", "from": "2026-02-01T00:00:00Z", "starts_h": 0.0})
    stored(house_with(meters=meters, readings=[{"unit": "FS-01", "at": "2026-02-01T00:00:00Z", "meter_h": meter_h}]))
    assert Reading.objects.get().meter.starts_h == starts_h


@pytest.mark.parametrize(
    ("told", "kept"),
    [
        ({"limit": "frame 4 out"}, ("frames", "4", "")),
        ({"limit": "Frames 2 and 4 are out"}, ("frames", "2, 4", "")),
        ({"limit": "frames 2-4 out"}, ("frames", "2, 3, 4", "")),
        ({"limit": "frame four out"}, ("other", "", "frame four out")),
        ({"limit": "NO full blackout"}, ("blackout", "", "")),
        ({"limit": "not on camera"}, ("camera", "", "")),
        ({"limit": "shutters taped"}, ("shutters", "", "")),
        ({"limit": "drifts"}, ("other", "", "drifts")),
        ({"limit": "2 and 4", "limit_kind": "frames", "frames_out": "4 and 2"}, ("frames", "2, 4", "2 and 4")),
    ],
)
def test_a_limit_in_words_is_one_that_we_know_where_it_can_be_read(told: Any, kept: Any) -> None:
    fault = {"unit": "FS-01", "means": "limited", "opened": "2026-01-20T00:00:00Z", **told}
    record = read(house_with(faults=[fault])).book.faults[0]
    assert (record.limit_kind, record.frames_out, record.limit) == kept


@pytest.mark.parametrize(
    ("kind", "text", "kept"),
    [
        ("relamp", "x", ("relamp", "x")),
        ("Electrical test", "x", ("electrical-test", "x")),
        ("weighed", "31 kg", ("other", "weighed: 31 kg")),
        ("weighed", None, ("other", "weighed")),
        (None, "x", ("other", "x")),
    ],
)
def test_a_kind_of_entry_that_is_none_of_ours_is_kept_with_its_word(kind: Any, text: Any, kept: Any) -> None:
    entry = {"unit": "FS-01", "at": "2026-01-20T00:00:00Z", "kind": kind, "text": text}
    told = {name: value for name, value in entry.items() if value is not None}
    record = read(house_with(log=[told])).book.log[0]
    assert (record.kind, record.text) == kept


def test_a_stop_below_the_usual_warning_is_warned_of_no_later() -> None:
    file = read(house_with(lamp_kinds=[{"name": "a", "stop_at": 0.7}, {"name": "b", "stop_at": 1.1}]))
    assert [kind.warn_at for kind in file.book.lamp_kinds] == [0.7, 0.8]


# -- with every key ------------------------------------------------------------------------------------


def test_every_key_is_stored() -> None:
    house = stored(house_with(**EVERYTHING))
    assert (house.burn_before_min, house.usual_event_min, house.use_window_days) == (45, 150, 14)
    one, other = Unit.objects.order_by("tag")
    assert (one.hired_from, str(one.back_on), other.ended_reason) == ("Lantern Street", "2026-06-01", "sold")
    kind = LampKind.objects.get(name="2 kW short-arc")
    assert (kind.run_down_min, kind.spares, kind.lead_days, kind.keep_at_least) == (12.5, 2, 21, 1)
    lamp = Lamp.objects.get(serial="L-0117")
    assert (lamp.came_with_strikes, lamp.ended_reason, lamp.fittings.get().fate) == (4, "spent", "spent")
    assert LampDecision.objects.get().until_h == 2100
    assert list(Meter.objects.values_list("counts", "note")) == [("lamp", ""), ("power", "the old one stuck")]
    assert Reading.objects.get(hours=918).struck_reason == "digits exchanged"
    assert Reading.objects.get(strikes=101).entered_by == "Ike Thornapple"
    assert HoursAdded.objects.counting().get().why == "show times"
    assert list(Placement.objects.values_list("elsewhere", "elsewhere_words")) == [
        ("", ""), ("lent", "Lantern Street"), ("shop", ""),
    ]  # fmt: skip
    assert Fault.objects.get(part="douser").closing.text == "bent it back"
    assert Fault.objects.standing().get().danger == "glass"
    relamp = LogEntry.objects.to_answer().get()
    assert (relamp.fitting.lamp.serial, relamp.is_protected, relamp.is_aligned) == ("L-0117", False, None)
    assert bytes(Attachment.objects.get().content).startswith(b"\x89PNG")
    assert LightReading.objects.counting().get().entry.kind == "light-reading"


def test_what_was_done_is_the_last_time_and_what_falls_due_follows_from_it() -> None:
    stored(house_with(**EVERYTHING))
    lenses = CareItem.objects.standing().get(plan__what="Clean the lenses")
    assert (lenses.last_done_h, lenses.due_h, lenses.entry.text) == (Decimal("190.5"), Decimal("290.5"), "bent it back")
    assert CareItem.objects.standing().filter(plan__what="Cells of the sight").count() == 1
    assert CareItem.objects.standing().get(plan__what="Weigh").last_done_at is None
    assert not CareItem.objects.standing().filter(plan__what="Grease").exists()


@pytest.mark.parametrize("sections", [PUBLISHED, EVERYTHING], ids=["published", "every key"])
def test_a_book_is_written_again_byte_for_byte(sections: dict[str, Any]) -> None:
    assert_written_again_byte_for_byte(as_bytes(house_with(**sections)))


def test_every_key_that_a_file_may_have_is_written_again() -> None:
    document = house_with(**EVERYTHING)
    text = dumped(stored(document))
    assert read_house_file(text.encode()) == read_house_file(as_bytes(document))


@settings(max_examples=6)
@given(book_documents())
def test_a_book_of_any_kind_is_written_again_byte_for_byte(document: dict[str, Any]) -> None:
    assert_written_again_byte_for_byte(as_bytes(document))


@settings(max_examples=5)
@given(book_documents())
def test_a_book_of_any_kind_says_the_same_to_the_house_that_has_it(document: dict[str, Any]) -> None:
    with taken_back():
        before = dumped(stored(document))
        with pytest.raises(HouseExists) as exists:
            stored(document)
        assert exists.value.differences == ()
        assert dumped(stored(document, update=True)) == before


@settings(max_examples=40)
@given(book_documents())
def test_a_book_of_any_kind_is_read_and_says_the_same_when_it_is_written_and_read_again(document: Any) -> None:
    file = read_house_file(as_bytes(document))
    assert read_house_file(house_text(file).encode()) == file


def test_a_fault_that_stands_says_so_and_its_limit_is_told_in_words() -> None:
    text = dumped(stored(house_with(**PUBLISHED)))
    assert '"limit": "frame 4 out",\n' in text
    assert '"closed": null,\n' in text


def test_writing_a_book_asks_the_database_as_often_for_much_as_for_little(django_assert_num_queries: Any) -> None:
    tags = [f"FS-{number:02}" for number in range(1, 31)]
    many = {
        "units": [{"tag": tag} for tag in tags],
        "readings": [
            {"unit": tag, "at": (NOON + DAY * day).isoformat(), "meter_h": day} for tag in tags for day in range(3)
        ],
        "log": [{"unit": tag, "at": NOON.isoformat(), "kind": "clean"} for tag in tags],
    }
    little, much = stored(house_with(**EVERYTHING)), stored(house_with(**many, house={"slug": "much"}))
    for house in (little, much):
        with django_assert_num_queries(QUERIES_TO_GATHER):
            gathered(house)


def test_what_a_file_brought_in_was_entered_by_nobody_when_it_was_loaded() -> None:
    stored(house_with(**PUBLISHED))
    assert set(Reading.objects.values_list("entered_at", "entered_by")) == {(NOON, "")}
    assert ACTOR.name in set(Event.objects.values_list("actor_name", flat=True))
