"""Faults: reported with what they mean for use, corrected, closed by what was done."""

from typing import Any

import pytest
import time_machine

from tests.factories import ACTOR, NOON, hours, make_unit
from tests.venue.cared import a_fault
from venue.actions import change_fault, close_fault, end_unit, report_fault
from venue.errors import AlreadyClosed, AlreadyEnded, Invalid, LiesAhead, StaleVersion
from venue.history import Actor
from venue.models import Event, Fault, LogEntry, Unit
from venue.models.record import ActorKind
from venue.wording_faults import fault_words

pytestmark = pytest.mark.django_db

HEAD = Actor(ActorKind.COMMAND, "Hollis Varga")


@pytest.fixture
def unit() -> Unit:
    return make_unit(tag="FS-01", frames=6)


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({"means": "usable", "part": "sight", "limit": "missing"}, "Sight: missing"),
        ({"means": "limited", "limit_kind": "blackout", "part": "douser"}, "No full blackout"),
        ({"means": "limited", "limit_kind": "frames", "frames_out": "4"}, "Frame 4 is out"),
        ({"means": "limited", "limit_kind": "frames", "frames_out": "4 and 2"}, "Frames 2, 4 are out"),
        (
            {"means": "limited", "limit_kind": "iris", "limit": "head and shoulders"},
            "Iris is fixed at head and shoulders",
        ),
        ({"means": "limited", "limit_kind": "camera"}, "Not on camera"),
        ({"means": "limited", "limit_kind": "shutters", "limit": "half in"}, "Shutters are taped (half in)"),
        ({"means": "limited", "limit_kind": "other", "part": "pan", "limit": "stiff"}, "Pan: stiff"),
        ({"means": "out", "part": "ballast", "limit": "does not strike"}, "Ballast: does not strike"),
        (
            {"means": "usable", "danger": "cable"},
            "Safety cable missing: out of service until a named person closes it",
        ),
    ],
)
def test_a_fault_says_in_a_sentence_what_it_means(unit: Unit, facts: dict[str, str], words: str) -> None:
    assert fault_words(report_fault(actor=ACTOR, unit=unit, at=NOON, **facts)) == words  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("facts", "field", "said"),
    [
        ({"means": "limited"}, "limit_kind", "can't do"),
        ({"means": "limited", "limit_kind": "frames"}, "frames_out", "such as 2, 4"),
        ({"means": "limited", "limit_kind": "frames", "frames_out": "7"}, "frames_out", "FS-01 has frames 1 to 6"),
        ({"means": "limited", "limit_kind": "frames", "frames_out": "green"}, "frames_out", "“green” can't be read"),
        ({"means": "limited", "limit_kind": "frames", "frames_out": "5-3"}, "frames_out", "runs backward"),
        ({"means": "limited", "limit_kind": "iris"}, "limit", "at which size"),
        ({"means": "limited", "limit_kind": "other"}, "limit", "can't do"),
        ({"means": "usable", "part": "sight"}, "limit", "the note"),
        ({"means": "out"}, "part", "Choose the part"),
        ({"means": "broken", "part": "iris"}, "means", "not a valid choice"),
        ({"means": "out", "danger": "dragon"}, "danger", "not a valid choice"),
        ({"means": "usable", "limit": "a\0b"}, "limit", "can't be stored"),
    ],
)
def test_what_can_not_be_a_fault_is_said_at_its_field(unit: Unit, facts: dict[str, str], field: str, said: str) -> None:
    with pytest.raises(Invalid) as refusal:
        report_fault(actor=ACTOR, unit=unit, at=NOON, **facts)  # type: ignore[arg-type]
    assert said in " ".join(refusal.value.problems[field])
    assert not Fault.objects.exists() and not Event.objects.filter(verb="fault.reported").exists()


def test_frames_of_a_unit_without_frames_are_refused_and_of_an_unrecorded_magazine_taken() -> None:
    facts: dict[str, Any] = {"means": "limited", "limit_kind": "frames", "frames_out": "9", "at": NOON}
    with pytest.raises(Invalid, match="no frames on file"):
        report_fault(actor=ACTOR, unit=make_unit(frames=0), **facts)
    assert report_fault(actor=ACTOR, unit=make_unit(frames=None), **facts).frames_out == "9"


def test_a_danger_puts_the_unit_out_of_service_whatever_else_was_said(unit: Unit) -> None:
    fault = report_fault(actor=ACTOR, unit=unit, means="usable", danger="glass", at=NOON, frames_out="nonsense")
    assert (fault.means, fault.limit_kind, fault.frames_out) == ("out", "", "")


def test_nothing_is_seen_in_the_future_or_at_a_unit_off_the_books(unit: Unit) -> None:
    with time_machine.travel(NOON, tick=False), pytest.raises(LiesAhead):
        a_fault(unit, at=NOON + hours(3))
    end_unit(actor=ACTOR, unit=unit, at=NOON, reason="sold")
    with pytest.raises(AlreadyEnded):
        a_fault(unit)


def test_a_fault_is_closed_by_a_log_entry_that_says_what_was_done(unit: Unit) -> None:
    fault = a_fault(unit)
    entry = close_fault(
        actor=HEAD, fault=fault, seen=fault.version, at=NOON + hours(2), done="bent the blade back", parts="one rivet"
    )
    stored = Fault.objects.get()
    assert (stored.closed_at, stored.closed_by, stored.closing) == (NOON + hours(2), "Hollis Varga", entry)
    assert (entry.kind, entry.unit, entry.text, entry.parts) == ("repair", unit, "bent the blade back", "one rivet")
    assert Event.objects.get(verb="fault.closed").data["by"] == "Hollis Varga"


@pytest.mark.parametrize("by", ["", "   "])
def test_a_danger_is_closed_by_a_named_person_only(unit: Unit, by: str) -> None:
    fault = a_fault(unit, "out", danger="ground")
    closing = {"actor": HEAD, "fault": fault, "seen": fault.version, "at": NOON}
    with pytest.raises(Invalid) as refusal:
        close_fault(**closing, done="new lead", by=by)  # type: ignore[arg-type]
    assert "a danger is closed by name only" in refusal.value.problems["by"][0]
    assert Fault.objects.standing().count() == 1 and not LogEntry.objects.exists()
    close_fault(**closing, done="new lead", by="Inga Sørlund")  # type: ignore[arg-type]
    assert Fault.objects.get().closed_by == "Inga Sørlund"


def test_closing_without_saying_what_was_done_or_before_it_was_seen_is_refused(unit: Unit) -> None:
    fault = a_fault(unit)
    with pytest.raises(Invalid) as refusal:
        close_fault(actor=ACTOR, fault=fault, seen=fault.version, at=NOON - hours(1), done=" ")
    assert set(refusal.value.problems) == {"done", "at"}


def test_a_fault_that_somebody_else_closed_or_corrected_is_not_closed_again(unit: Unit) -> None:
    fault, copy = a_fault(unit), Fault.objects.get()
    change_fault(actor=ACTOR, fault=fault, seen=fault.version, values={"limit": "worse when hot"})
    closing = {"actor": ACTOR, "at": NOON, "done": "cleaned"}
    with pytest.raises(StaleVersion):
        close_fault(fault=copy, seen=1, **closing)  # type: ignore[arg-type]
    assert not LogEntry.objects.exists()
    close_fault(fault=copy, seen=2, **closing)  # type: ignore[arg-type]
    with pytest.raises(AlreadyClosed, match="closed already, by tests"):
        close_fault(fault=fault, seen=3, **closing)  # type: ignore[arg-type]
    with pytest.raises(AlreadyClosed):
        change_fault(actor=ACTOR, fault=fault, seen=3, values={"limit": "again"})
    assert LogEntry.objects.count() == 1


def test_a_correction_is_checked_like_a_report_and_kept_in_the_history(unit: Unit) -> None:
    fault = a_fault(unit)
    with pytest.raises(Invalid, match="no frame 9"):
        change_fault(actor=ACTOR, fault=fault, seen=1, values={"limit_kind": "frames", "frames_out": "9"})
    change_fault(actor=ACTOR, fault=fault, seen=1, values={"limit_kind": "frames", "frames_out": "3"})
    assert Fault.objects.get().frames_out == "3"
    assert Event.objects.get(verb="fault.changed").data["changed"]["limit_kind"] == ["blackout", "frames"]


def test_faults_stand_in_the_order_of_what_they_mean(unit: Unit) -> None:
    note = a_fault(unit, "usable", limit="squeaks")
    limited = a_fault(unit)
    out = a_fault(unit, "out", part="fan")
    danger = a_fault(unit, "out", danger="lamp")
    assert list(Fault.objects.standing().by_gravity()) == [danger, out, limited, note]
