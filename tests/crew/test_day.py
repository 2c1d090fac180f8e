"""The day of a call: times of day, late or not, in and out, meals, corrections. Hours, minutes, no money."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
import time_machine
from django.db import connection
from django.test import Client, TestCase
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import add_person, fill_call, put_at_spot_talk, put_on_number
from crew.actions.day import (
    add_extra_hand,
    add_meal,
    begin_meal,
    end_meal,
    mark_not_come,
    sign_in,
    sign_out,
)
from crew.actions.day_corrections import DayFacts, correct_day
from crew.actions.rules import make_rules
from crew.core.day import is_far, presence, wall_of
from crew.day_rows import day_rows
from crew.errors import FarFromCall, NobodyMarked
from crew.models import Attendance, Call, CallLine, Person
from crew.wording.day import here_sentence, late_words, missing_sentence
from tests.crew.stage import Stage, a_stage
from tests.factories import ACTOR
from venue.errors import Invalid, LiesAhead, StaleVersion
from venue.models import Event
from venue.wording import event_sentence

SIX_THIRTY = datetime(2026, 3, 3, 18, 30)
"""The wall time of the stage's call; no zone, as clocks show it."""


def at(hour: int, minute: int = 0, day: int = 3) -> datetime:
    """An instant of the stage's day, as its house's clocks show it."""
    return datetime(2026, 3, day, hour, minute, tzinfo=ZoneInfo("America/New_York"))


CALLED, NIGHT = at(18, 30), at(23, 59)


@pytest.mark.parametrize(
    ("clock", "day", "why"),
    [
        (time(18, 10), 3, "a little before the call"),
        (time(6, 30), 3, "exactly 12 h before is still the same day"),
        (time(6, 29), 4, "over 12 h earlier means the day after"),
        (time(0, 15), 4, "after midnight"),
        (time(23, 50), 3, "before midnight"),
    ],
)
def test_a_time_of_day_is_of_the_calls_day_or_the_day_after(clock: time, day: int, why: str) -> None:
    assert wall_of(clock, SIX_THIRTY) == datetime.combine(SIX_THIRTY.replace(day=day), clock), why


@pytest.mark.parametrize(("came", "late"), [(at(18, 30), 0), (at(18, 31), 31), (at(17, 45), 0)])
def test_who_comes_past_the_limit_is_late_by_all_the_minutes(came: datetime, late: int) -> None:
    """Story: call 18:00, in 18:31, limit 30 -> late; 18:30 is within the limit."""
    facts = {"call_at": at(18), "out_at": None, "is_at_meal": False, "absence": "", "late_after": 30}
    assert presence(in_at=came, now=NIGHT, **facts).late_min == late  # type: ignore[arg-type]
    assert presence(in_at=None, now=came, **facts).late_min == late, "who has not come is late by the clock"  # type: ignore[arg-type]


def test_a_time_within_half_a_day_before_and_a_day_after_belongs_to_the_call() -> None:
    assert [is_far(at(18) + timedelta(hours=h), at(18)) for h in (-12.1, -12, 0, 24, 24.1)] == [
        True,
        *[False] * 3,
        True,
    ]


class DayTest(TestCase):
    """A stage of three numbers with four people, at the end of the evening."""

    stage: Stage

    @classmethod
    def setUpTestData(cls) -> None:
        cls.stage = a_stage(3)
        for number, person in zip("123", cls.stage.people[:3], strict=True):
            put_on_number(actor=ACTOR, call=cls.stage.call, number=number, person=person)
        put_at_spot_talk(actor=ACTOR, call=cls.stage.call, person=cls.stage.people[3])

    def setUp(self) -> None:
        traveler = time_machine.travel(NIGHT, tick=False)
        traveler.start()
        self.addCleanup(traveler.stop)
        self.call = Call.objects.select_related("engagement__house", "event", "roster").get(pk=self.stage.call.pk)
        self.given = {"actor": ACTOR, "call": self.call, "now": NIGHT}

    def line(self, index: int) -> CallLine:
        return self.call.lines.standing().select_related("person", "call").get(person=self.stage.people[index])

    def lines(self, *indexes: int) -> list[CallLine]:
        return [self.line(index) for index in indexes]

    def come(self, *indexes: int, when: datetime = CALLED) -> None:
        sign_in(lines=self.lines(*indexes), at=when, **self.given)

    def day_of(self, index: int) -> Attendance:
        return Attendance.objects.get(line__person=self.stage.people[index])

    def said(self) -> str:
        return event_sentence(Event.objects.order_by("-pk")[0])

    def page(self, who: str = "dispatch", name: str = "call_day", *more: object) -> str:
        self.client.force_login(getattr(self.stage.cast, who))
        response = self.client.get(reverse(f"crew:{name}", args=[self.call.ref, *more]))
        assert response.status_code == 200
        return " ".join(response.content.decode().split())

    def send(self, name: str = "call_day", *more: object, **data: object) -> object:
        self.client.force_login(self.stage.cast.dispatch)
        return self.client.post(reverse(f"crew:{name}", args=[self.call.ref, *more]), data)

    # -- verbs -------------------------------------------------------------------------------------------

    def test_everybody_ticked_is_signed_in_and_whom_it_cannot_apply_to_is_named(self) -> None:
        self.come(0)
        marked = sign_in(lines=self.lines(0, 1, 2), at=at(18, 40), **self.given)
        assert (marked.done, marked.left) == (["Мира Лисовская", "Zofia Wiśniak"], [("Ada Quillfeather", "in-already")])
        assert self.day_of(0).in_at == at(18, 30)
        assert self.said() == "signed Zofia Wiśniak in for Nine Paper Boats at 2026-03-03 18:40"

    def test_what_applies_to_nobody_is_refused_and_nothing_is_stored(self) -> None:
        with pytest.raises(NobodyMarked, match="Ada Quillfeather is not in yet"):
            sign_out(lines=self.lines(0), at=at(22), **self.given)
        assert not Attendance.objects.exists()

    def test_times_ahead_and_far_from_the_call_are_refused(self) -> None:
        with pytest.raises(LiesAhead):
            sign_in(lines=self.lines(0), at=NIGHT + timedelta(minutes=1), **self.given)
        with pytest.raises(FarFromCall):
            sign_in(lines=self.lines(0), at=at(6, 29), **self.given)

    def test_a_meal_begins_ends_and_keeps_within_the_day(self) -> None:
        self.come(0, 1)
        begin_meal(lines=self.lines(0, 1), at=at(20), **self.given)
        with pytest.raises(NobodyMarked, match="Write first when it ended"):
            sign_out(lines=self.lines(0), at=at(21), **self.given)
        end_meal(lines=self.lines(0, 1), at=at(20, 30), **self.given)
        with pytest.raises(NobodyMarked, match="another meal"):
            add_meal(lines=self.lines(0), starts=at(20, 29), ends=at(21), **self.given)
        with pytest.raises(NobodyMarked, match="does not lie between"):
            add_meal(lines=self.lines(0), starts=at(18), ends=at(18, 40), **self.given)
        with pytest.raises(NobodyMarked, match="later than that"):
            sign_out(lines=self.lines(0), at=at(20, 15), **self.given)
        assert [meal.ends_at for meal in self.day_of(1).meals.all()] == [at(20, 30)]

    def test_who_did_not_come_and_who_was_sent_home_are_marked_with_a_note(self) -> None:
        self.come(0)
        sign_out(lines=self.lines(0), at=at(19), home=True, note="not needed", **self.given)
        mark_not_come(lines=self.lines(1), note="no answer", **self.given)
        assert (self.day_of(0).absence, self.day_of(0).note) == ("sent-home", "not needed")
        assert (self.day_of(1).absence, self.day_of(1).in_at) == ("no-show", None)
        with pytest.raises(NobodyMarked, match="marked as not come"):
            self.come(1)

    def test_a_correction_keeps_both_values_in_the_history(self) -> None:
        self.come(0, when=at(18, 13))
        add_meal(lines=self.lines(0), starts=at(20), ends=at(20, 30), **self.given)
        facts = DayFacts(at(18, 31), at(23, 2), "", "", ((at(20, 5), at(20, 45)),))
        correct_day(line=self.line(0), facts=facts, seen=self.day_of(0).version, **self.given)
        assert self.said() == (
            "corrected the day of Ada Quillfeather at Nine Paper Boats to 2026-03-03 18:31 – 23:02 (20:05 – 20:45); "
            "it was 2026-03-03 18:13 – … (20:00 – 20:30)"
        )
        standing = self.day_of(0).meals.standing()
        assert [(meal.starts_at, meal.ends_at) for meal in standing] == [(at(20, 5), at(20, 45))]

    def test_a_correction_of_what_changed_meanwhile_is_refused(self) -> None:
        self.come(0)
        seen = self.day_of(0).version
        begin_meal(lines=self.lines(0), at=at(20), **self.given)
        with pytest.raises(StaleVersion):
            correct_day(line=self.line(0), facts=DayFacts(at(18)), seen=seen, **self.given)

    def test_a_correction_that_cannot_be_is_refused_whole(self) -> None:
        self.come(0)
        seen = self.day_of(0).version
        for facts in (
            DayFacts(at(18), at(17)),
            DayFacts(None, at(22)),
            DayFacts(at(18), None, "no-show"),
            DayFacts(at(18), at(22), "", "", ((at(21), at(22, 30)),)),
            DayFacts(at(18), at(22), "", "", ((at(20), None),)),
            DayFacts(at(18), None, "", "", ((at(20), at(21)), (at(20, 30), at(21, 30)))),
        ):
            with pytest.raises(Invalid):
                correct_day(line=self.line(0), facts=facts, seen=seen, **self.given)
        with pytest.raises(Invalid, match="The time out is not after the time in"):
            facts = DayFacts(at(18), at(17), "", "", ((at(20), at(21)),))
            correct_day(line=self.line(0), facts=facts, seen=seen, **self.given)
        assert self.day_of(0).in_at == at(18, 30)

    def test_who_gets_a_number_after_signing_in_stays_signed_in(self) -> None:
        self.come(3)
        people = {(str(n), 1): self.stage.people[index] for n, index in ((1, 3), (2, 1), (3, 2))}
        fill_call(actor=ACTOR, call=self.call, people=people, at_spot_talk=[], at=NIGHT, seen=self.call.version)
        rows = {row.name: row for row in day_rows(self.call, NIGHT)}
        assert set(rows) == {"Dov Halloran", "Мира Лисовская", "Zofia Wiśniak"}
        assert (rows["Dov Halloran"].line.number, rows["Dov Halloran"].in_at) == ("1", at(18, 30))
        sign_out(lines=self.lines(3), at=at(23), **self.given)
        assert self.day_of(3).out_at == at(23), "the one day that was begun"

    def test_an_extra_hand_is_on_the_call_without_a_number_and_in(self) -> None:
        line = add_extra_hand(person=self.stage.people[4], at=at(19), **self.given)
        assert (line.number, self.day_of(4).in_at) == ("", at(19))
        (row,) = (row for row in day_rows(self.call, NIGHT) if row.line == line)
        assert (row.call_at, row.presence.late_min, line.own_wall) == (at(19), 0, datetime(2026, 3, 3, 19))

    def test_an_extra_hand_is_called_from_the_minute_in_which_that_is_written_or_with_the_call(self) -> None:
        tove, ines, ursula = (
            add_person(actor=ACTOR, roster=self.call.roster, name=name) for name in ("Tove", "Ines", "Ursula")
        )
        given = {"actor": ACTOR, "call": self.call, "at": None}
        early = add_extra_hand(person=tove, now=at(18, 30), **given)
        during = add_extra_hand(person=ines, now=at(20, 12), **given)
        after = add_extra_hand(person=ursula, now=NIGHT, **given)  # past the expected end
        assert [line.own_at for line in (early, during, after)] == [None, at(20, 12), self.call.ends_at]
        assert "Ines" in missing_sentence(day_rows(self.call, at(20, 12)))
        late = {row.name: row.presence.late_min for row in day_rows(self.call, at(20, 13))}
        assert (late["Ines"], late["Tove"]) == (0, 103)

    def test_the_answer_counts_who_is_here_and_names_who_is_missing_with_the_minutes(self) -> None:
        self.come(0)
        sign_in(lines=self.lines(1), at=at(19, 1), **self.given)
        rows = day_rows(self.call, at(19, 1))
        assert here_sentence(rows) == "2 of 4 are here."
        sign_out(lines=self.lines(0), at=at(23), **self.given)
        mark_not_come(lines=self.lines(2), **self.given)
        assert here_sentence(day_rows(self.call, NIGHT)) == "1 of 4 are here. 1 is out. 1 did not come."
        assert missing_sentence(rows) == "Not here yet: Zofia Wiśniak (31 min late), Dov Halloran (31 min late)."
        assert [late_words(row.presence) for row in rows] == ["", "31 min late", "31 min late", "31 min late"]

    # -- pages -------------------------------------------------------------------------------------------

    def test_a_tap_signs_in_now_and_a_typed_time_then(self) -> None:
        self.send(do="in", line=self.line(0).ref)
        self.send(do="in", line=self.line(1).ref, at="18:31")
        assert [self.day_of(index).in_at for index in (0, 1)] == [NIGHT, at(18, 31)]

    def test_all_who_are_ticked_go_out_at_once(self) -> None:
        self.come(0, 1)
        refs = [line.ref for line in self.lines(0, 1, 2)]
        sent = self.send(do="out", line=refs, at="23:10")
        assert sent.status_code == 302  # type: ignore[attr-defined]
        assert [self.day_of(index).out_at for index in (0, 1)] == [at(23, 10)] * 2
        assert "Zofia Wiśniak is not in yet" in self.page()

    def test_what_is_wrong_is_said_and_what_was_typed_stays(self) -> None:
        answer = self.send(do="in", line=self.line(0).ref, at="23:59:59").content.decode()  # type: ignore[attr-defined]
        assert self.day_of(0).in_at == NIGHT, answer
        for data, told in (
            ({"do": "out", "line": self.line(0).ref, "at": "19:00"}, "later than that"),
            ({"do": "out", "line": self.line(0).ref, "at": "25:00"}, "Write a time of day"),
            ({"do": "meal", "line": self.line(0).ref, "starts": "20:00"}, "both times"),
            ({"do": "in", "at": "18:00"}, "Nobody is ticked"),
            ({"do": "dance", "line": self.line(0).ref}, "tap what happened"),
            ({"do": "in", "line": "\0nobody"}, "Nobody is ticked"),
            ({}, "Nobody is ticked"),
        ):
            response = self.send(**data)  # type: ignore[arg-type]
            assert response.status_code == 200, data  # type: ignore[attr-defined]
            assert told in response.content.decode(), data  # type: ignore[attr-defined]
        assert 'value="19:00"' in self.send(do="out", line=self.line(0).ref, at="19:00").content.decode()  # type: ignore[attr-defined]

    def test_the_late_are_flagged_and_a_substitute_is_offered(self) -> None:
        self.come(0, when=at(19, 1))
        page = self.page()
        assert "31 min late" in page
        assert "Find somebody instead of Ada Quillfeather" in page
        assert reverse("crew:line_who", args=[self.call.ref]) + "?number=1&amp;seat=1" in page
        asked = self.client.get(reverse("crew:line_who", args=[self.call.ref]), {"number": "1", "seat": 1})
        assert "Júlia Bencze-Orr" in asked.content.decode(), "who is free is there to be asked next"
        self.come(1)
        assert "Find somebody instead of Мира" not in self.page()

    def test_a_meal_that_is_due_or_overdue_is_said_in_words(self) -> None:
        """In 18:30, meal by 5 h: due at 23:30, overdue at 23:59; after a meal until 20:30 due at 1:30."""
        self.come(0, 1, 2)
        assert "Meal due" not in self.page("head")
        assert "Meal overdue" not in self.page("head"), "no rule asks for one"
        rules = {"minimum_h": 4, "meal_by_h": 5}
        make_rules(actor=ACTOR, roster=self.call.roster, house=None, name="ours", rules=rules)
        add_meal(lines=self.lines(1), starts=at(20), ends=at(20, 30), **self.given)
        begin_meal(lines=self.lines(2), at=at(20), **self.given)
        page = self.page("head")
        assert page.count("<strong>Meal overdue since 11:30 PM</strong>") == 1
        assert page.count("Meal due at Mar 4, 1:30 AM") == 1
        assert page.count("Meal overdue") + page.count("Meal due") == 2, "nobody at a meal, nobody who has not come"
        sign_out(lines=self.lines(0), at=at(23, 40), **self.given)
        assert "Meal overdue" not in self.page("head"), "who is out is due no meal"

    def test_a_head_reads_and_writes_nothing(self) -> None:
        page = self.page("head")
        assert "Ada Quillfeather" in page
        assert 'name="do"' not in page

    def test_one_persons_day_is_corrected_on_a_page_that_shows_its_history(self) -> None:
        self.come(0)
        version = self.day_of(0).version
        sent = {"version": version, "in_at": "2026-03-03T18:45", "out_at": "2026-03-03T23:30", "note": "watch was slow"}
        response = self.send("day_line", self.line(0).ref, **sent)
        assert response.status_code == 302  # type: ignore[attr-defined]
        page = self.page("dispatch", "day_line", self.line(0).ref)
        assert "it was 2026-03-03 18:30 – …" in page
        stale = self.send("day_line", self.line(0).ref, **sent).content.decode()  # type: ignore[attr-defined]
        assert "Somebody else changed this" in stale
        odd = {**sent, "version": version + 1, "in_at": "0001-01-01T00:00"}
        assert "Check" in self.send("day_line", self.line(0).ref, **odd).content.decode()  # type: ignore[attr-defined]

    def test_extra_hands_come_from_the_roster_and_are_not_on_the_call_yet(self) -> None:
        page = self.page("dispatch", "day_extra")
        assert str(self.stage.people[4].ref) in page
        assert str(self.stage.people[0].ref) not in page
        self.send("day_extra", person=self.stage.people[4].ref, is_here="on", at="19:00")
        assert self.day_of(4).in_at == at(19)
        again = self.send("day_extra", person=self.stage.people[4].ref)
        assert "not on the call yet" in again.content.decode()  # type: ignore[attr-defined]

    def test_the_day_asks_as_much_for_twenty_people_as_for_four(self) -> None:
        def queries() -> int:
            with CaptureQueriesContext(
                connection,
            ) as captured:
                self.page()
            return len(captured)

        self.come(0, 1)
        self.page()  # what is looked up once is looked up
        few = queries()
        for n in range(16):
            person: Person = add_person(actor=ACTOR, roster=self.call.roster, name=f"Hand {n}")
            line = put_at_spot_talk(actor=ACTOR, call=self.call, person=person)
            sign_in(lines=[line], at=at(18, 30), **self.given)
        assert queries() == few


def move(call: Call, day: date, call_at: datetime) -> None:
    """The call at 23:00 on that day, three hours long, without a spot talk."""
    talk = dict.fromkeys(("talk_at", "talk_date", "talk_time"))
    ends = {"ends_at": call_at + timedelta(hours=3), "ends_date": day + timedelta(days=1), "ends_time": time(3)}
    Call.objects.filter(pk=call.pk).update(call_at=call_at, call_date=day, call_time=time(23), **talk, **ends)


@pytest.mark.django_db
def test_a_time_that_clocks_show_twice_is_asked_and_one_they_never_show_refused(client: Client) -> None:
    """In New York clocks go back at 2:00 on 2026-11-01 and forward on 2027-03-14 (IANA time zone database)."""
    stage = a_stage(1)
    move(stage.call, date(2026, 10, 31), datetime(2026, 11, 1, 3, tzinfo=UTC))
    line = put_on_number(actor=ACTOR, call=Call.objects.get(), number="1", person=stage.people[0])
    client.force_login(stage.cast.dispatch)
    address = reverse("crew:call_day", args=[stage.call.ref])
    sent = {"do": "in", "line": line.ref, "at": "01:30"}
    with time_machine.travel(datetime(2026, 11, 1, 12, tzinfo=UTC), tick=False):
        assert "Which one?" in client.post(address, sent).content.decode()
        assert client.post(address, {**sent, "at_fold": "1"}).status_code == 302
    assert Attendance.objects.get().in_at == datetime(2026, 11, 1, 6, 30, tzinfo=UTC)
    move(stage.call, date(2027, 3, 13), datetime(2027, 3, 14, 4, tzinfo=UTC))
    with time_machine.travel(datetime(2027, 3, 14, 12, tzinfo=UTC), tick=False):
        client.force_login(stage.cast.dispatch)  # half a year on
        assert "does not exist" in client.post(address, {**sent, "do": "out", "at": "02:30"}).content.decode()
