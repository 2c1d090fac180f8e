"""Hours of calls on pages, and the rules that they are counted by. Hours, never money."""

import csv
import io
import json
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
import time_machine
from django.db import connection
from django.test import TestCase
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import add_person, make_call, put_at_spot_talk, put_on_number
from crew.actions.day import add_meal, sign_in, sign_out
from crew.actions.rules import change_rules, end_rules, follow_rules, make_rules
from crew.core.hours.presets import PRESETS
from crew.core.hours.problems import Problem
from crew.core.hours.reading_rules import read_rules
from crew.core.rule_fields import field_of, fields_of, rules_of
from crew.errors import RulesFromThen, RulesRefused
from crew.hour_rows import hours_of_call
from crew.models import Call, CallLine, HourRules
from crew.models.hour_rules import FROM_THE_START
from crew.rule_book import rule_book
from shows.actions import add_show_event
from shows.actions.engagements import make_engagement
from tests.crew.stage import Stage, a_stage, call_facts
from tests.crew.test_call_sheet_pdf import pages
from tests.factories import ACTOR
from venue.models import Event
from venue.wording import event_sentence

FOUR_HOURS = dict(PRESETS[0].rules)


def at(hour: int, minute: int = 0, day: int = 3) -> datetime:
    """An instant as the clocks of the stage's house show it."""
    return datetime(2026, 3, day, hour, minute, tzinfo=ZoneInfo("America/New_York"))


NIGHT = at(12, day=5)


# -- rules as fields ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("preset", PRESETS, ids=lambda preset: preset.name)
def test_a_preset_says_the_same_after_its_way_through_the_form(preset: object) -> None:
    rules = dict(preset.rules)  # type: ignore[attr-defined]
    again = rules_of(fields_of(rules))
    assert json.loads(json.dumps(again)) == again, "it can be stored"
    assert read_rules(again) == read_rules(rules)


def test_every_key_of_the_rules_has_its_field() -> None:
    rules = {
        "minimum_h": 4,
        "increment_min": 30,
        "meal_by_h": 5,
        "meal_penalty": "one-hour",
        "combine": "multiply",
        "overtime": [{"after_h": 8, "rate": 1.5, "day": "calendar"}],
        "weekly": [{"after_h": 40, "rate": 1.5}],
        "night": {"from": "00:00", "to": "08:00", "rate": 2},
        "rest_h": 8,
        "show_minimum_h": 3.5,
        "pad_rate": "last",
        "recall_h": 2,
        "recall_gap_h": 1.5,
        "cancel_notice_h": 24,
        "cancel_pay_h": 4,
        "holidays": ["2026-12-25", "2027-01-01"],
        "holiday_rate": 2,
        "seventh_day_rate": 1.25,
        "long_day_h": 14,
        "start_grid_min": 30,
        "round_min": 15,
        "week_starts": "sunday",
        "day_turns": "04:00",
        "counted": "paid",
        "reporting": {"share": 0.5, "least_h": 2, "most_h": 4},
    }
    assert read_rules(rules).problems == ()
    assert rules_of(fields_of(rules)) == rules


@pytest.mark.parametrize(
    ("path", "field"),
    [
        ("$.minimum_h", "minimum_h"),
        ("$.overtime[0].rate", "overtime_2_rate"),
        ("$.overtime[0]", "overtime_2_after_h"),
        ("$.night.from", "night_from"),
        ("$.night", "night_from"),
        ("$.holidays[1]", "holidays"),
        ("$.reporting.most_h", "reporting_most_h"),
        ("$.overtime[7].rate", ""),
    ],
)
def test_a_problem_is_told_at_its_field(path: str, field: str) -> None:
    assert field_of(Problem("bad-number", path=path), {"overtime_1_rate": "", "overtime_2_rate": "x"}) == field


# -- pages --------------------------------------------------------------------------------------------------


class HourPagesTest(TestCase):
    """A show call at 19:00 with the half hour of nobody; three people on it, two of them have left."""

    stage: Stage

    @classmethod
    def setUpTestData(cls) -> None:
        cls.stage = a_stage(3)
        Call.objects.filter(pk=cls.stage.call.pk).update(call_at=at(19), call_time=at(19).time())
        for number, person in zip("123", cls.stage.people[:3], strict=True):
            put_on_number(actor=ACTOR, call=Call.objects.get(), number=number, person=person)

    def setUp(self) -> None:
        traveler = time_machine.travel(NIGHT, tick=False)
        traveler.start()
        self.addCleanup(traveler.stop)
        self.call = Call.objects.select_related("engagement__house", "event", "roster").get(pk=self.stage.call.pk)
        self.roster = self.call.roster

    def line(self, index: int, call: Call | None = None) -> CallLine:
        lines = (call or self.call).lines.standing().select_related("person", "call")
        return lines.get(person=self.stage.people[index])

    def work(self, index: int, came: datetime, left: datetime | None, call: Call | None = None) -> None:
        given = {"actor": ACTOR, "call": call or self.call, "lines": [self.line(index, call)], "now": NIGHT}
        sign_in(at=came, **given)
        if left is not None:
            sign_out(at=left, **given)

    def rules(self, **rules: object) -> HourRules:
        return make_rules(actor=ACTOR, roster=self.roster, house=None, name="ours", rules=rules or FOUR_HOURS)

    def another_call(self, kind: str, starts: datetime) -> Call:
        wall = starts.replace(tzinfo=None)
        event = add_show_event(actor=ACTOR, engagement=self.call.engagement, kind=kind, starts=wall)
        facts = call_facts(call=wall, talk=None, ends=wall + timedelta(hours=2))
        return make_call(actor=ACTOR, roster=self.roster, event=event, facts=facts)

    def page(self, name: str, *args: object, who: str = "dispatch", **query: str) -> str:
        self.client.force_login(getattr(self.stage.cast, who))
        response = self.client.get(reverse(f"crew:{name}", args=args), query)
        assert response.status_code == 200
        return " ".join(response.content.decode().split())

    def send(self, address: str, *args: object, **data: object) -> str:
        """The page that answers; empty where it was stored."""
        self.client.force_login(self.stage.cast.dispatch)
        response = self.client.post(reverse(f"crew:{address}", args=args), data)
        assert response.status_code in {200, 302}
        return response.content.decode()

    def test_minimum_hours_paid_and_the_next_meal_are_worked_out(self) -> None:
        """Story: 3.5 h minimum, call 19:00, out 21:40 -> 3.5 h paid; meal due at +5 h shown."""
        self.rules()
        self.work(0, at(18, 50), at(21, 40))
        page = self.page("call_hours", self.call.ref)
        assert "<td>2.67</td><td><strong>3.50</strong></td><td>2.67</td>" in page
        assert "minimum 3.5 h" in page
        assert "meal due by Mar 4, 12:00 AM, 5 h after 7:00 PM" in page

    def test_who_has_no_time_out_is_named_and_not_guessed(self) -> None:
        self.rules()
        self.work(0, at(19), None)
        page = self.page("call_hours", self.call.ref, who="head")
        assert "Ada Quillfeather" in page
        assert "in 7:00 PM, no time out yet · meal due by Mar 4, 12:00 AM" in page
        assert "<table" not in page

    def test_without_rules_what_was_worked_is_what_is_paid(self) -> None:
        self.work(0, at(19, 10), at(21, 40))
        page = self.page("call_hours", self.call.ref)
        assert "No rules are on file" in page
        assert "<td>2.50</td><td><strong>2.50</strong></td>" in page

    def test_a_meal_is_no_work_and_the_next_is_due_after_it(self) -> None:
        self.rules()
        self.work(0, at(19), at(23, 30))
        lines = [self.line(0)]
        add_meal(actor=ACTOR, call=self.call, lines=lines, starts=at(20), ends=at(20, 30), now=NIGHT)
        (each,), waiting = hours_of_call(self.call, rule_book(self.roster))
        assert (each.count.worked, waiting) == (240, [])
        assert "meal due by Mar 4, 1:30 AM, 5 h after 8:30 PM" in self.page("call_hours", self.call.ref)

    def test_calls_before_bear_on_this_one(self) -> None:
        """Out 01:00, next call 08:00, rest of 8 h -> short rest (the same case as in the hours' own tests)."""
        self.rules()
        self.roster.rest_min = 0  # so that the person can be put on both
        late = self.another_call("load-out", at(23, day=3))
        early = self.another_call("load-in", at(8, day=4))
        for call in (late, early):
            put_at_spot_talk(actor=ACTOR, call=call, person=self.stage.people[4])
        self.work(4, at(23, day=3), at(1, day=4), late)
        self.work(4, at(8, day=4), at(10, 30, day=4), early)
        (each,), _waiting = hours_of_call(early, rule_book(self.roster))
        assert set(each.count.flags) == {"short-rest", "forced-call"}
        assert each.count.paid == 240

    def test_two_who_share_a_name_are_two(self) -> None:
        self.rules()
        twin = add_person(actor=ACTOR, roster=self.roster, name="Ada Quillfeather")
        line = put_at_spot_talk(actor=ACTOR, call=self.call, person=twin)
        self.work(0, at(19), at(23))
        given = {"actor": ACTOR, "call": self.call, "lines": [line], "now": NIGHT}
        sign_in(at=at(19), **given)
        sign_out(at=at(23), **given)
        done, _waiting = hours_of_call(self.call, rule_book(self.roster))
        assert [each.count.worked for each in done] == [240, 240]

    def test_a_houses_own_rules_hold_in_it(self) -> None:
        self.rules(minimum_h=4)
        self.work(0, at(19), at(20))
        make_rules(actor=ACTOR, roster=self.roster, house=self.stage.cast.house, name="own", rules={"minimum_h": 2})
        (each,), _waiting = hours_of_call(self.call, rule_book(self.roster))
        assert each.count.paid == 120

    def test_the_week_adds_up_by_person_and_by_show(self) -> None:
        self.rules()
        self.work(0, at(19), at(21, 40))
        self.work(1, at(19), at(23, 30))
        self.work(2, at(19), None)
        page = self.page("roster_hours", self.roster.ref, week="2026-03-05")
        assert "Hours, week of March 2, 2026" in page
        assert "Zofia Wiśniak, Nine Paper Boats, Mar 3: in 7:00 PM, no time out yet" in page
        assert "<td>7.17</td><td>8.00</td>" in page, "2.67 + 4.50 worked, 3.50 + 4.50 paid"
        assert "No hours are counted here" in self.page("roster_hours", self.roster.ref, week="2026-03-09")

    def test_an_odd_week_is_told_at_its_field(self) -> None:
        for week in ("yesterday", "9999-12-31", "0001-01-01", "2026-02-30", "\0", "1" * 400):
            assert "Write a day" in self.page("roster_hours", self.roster.ref, week=week), week
        assert "Write a day" in self.page("roster_hours_file", self.roster.ref, week="x")

    def test_the_csv_is_safe_and_has_a_line_a_person_and_call(self) -> None:
        self.rules()
        self.stage.people[0].name = "=Ada"
        self.stage.people[0].save()
        self.work(0, at(19), at(21, 40))
        self.client.force_login(self.stage.cast.dispatch)
        address = reverse("crew:roster_hours_file", args=[self.roster.ref])
        response = self.client.get(address, {"week": "2026-03-03", "form": "csv"})
        content = b"".join(response.streaming_content).decode("utf-8-sig")  # type: ignore[attr-defined]
        (row,) = csv.DictReader(io.StringIO(content))
        assert (row["person"], row["work from"], row["until"]) == ("'=Ada", "2026-03-03 19:00", "2026-03-03 21:40")
        assert (row["worked h"], row["paid h"], row["by rate"]) == ("2.67", "3.50", "3.50 × 1.0")
        for paper in ("letter", "a4"):
            assert self.client.get(address, {"week": "2026-03-03", "form": paper}).content.startswith(b"%PDF")

    def test_a_call_is_a_list_and_a_paper_for_dispatch_and_for_the_head_of_the_house(self) -> None:
        self.rules()
        self.work(0, at(19), at(21, 40))
        address = reverse("crew:call_hours_file", args=[self.call.ref])
        for who in ("head", "dispatch"):
            self.client.force_login(getattr(self.stage.cast, who))
            content = b"".join(self.client.get(address).streaming_content).decode("utf-8-sig")  # type: ignore[attr-defined]
            (row,) = csv.DictReader(io.StringIO(content))
            assert (row["person"], row["worked h"], row["paid h"]) == ("Ada Quillfeather", "2.67", "3.50")
            (text, *_more) = pages(self.client.get(address, {"form": "a4"}).content)
            assert "Hours of Nine Paper Boats, Show, Tuesday, March 3, 2026" in text
        assert reverse("crew:person_hours", args=[self.roster.ref, self.stage.people[0].ref]) in self.page(
            "call_hours", self.call.ref
        )
        assert "persons" not in self.page("call_hours", self.call.ref, who="head"), "the head is led to no person"

    def test_a_person_has_the_sums_of_the_days_asked_for(self) -> None:
        self.rules()
        ada, early = self.stage.people[0], self.another_call("load-in", at(8, day=4))
        put_at_spot_talk(actor=ACTOR, call=early, person=ada)
        self.work(0, at(19), at(21, 40))
        self.work(0, at(8, day=4), at(13, day=4), early)
        self.work(1, at(19), at(23))
        args = (self.roster.ref, ada.ref)
        page = self.page("person_hours", *args)
        assert "From Friday, February 6, 2026 to Thursday, March 5, 2026." in page, "the last four weeks"
        assert "<td><strong>7.67</strong></td><td><strong>8.50</strong></td>" in page, "2.67 + 5 worked, 3.5 + 5 paid"
        assert "Мира" not in page
        one_day = {"first": "2026-03-04", "last": "2026-03-04"}
        assert "<td><strong>5.00</strong></td><td><strong>5.00</strong></td>" in self.page(
            "person_hours", *args, **one_day
        )
        for odd in ({"first": "2026-03-05", "last": "2026-03-04"}, {"first": "1999-01-01"}, {"last": "\0"}):
            assert "Write a day" in self.page("person_hours", *args, **odd)
            assert "Write a day" in self.page("person_hours_file", *args, **odd)
        response = self.client.get(reverse("crew:person_hours_file", args=args), {**one_day, "form": "letter"})
        assert "Hours of Ada Quillfeather, Mar 4, 2026" in pages(response.content)[0]
        assert reverse("crew:person_hours", args=args) in self.page("person", *args)

    def test_a_show_has_all_its_calls_and_other_shows_bear_on_them(self) -> None:
        """Eight hours of another show on the same day: 2 h of this one are over 8 h by the day, at 1.5."""
        self.rules(overtime=[{"after_h": 8, "rate": 1.5}])
        other = other_show_call(self, at(8))
        put_at_spot_talk(actor=ACTOR, call=other, person=self.stage.people[4])
        self.work(4, at(8), at(16), other)
        put_at_spot_talk(actor=ACTOR, call=self.call, person=self.stage.people[4])
        self.work(4, at(19), at(21))
        self.work(0, at(19), at(22))
        args = (self.roster.ref, self.call.engagement.ref)
        page = self.page("show_hours", *args)
        assert "<td>5.00</td><td>5.00</td><td>5.00</td><td>6.00</td>" in page, "2 × 1.5 + 3 straight"
        assert "Another Show" not in page
        rows = self.client.get(reverse("crew:show_hours_file", args=args)).streaming_content  # type: ignore[attr-defined]
        assert [row["person"] for row in csv.DictReader(io.StringIO(b"".join(rows).decode("utf-8-sig")))] == [
            "Ada Quillfeather",
            "Júlia Bencze-Orr",
        ]
        assert reverse("crew:show_hours", args=args) in self.page("roster_hours", self.roster.ref, **WEEK)
        self.client.force_login(self.stage.cast.head)
        assert self.client.get(reverse("crew:show_hours", args=args)).status_code == 404

    def test_hours_ask_as_much_for_twenty_people_as_for_two(self) -> None:
        addresses = (
            ("call_hours", (self.call.ref,), {}),
            ("roster_hours", (self.roster.ref,), WEEK),
            ("show_hours", (self.roster.ref, self.call.engagement.ref), {}),
            ("person_hours", (self.roster.ref, self.stage.people[0].ref), {}),
            ("rules", (self.roster.ref,), {}),
        )

        def queries() -> list[int]:
            found = []
            for name, refs, query in addresses:
                with CaptureQueriesContext(connection) as captured:
                    self.page(name, *refs, **query)
                found.append(len(captured))
            return found

        self.rules()
        for index in (0, 1):
            self.work(index, at(19), at(22))
        queries()  # what is looked up once is looked up
        few = queries()
        for n in range(18):
            line = put_at_spot_talk(
                actor=ACTOR, call=self.call, person=add_person(actor=ACTOR, roster=self.roster, name=f"Hand {n}")
            )
            sign_in(actor=ACTOR, call=self.call, lines=[line], at=at(19), now=NIGHT)
            sign_out(actor=ACTOR, call=self.call, lines=[line], at=at(22), now=NIGHT)
            follow_rules(actor=ACTOR, row=HourRules.objects.earliest("pk"), first_day=date(2026, 3, 1 + n))
        assert queries() == few, "however many people, and sets of rules"

    # -- rules -------------------------------------------------------------------------------------------

    def test_rules_begin_with_a_preset_and_every_number_can_be_changed(self) -> None:
        assert self.send("rules_start", self.roster.ref, preset="four-hour-calls") == ""
        row = HourRules.objects.get()
        assert "common practice, no source" in row.name
        sent = {**fields_of(row.rules), "minimum_h": "4,5", "version": 1, "name": "our agreement of 2026"}
        assert self.send("rules_edit", self.roster.ref, row.ref, **sent) == ""
        row.refresh_from_db()
        assert row.rules == {**FOUR_HOURS, "minimum_h": 4.5}
        assert "our agreement of 2026" in self.page("rules", self.roster.ref)
        line = Event.objects.order_by("-pk")[0]
        assert event_sentence(line).startswith("changed the rules for hours our agreement of 2026")

    def test_a_wrong_number_is_told_at_its_field_and_nothing_is_stored(self) -> None:
        row = self.rules()
        sent = {**fields_of(row.rules), "version": 1, "name": "ours", "rest_h": "NaN", "overtime_1_rate": "99"}
        page = " ".join(self.send("rules_edit", self.roster.ref, row.ref, **sent).split())
        assert "can&#x27;t be; write a number from 0 to 168." in page
        assert "99 can&#x27;t be; write a number from 1 to 10." in page
        assert page.count("field-wrong") == 2
        row.refresh_from_db()
        assert (row.version, row.rules) == (1, FOUR_HOURS)
        alone = {"version": 1, "name": "ours", "recall_h": "2", "night_from": "8 PM", "holidays": "Christmas"}
        page = self.send("rules_edit", self.roster.ref, row.ref, **alone)
        assert page.count("field-wrong") == 5, "the recall's gap, the night's three, the holiday"

    def test_rules_with_a_problem_are_never_stored_and_stale_ones_refused(self) -> None:
        row = self.rules()
        with pytest.raises(RulesRefused):
            change_rules(actor=ACTOR, row=row, name="ours", rules={"minimum_h": -1}, seen=1)
        assert self.send("rules_edit", self.roster.ref, row.ref, version=1, name="ours", minimum_h="4") == ""
        assert "meanwhile" in self.send("rules_edit", self.roster.ref, row.ref, version=1, name="ours", minimum_h="5")

    def test_a_house_begins_and_ends_its_own_rules(self) -> None:
        house = self.stage.cast.house
        address = reverse("crew:rules_start", args=[self.roster.ref]) + f"?house={house.slug}"
        self.client.force_login(self.stage.cast.dispatch)
        assert self.client.post(address, {"preset": "empty"}).status_code == 302
        row = HourRules.objects.get()
        assert (row.house, row.rules, row.first_day) == (house, {}, FROM_THE_START)
        assert "“our own rules” holds already" in self.client.post(address, {"preset": "empty"}).content.decode()
        assert self.send("rules_end", self.roster.ref, row.ref, reason="as everywhere") == ""
        assert rule_book(self.roster).sets == {}
        assert self.client.get(address.replace(house.slug, "nowhere")).status_code == 404

    def test_new_numbers_from_a_day_leave_the_days_before_as_they_are_counted(self) -> None:
        row = self.rules(minimum_h=4)
        early = self.another_call("load-in", at(12, day=4))
        put_at_spot_talk(actor=ACTOR, call=early, person=self.stage.people[0])
        self.work(0, at(19), at(20))
        self.work(0, at(12, day=4), at(13, day=4), early)
        assert self.send("rules_follow", self.roster.ref, row.ref, first_day="2026-03-04") == ""
        made = HourRules.objects.latest("pk")
        assert (made.first_day, made.rules, made.name) == (date(2026, 3, 4), row.rules, row.name)
        line = Event.objects.order_by("-pk")[0]
        assert "rules for hours from 2026-03-04 on: ours" in event_sentence(line)
        sent = {**fields_of(made.rules), "minimum_h": "6", "version": 1, "name": "next season"}
        assert self.send("rules_edit", self.roster.ref, made.ref, **sent) == ""

        def paid() -> list[int]:
            book = rule_book(self.roster)
            return [each.count.paid // 60 for call in (self.call, early) for each in hours_of_call(call, book)[0]]

        assert paid() == [4, 6]
        page = self.page("rules", self.roster.ref)
        assert "through Mar 3, 2026" in page
        assert "from Mar 4, 2026 on · <strong>in force today</strong>" in page
        assert page.count("in force today") == 1
        assert "recounts the past days" in self.page("rules_edit", self.roster.ref, made.ref)
        assert "“ours”, the rules before these, hold again." in self.page("rules_end", self.roster.ref, made.ref)
        made.refresh_from_db()
        end_rules(actor=ACTOR, row=made, at=NIGHT, reason="wrong")
        assert paid() == [4, 4]

    def test_a_day_that_has_rules_already_is_refused_and_named(self) -> None:
        row = self.rules()
        follow_rules(actor=ACTOR, row=row, first_day=date(2026, 6, 1))
        with pytest.raises(RulesFromThen):
            follow_rules(actor=ACTOR, row=row, first_day=date(2026, 6, 1))
        page = self.send("rules_follow", self.roster.ref, row.ref, first_day="2026-06-01")
        assert "“ours” holds from Jun 1, 2026 on already" in page
        for odd in ("", "soon", "0001-01-01", "99999-01-01", "2026-02-30", "\0"):
            assert "field-wrong" in self.send("rules_follow", self.roster.ref, row.ref, first_day=odd), odd
        assert HourRules.objects.count() == 2

    def test_who_works_over_a_change_of_rules_is_counted_by_each_set_with_all_in_sight(self) -> None:
        """Rest of 8 h is new from the 4th: out at 1:00, back at 8:00, so that the second call has a short rest."""
        row = self.rules(minimum_h=4)
        new = make_rules(
            actor=ACTOR,
            roster=self.roster,
            house=None,
            name="new",
            first_day=date(2026, 3, 4),
            rules={"minimum_h": 5, "rest_h": 8},
        )
        self.roster.rest_min = 0
        late, early = self.another_call("load-out", at(23)), self.another_call("load-in", at(8, day=4))
        for call in (late, early):
            put_at_spot_talk(actor=ACTOR, call=call, person=self.stage.people[4])
        self.work(4, at(23), at(1, day=4), late)
        self.work(4, at(8, day=4), at(9, day=4), early)
        book = rule_book(self.roster)
        (first,), (second,) = hours_of_call(late, book)[0], hours_of_call(early, book)[0]
        assert (first.count.paid, first.count.flags) == (240, ())
        assert (second.count.paid, set(second.count.flags)) == (300, {"short-rest", "forced-call"})
        assert f"rules/{row.ref}/" in self.page("call_hours", late.ref)
        assert f"rules/{new.ref}/" in self.page("call_hours", early.ref)


WEEK = {"week": "2026-03-03"}


def other_show_call(test: HourPagesTest, starts: datetime) -> Call:
    """A load-in of another show in the same house."""
    show = test.call.engagement
    days = {"starts_on": show.starts_on, "ends_on": show.ends_on}
    other = make_engagement(actor=ACTOR, house=show.house, setup=show.setup, name="Another Show", **days)
    wall = starts.replace(tzinfo=None)
    event = add_show_event(actor=ACTOR, engagement=other, kind="load-in", starts=wall)
    facts = call_facts(call=wall, talk=None, ends=wall + timedelta(hours=8))
    return make_call(actor=ACTOR, roster=test.roster, event=event, facts=facts)
