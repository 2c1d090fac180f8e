"""The demo: loaded once, never doubled, never reset."""

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.test import TestCase, override_settings
from django.utils import timezone

from crew.board import board_of
from crew.day_rows import day_rows
from crew.demo import OPERATORS, SIGN_INS
from crew.demo_run import NAME
from crew.hour_rows import hours_of_call
from crew.models import Call, Message, Offer, Person
from crew.rule_book import rule_book
from crew.sheet_content import state_of
from shows.models import Engagement, Paperwork, ShowSpot
from venue.core.names import name_key
from venue.core.supply import amperes
from venue.house_file.reading import read_house_file
from venue.house_file.writing import house_text
from venue.models import Event, House, Place, Placement, User


def load() -> dict[str, object]:
    written = StringIO()
    with override_settings(MAY_LOAD_DEMO=True):
        call_command("load_demo", "--json", stdout=written)
    answer: dict[str, object] = json.loads(written.getvalue())
    return answer


def counts() -> list[int]:
    return [model.objects.count() for model in (House, Place, Placement, Engagement, ShowSpot, Person, User, Event)]


class LoadedTest(TestCase):
    """The demo, loaded once."""

    @classmethod
    def setUpTestData(cls) -> None:
        cls.first = load()

    def test_it_is_loaded_once_and_the_second_time_adds_nothing(self) -> None:
        assert self.first["loaded"] is True
        before = counts()
        assert before[:7] == [2, 18, 21, 3, 20, len(OPERATORS), len(SIGN_INS)]
        assert load()["loaded"] is False
        assert counts() == before

    def test_its_papers_and_history_name_somebody_of_the_scenario(self) -> None:
        assert set(Paperwork.objects.values_list("received_by", "accepted_by")) == {("Hollis Varga", "Hollis Varga")}
        assert set(Event.objects.values_list("actor_name", flat=True)) == {"Hollis Varga"}

    def test_what_a_user_changed_is_kept(self) -> None:
        house = House.objects.get(slug="lantern-street")
        house.name = "Lantern Street, renamed"
        house.save()
        head = User.objects.get(username="head")
        head.set_password("a password of my own")
        head.save()
        load()
        house.refresh_from_db()
        head.refresh_from_db()
        assert house.name == "Lantern Street, renamed"
        assert head.check_password("a password of my own")

    def test_the_printed_sign_ins_open_what_they_say(self) -> None:
        for sign_in in SIGN_INS:
            user = User.objects.get(username=sign_in.username)
            assert user.check_password(sign_in.password)
            self.client.force_login(user)
            page = self.client.get("/").content.decode()
            wanted = {"road": "The Weathervane Revue", "dispatch": "Ellery Arena"}
            assert wanted.get(sign_in.username, "Lantern Street Playhouse") in page

    def test_a_call_waits_with_three_of_four_numbers_and_one_operator_for_the_spot_talk(self) -> None:
        call = Call.objects.get(engagement__name="The Weathervane Revue")
        state = state_of(call)
        assert state.code == "none-issued"
        assert [bool(line.operator) for line in state.draft.sheet.lines] == [True, True, False, True]
        assert state.draft.sheet.at_spot_talk == ("Dov Halloran",)
        assert (state.draft.verdict.kind, state.draft.sheet.to_fill) == ("tell", 0)

    def test_a_night_is_over_with_all_that_can_happen_to_a_crew_and_its_hours_carry_flags(self) -> None:
        call = Call.objects.filter(engagement__name=NAME).earliest("call_at")
        rows = day_rows(call, timezone.now())
        assert [row.presence.state for row in rows] == ["out", "out", "out", "sent-home", "no-show", "out"]
        assert [row.name for row in rows if row.presence.late_min] == ["Célestine Marchetto"]
        assert {len(row.meals) for row in rows if row.presence.state == "out"} == {1}
        book = rule_book(call.roster)
        done, still = hours_of_call(call, book)
        assert (len(done), still) == (5, [])
        assert {flag for each in done for flag in each.count.flags} == {"night", "second-meal-late"}
        worked = {each.day.person: (each.count.worked, each.count.paid) for each in done}
        assert worked["Júlia Bencze-Orr"] == (80, 210)  # the minimum of a show
        names = call.roster.hour_rules.values_list("name", flat=True)
        assert [*names] == ["Four-hour calls in whole hours (common practice, no source)"]

    def test_a_night_to_come_has_an_open_question_a_no_a_yes_and_somebody_who_was_replaced(self) -> None:
        call = Call.objects.filter(engagement__name=NAME).latest("call_at")
        offers = Offer.objects.filter(line__call=call).order_by("answered_at")
        assert sorted(offers.values_list("person__name", "answer")) == [
            ("Dov Halloran", ""), ("Farid Osei-Wynn", "declined"), ("Мира Лисовская", "accepted"),
        ]  # fmt: skip
        assert offers.get(answer="declined").note
        line = call.lines.standing().get(number="2")
        assert (line.person.name, line.follows.ended_reason) == ("Júlia Bencze-Orr", "double-booked")
        (found,) = board_of(Call.objects.filter(pk=call.pk))
        assert (found.state, found.latest.n, found.waiting, found.to_fill) == ("changed-not-issued", 2, 1, 1)
        waiting = Message.objects.filter(call=call, delivery="waiting")
        assert sorted(waiting.values_list("person__name", "kind")) == [
            ("Dov Halloran", "offer"), ("Júlia Bencze-Orr", "revision"), ("Zofia Wiśniak", "released"),
            ("Мира Лисовская", "booked"),
        ]  # fmt: skip


@pytest.mark.django_db
def test_it_is_refused_where_known_passwords_would_be_a_danger() -> None:
    with override_settings(MAY_LOAD_DEMO=False), pytest.raises(CommandError, match="known passwords"):
        call_command("load_demo")
    assert not House.objects.exists()


@pytest.mark.parametrize(
    ("house", "paperwork", "code"),
    [
        ("lantern_street", "weathervane_revue.csv", "reversed"),
        ("lantern_street", "weathervane_revue_first_draft.csv", None),
        ("ellery_arena", "copper_heron.csv", "other-way-round"),
        ("ellery_arena", "copper_heron_pasted.txt", "same-order"),
    ],
)
def test_the_files_can_be_tried_by_hand(
    house: str, paperwork: str, code: str | None, capsys: pytest.CaptureFixture[str]
) -> None:
    files = Path("shows/demo")
    call_command("numbering", str(files / f"{house}.json"), str(files / paperwork), "--json")
    judgement = json.loads(capsys.readouterr().out)["against_labels"]
    assert (judgement and judgement["code"]) == code


@pytest.mark.parametrize("name", ["lantern_street", "ellery_arena"])
def test_the_houses_figures_are_possible_and_hold_together(name: str) -> None:
    file = read_house_file(Path(f"shows/demo/{name}.json").read_bytes())
    assert file.warnings == ()
    units = {unit.key: unit for unit in file.units}
    assert all(unit.angle_percent and unit.sized_by and unit.input_w > unit.watts for unit in units.values())
    standing = {stay.place.key: units[name_key(stay.unit)] for stay in file.placements}
    circuits = {circuit.name: circuit for circuit in file.circuits}
    for position in file.positions:
        here = [standing[position.key, slot.key] for slot in position.slots]
        weighed = sum(unit.weight_kg for unit in here) + position.other_load_kg
        assert weighed <= position.load_limit_kg
        for slot, unit in zip(position.slots, here, strict=True):
            circuit = circuits[slot.circuit]
            drawn = amperes(unit.input_w, circuit.volts, unit.power_factor)
            assert drawn + (circuit.other_a or 0) <= 0.8 * circuit.rating_a
    assert read_house_file(house_text(file).encode()) == file
