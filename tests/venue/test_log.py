"""The maintenance log: written, corrected, struck out; relamps that stay open; files."""

import pytest

from tests.factories import ACTOR, NOON, hours, make_unit
from tests.venue.cared import ANSWERED, JPEG, PDF, PNG, a_fault, an_entry
from tests.venue.lamped import a_kind, a_lamp, a_unit, day, fit
from venue.actions import answer_relamp, attach, change_log, close_fault, measure_light, strike_log, write_log
from venue.actions.log import MOST_ATTACHED
from venue.core.lengths import read_length
from venue.errors import AlreadyStruck, Invalid, StaleVersion
from venue.models import Attachment, Event, Fault, LightReading, LogEntry, Unit
from venue.models.upkeep import MAX_BYTES
from venue.relamps import RelampAnswers

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit() -> Unit:
    return make_unit(tag="FS-01", source="short-arc")


def test_an_entry_says_who_when_and_what_and_may_be_about_no_unit(unit: Unit) -> None:
    entry = an_entry(unit, by="Tove Brandauer", text="mirror wiped", parts="2 cloths")
    assert (entry.by, entry.entered_by, entry.at, entry.is_open) == ("Tove Brandauer", "tests", NOON, False)
    other = write_log(actor=ACTOR, house=unit.house, kind="other", at=NOON, accessory="headset 3")
    assert (other.unit, other.accessory, other.by) == (None, "headset 3", "tests")
    with pytest.raises(Invalid, match="Choose a unit"):
        write_log(actor=ACTOR, house=unit.house, kind="other", at=NOON)
    with pytest.raises(Invalid, match="kind"):
        an_entry(unit, "magic")


@pytest.mark.parametrize(
    ("answers", "is_open"),
    [
        ({}, True),
        ({**ANSWERED, "aligned": None}, True),
        ({**ANSWERED, "aligned": False}, True),
        ({**ANSWERED, "isolated": None}, True),
        ({**ANSWERED, "cooled": None}, True),
        ({**ANSWERED, "protected": None}, True),
        (ANSWERED, False),
        ({"isolated": False, "cooled": False, "protected": False, "aligned": True}, False),
    ],
)
def test_a_relamp_stays_open_until_all_four_are_answered_and_the_lamp_is_aligned(
    unit: Unit, answers: dict[str, bool | None], is_open: bool
) -> None:
    assert an_entry(unit, "relamp", answers=RelampAnswers(**answers)).is_open is is_open
    later = an_entry(unit, "relamp")
    answer_relamp(actor=ACTOR, entry=later, seen=1, answers=RelampAnswers(**answers))
    stored = LogEntry.objects.get(pk=later.pk)
    assert stored.is_open is is_open
    assert (stored.is_isolated, stored.is_aligned) == (answers.get("isolated"), answers.get("aligned"))
    assert (stored in LogEntry.objects.to_answer()) is is_open


@pytest.mark.parametrize(
    ("source", "is_open"), [("short-arc", True), ("", True), ("LED", False), ("carbon arc", False)]
)
def test_the_questions_are_asked_where_a_lamp_is_under_pressure_or_nobody_knows(source: str, is_open: bool) -> None:
    assert an_entry(make_unit(source=source), "relamp").is_open is is_open


def test_the_fitted_lamp_tells_whether_it_is_under_pressure_before_the_unit_does() -> None:
    unit = a_unit(source="LED", starts=0)
    fit(unit, 0, a_lamp(a_kind(unit.house, source="short-arc")), 0)
    assert LogEntry.objects.get(kind="relamp").is_open


def test_only_a_relamp_is_answered_and_a_stale_answer_is_refused(unit: Unit) -> None:
    with pytest.raises(Invalid, match="Only a relamp"):
        answer_relamp(actor=ACTOR, entry=an_entry(unit), seen=1, answers=RelampAnswers())
    entry = an_entry(unit, "relamp")
    answer_relamp(actor=ACTOR, entry=entry, seen=1, answers=RelampAnswers(cooled=False))
    with pytest.raises(StaleVersion):
        answer_relamp(actor=ACTOR, entry=entry, seen=1, answers=RelampAnswers(**ANSWERED))
    assert LogEntry.objects.get(pk=entry.pk).is_cooled is False


def test_a_correction_is_stored_once_and_kept_in_the_history(unit: Unit) -> None:
    entry = an_entry(unit, text="mirror wipd")
    change_log(actor=ACTOR, entry=entry, seen=1, values={"text": "mirror wiped", "kind": "inspect"})
    assert Event.objects.get(verb="logentry.changed").data["changed"]["text"] == ["mirror wipd", "mirror wiped"]
    with pytest.raises(StaleVersion):
        change_log(actor=ACTOR, entry=entry, seen=1, values={"text": "rear lens"})


def test_what_other_records_follow_from_keeps_its_kind_and_time(unit: Unit) -> None:
    fault = a_fault(unit)
    closing = close_fault(actor=ACTOR, fault=fault, seen=1, at=NOON, done="cleaned")
    for entry in (closing, an_entry(unit, "relamp"), _light(unit).entry):
        assert entry is not None
        with pytest.raises(Invalid, match="Strike it out"):
            change_log(actor=ACTOR, entry=entry, seen=1, values={"at": NOON - hours(1)})
        change_log(actor=ACTOR, entry=entry, seen=1, values={"parts": "none"})


def _light(unit: Unit) -> LightReading:
    distance = read_length("43.4 m", "metric")
    return measure_light(actor=ACTOR, unit=unit, at=NOON, lux=1500, distance=distance, setting="open")


def test_an_entry_is_struck_out_with_a_reason_and_stays_to_be_read(unit: Unit) -> None:
    entry = an_entry(unit)
    with pytest.raises(Invalid, match="Say why"):
        strike_log(actor=ACTOR, entry=entry, seen=1, at=NOON, reason=" ")
    strike_log(actor=ACTOR, entry=entry, seen=1, at=NOON, reason="wrong unit")
    stored = LogEntry.objects.get()
    assert (stored.struck_reason, stored.struck_by, stored.struck_at) == ("wrong unit", "tests", NOON)
    for act in (
        lambda: strike_log(actor=ACTOR, entry=stored, seen=2, at=NOON, reason="again"),
        lambda: change_log(actor=ACTOR, entry=stored, seen=2, values={"text": "x"}),
        lambda: attach(actor=ACTOR, entry=stored, name="a.png", content=PNG, at=NOON),
    ):
        with pytest.raises(AlreadyStruck):
            act()


def test_striking_out_the_entry_that_closed_a_fault_opens_it_again(unit: Unit) -> None:
    fault = a_fault(unit, "out", danger="interlock")
    closing = {"seen": 1, "at": NOON, "done": "put back", "by": "Inga Sørlund"}
    entry = close_fault(actor=ACTOR, fault=fault, **closing)  # type: ignore[arg-type]
    strike_log(actor=ACTOR, entry=entry, seen=1, at=NOON, reason="it was another unit")
    stored = Fault.objects.get()
    assert (stored.closed_at, stored.closed_by, stored.closing) == (None, "", None)
    assert Event.objects.filter(verb="fault.stands_again").count() == 1


def test_striking_out_a_light_reading_takes_it_out_of_the_count(unit: Unit) -> None:
    reading = _light(unit)
    assert reading.entry is not None
    strike_log(actor=ACTOR, entry=reading.entry, seen=1, at=NOON, reason="meter off zero")
    stored = LightReading.objects.get()
    assert (stored.struck_reason, stored.lux) == ("meter off zero", 1500)
    assert not LightReading.objects.counting().exists()


def test_a_relamp_that_fitted_a_lamp_is_not_struck_out_beside_its_questions() -> None:
    unit = a_unit(starts=0)
    fit(unit, 0, a_lamp(a_kind(unit.house)), 0)
    with pytest.raises(Invalid, match="Take that back first"):
        strike_log(actor=ACTOR, entry=LogEntry.objects.get(kind="relamp"), seen=1, at=day(1), reason="no")


def test_a_file_is_kept_as_it_came_under_its_true_type(unit: Unit) -> None:
    entry = an_entry(unit)
    kept = attach(actor=ACTOR, entry=entry, name="mirror.pdf.png", content=JPEG, at=NOON)
    stored = Attachment.objects.get()
    assert (kept.name, stored.content_type, stored.size, bytes(stored.content)) == (
        "mirror.jpg",
        "image/jpeg",
        len(JPEG),
        JPEG,
    )
    assert Event.objects.get(verb="log.attached").data["file"] == "mirror.jpg"


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("empty.png", b"", "empty"),
        ("big.png", PNG + b"\0" * MAX_BYTES, "larger than 5 MB"),
        ("drawing.svg", b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "no JPEG, PNG"),
        ("page.jpg", b"<html><script>alert(1)</script></html>", "no JPEG, PNG"),
        ("tool.pdf.exe", b"MZ\x90\0", "no JPEG, PNG"),
    ],
)
def test_other_files_empty_ones_and_those_too_large_are_refused(
    unit: Unit, name: str, content: bytes, said: str
) -> None:
    with pytest.raises(Invalid, match=said):
        attach(actor=ACTOR, entry=an_entry(unit), name=name, content=content, at=NOON)
    assert not Attachment.objects.exists()


def test_an_entry_keeps_so_many_files_and_no_more(unit: Unit) -> None:
    entry = an_entry(unit)
    for _ in range(MOST_ATTACHED):
        attach(actor=ACTOR, entry=entry, name="test sheet.pdf", content=PDF, at=NOON)
    with pytest.raises(Invalid, match="up to 20 files"):
        attach(actor=ACTOR, entry=entry, name="one more.pdf", content=PDF, at=NOON)
