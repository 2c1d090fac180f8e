"""The demo: loaded once, never doubled, never reset."""

import json
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.test import override_settings

from crew.demo import OPERATORS, SIGN_INS
from crew.models import Call, Person
from crew.sheet_content import state_of
from shows.models import Engagement, Paperwork, ShowSpot
from venue.core.names import name_key
from venue.core.supply import amperes
from venue.house_file.reading import read_house_file
from venue.house_file.writing import house_text
from venue.models import Event, House, Place, Placement, User

pytestmark = pytest.mark.django_db


def load(capsys: pytest.CaptureFixture[str]) -> dict[str, object]:
    with override_settings(MAY_LOAD_DEMO=True):
        call_command("load_demo", "--json")
    answer: dict[str, object] = json.loads(capsys.readouterr().out)
    return answer


def counts() -> list[int]:
    return [model.objects.count() for model in (House, Place, Placement, Engagement, ShowSpot, Person, User, Event)]


def test_it_is_loaded_once_and_the_second_time_adds_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    assert load(capsys)["loaded"] is True
    before = counts()
    assert before[:7] == [2, 18, 21, 2, 16, len(OPERATORS), len(SIGN_INS)]
    assert load(capsys)["loaded"] is False
    assert counts() == before


def test_its_papers_and_history_name_somebody_of_the_scenario(capsys: pytest.CaptureFixture[str]) -> None:
    load(capsys)
    assert set(Paperwork.objects.values_list("received_by", "accepted_by")) == {("Hollis Varga", "Hollis Varga")}
    assert set(Event.objects.values_list("actor_name", flat=True)) == {"Hollis Varga"}


def test_what_a_user_changed_is_kept(capsys: pytest.CaptureFixture[str]) -> None:
    load(capsys)
    house = House.objects.get(slug="lantern-street")
    house.name = "Lantern Street, renamed"
    house.save()
    head = User.objects.get(username="head")
    head.set_password("a password of my own")
    head.save()
    load(capsys)
    house.refresh_from_db()
    head.refresh_from_db()
    assert house.name == "Lantern Street, renamed"
    assert head.check_password("a password of my own")


def test_the_printed_sign_ins_open_what_they_say(capsys: pytest.CaptureFixture[str], client: object) -> None:
    load(capsys)
    for sign_in in SIGN_INS:
        user = User.objects.get(username=sign_in.username)
        assert user.check_password(sign_in.password)
        client.force_login(user)  # type: ignore[attr-defined]
        page = client.get("/").content.decode()  # type: ignore[attr-defined]
        wanted = {"road": "The Weathervane Revue", "dispatch": "Ellery Arena"}
        assert wanted.get(sign_in.username, "Lantern Street Playhouse") in page


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


def test_a_call_waits_with_three_of_four_numbers_and_one_operator_for_the_spot_talk(
    capsys: pytest.CaptureFixture[str],
) -> None:
    load(capsys)
    call = Call.objects.get()
    state = state_of(call)
    assert state.code == "none-issued"
    assert [bool(line.operator) for line in state.draft.sheet.lines] == [True, True, False, True]
    assert state.draft.sheet.at_spot_talk == ("Dov Halloran",)
    assert (state.draft.verdict.kind, state.draft.sheet.to_fill) == ("tell", 0)
