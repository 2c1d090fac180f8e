"""What the marks of an arrival check add up to, and what they do to faults."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shows.actions.arrival import Found, mark_items, note_blockage, sign_check
from shows.core.checking import ITEMS, Mark, next_place, place_state
from shows.models import CheckMark
from tests.factories import ACTOR, NOON, make_place, make_position, make_show, make_unit
from venue.actions import close_fault
from venue.errors import HistoryIsKept, Invalid
from venue.models import Event, Fault


def mark(item: str, result: str, by: str = "Ada", minutes: int = 0) -> Mark:
    return Mark(item, result, by, NOON + timedelta(minutes=minutes), key=minutes)  # type: ignore[arg-type]


def test_a_place_is_untouched_begun_passed_or_failed() -> None:
    assert place_state([]).state == "untouched"
    assert place_state([mark("label", "pass")]).state == "begun"
    passed = [mark(item, "pass") for item in ITEMS]
    assert place_state(passed).state == "passed"
    assert place_state([*passed, mark("headset", "fail", minutes=5)]).state == "failed"


def test_the_last_mark_counts_and_what_another_person_found_stays_in_sight() -> None:
    state = place_state([mark("douser", "fail", "Ada"), mark("douser", "pass", "Dov", 9)])
    (douser,) = (item for item in state.items if item.item == "douser")
    assert (douser.result, douser.other and douser.other.by) == ("pass", "Ada")
    own = place_state([mark("douser", "fail", "Ada"), mark("douser", "pass", "Ada", 9)])
    assert [item.other for item in own.items if item.item == "douser"] == [None]


@given(st.permutations([mark(item, "pass", "Ada" if index % 2 else "Dov", index) for index, item in enumerate(ITEMS)]))
def test_two_people_at_once_merge_in_whatever_order_their_marks_come(marks: list[Mark]) -> None:
    assert place_state(marks) == place_state(sorted(marks, key=lambda each: each.key))
    assert place_state(marks).state == "passed"


def test_the_walk_resumes_where_it_stopped_and_comes_round_to_what_was_left_out() -> None:
    done, open_ = place_state([mark(item, "pass") for item in ITEMS]), place_state([])
    states = {1: open_, 2: done, 3: open_}
    assert next_place(states, [1, 2, 3]) == 1
    assert next_place(states, [1, 2, 3], after=1) == 3
    assert next_place(states, [1, 2, 3], after=3) == 1
    assert next_place({1: done}, [1]) is None


@pytest.mark.django_db
class TestVerbs:
    @pytest.fixture(autouse=True)
    def rows(self) -> None:
        self.show = make_show()
        self.place = make_place(make_position(self.show.house))
        self.unit = make_unit(self.show.house, frames=6)

    def mark(self, **found: Found) -> list[CheckMark]:
        facts = {"place": self.place, "unit": self.unit, "by": "Ada", "at": NOON}
        return mark_items(actor=ACTOR, engagement=self.show, found=found, **facts)  # type: ignore[arg-type]

    def test_what_fails_opens_a_fault_once_and_a_new_one_when_that_was_closed(self) -> None:
        (first,) = self.mark(douser=Found("fail", "leaks"))
        (again,) = self.mark(douser=Found("fail", "still leaks"))
        assert first.fault is not None
        assert (first.fault.limit_kind, first.fault.limit) == ("blackout", "leaks")
        assert again.fault == first.fault
        facts = {"seen": first.fault.version, "at": NOON + timedelta(hours=1), "done": "new blade", "by": "Dov"}
        close_fault(actor=ACTOR, fault=first.fault, **facts)  # type: ignore[arg-type]
        (third,) = self.mark(douser=Found("fail", "leaks again"))
        assert third.fault not in (None, first.fault)
        assert Fault.objects.count() == 2

    def test_frames_that_fail_are_named_and_a_failed_strike_puts_the_unit_out(self) -> None:
        frames, strike = self.mark(frames=Found("fail", "jams", "4"), strike=Found("fail", "no arc"))
        assert frames.fault is not None and strike.fault is not None
        assert (frames.fault.limit_kind, frames.fault.frames_out) == ("frames", "4")
        assert strike.fault.means == "out"

    def test_a_dead_headset_is_the_places_and_no_fault_of_the_unit(self) -> None:
        (headset,) = self.mark(headset=Found("fail", "dead on B"))
        assert headset.fault is None
        assert not Fault.objects.exists()

    @pytest.mark.parametrize(
        ("found", "by", "field"),
        [
            ({"label": Found("pass")}, " ", "by"),
            ({"douser": Found("fail", " ")}, "Ada", "douser_note"),
            ({"gobo": Found("pass")}, "Ada", "gobo"),
            ({"label": Found("maybe")}, "Ada", "label"),
            ({}, "Ada", "__all__"),
        ],
    )
    def test_what_is_not_told_right_is_refused_at_its_field(self, found: dict[str, Found], by: str, field: str) -> None:
        with pytest.raises(Invalid) as refusal:
            facts = {"place": self.place, "unit": self.unit, "by": by, "at": NOON}
            mark_items(actor=ACTOR, engagement=self.show, found=found, **facts)  # type: ignore[arg-type]
        assert list(refusal.value.problems) == [field]
        assert not CheckMark.objects.exists()

    def test_marks_and_signatures_are_never_changed(self) -> None:
        (made,) = self.mark(label=Found("pass"))
        with pytest.raises(HistoryIsKept):
            made.save()
        with pytest.raises(HistoryIsKept):
            CheckMark.objects.all().delete()
        signed = sign_check(actor=ACTOR, engagement=self.show, side="road", name="Dov", sha256="a" * 64, at=NOON)
        with pytest.raises(HistoryIsKept):
            signed.save()

    def test_what_is_in_the_way_tonight_is_this_shows_alone(self) -> None:
        facts = {"place": self.place, "noted_on": NOON.date()}
        made = note_blockage(actor=ACTOR, engagement=self.show, words="speaker array", **facts)  # type: ignore[arg-type]
        assert (made.only_for, made.place, made.noted_on) == (self.show.ref, self.place, NOON.date())
        assert Event.objects.get(verb="check.blockage").data["words"] == "speaker array"
