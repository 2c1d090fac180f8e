"""Who did what: each verb adds a line, each line has a sentence, no line holds a way to reach a person."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.factories import ACTOR, NOON, hours, make_a_house, make_place, make_position, make_unit, make_user
from venue.actions import (
    change,
    end_place,
    end_placement,
    end_position,
    end_unit,
    grant_membership,
    move_unit,
    place_unit,
    revoke_membership,
    set_zone,
)
from venue.history import Actor, record, without_contacts
from venue.models import Event
from venue.wording import EVENT_SENTENCES, event_sentence

ROOT = Path(__file__).resolve().parents[2]


def recorded_verbs() -> Iterator[str]:
    """Every verb that stands in the source of an action or of the house file's loading, such as "unit.placed"."""
    for path in [*ROOT.glob("*/actions/*.py"), *ROOT.glob("venue/house_file/book/*.py")]:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Constant) and re.fullmatch(r"[a-z]+\.[a-z_]+", str(node.value)):
                yield str(node.value)


def test_every_verb_has_a_sentence_and_every_sentence_a_verb() -> None:
    verbs = set(recorded_verbs())
    assert len(verbs) > 20
    verbs |= {verb for verb in EVENT_SENTENCES if verb.endswith(".changed")}  # made by `change` from the row's name
    assert set(EVENT_SENTENCES) == verbs


@pytest.mark.django_db
def test_a_line_says_who_what_and_when() -> None:
    user = make_user(printed_name="Ada Quill")
    house = make_a_house()
    unit = make_unit(house, tag="FS-1")
    line = record(Actor.of_user(user), "unit.added", unit, house=house, tag="FS-1")
    assert (line.actor_kind, line.actor_user, line.actor_name) == ("user", user, "Ada Quill")
    assert list(Event.objects.about("unit", unit.ref).filter(actor_user=user)) == [line]
    assert event_sentence(line) == "added the unit FS-1"


@pytest.mark.django_db
def test_links_and_commands_act_under_a_printed_name() -> None:
    house = make_a_house()
    lines = [record(actor, "house.changed", house, house=house) for actor in (Actor.of_link("road crew"), ACTOR)]
    assert [(line.actor_kind, line.actor_name) for line in lines] == [("link", "road crew"), ("command", "tests")]


@pytest.mark.django_db
def test_a_user_is_named_on_paper_as_they_wish() -> None:
    plain, full, printed = (
        make_user("ada"),
        make_user(first_name="Ada", last_name="Quill"),
        make_user(printed_name="A. Q."),
    )
    assert [user.name_on_paper for user in (plain, full, printed)] == ["ada", "Ada Quill", "A. Q."]


@pytest.mark.django_db
def test_a_house_tells_its_story() -> None:
    house = make_a_house(name="Quillmark Hall")
    booth = make_position(house, name="Booth")
    first, second = make_place(booth, label="1"), make_place(booth, label="2")
    unit, user = make_unit(house, tag="FS-1"), make_user("ada")
    grant_membership(actor=ACTOR, house=house, user=user, role="reader")
    revoke_membership(actor=ACTOR, house=house, user=user, at=NOON, reason="left")
    set_zone(actor=ACTOR, setup=house.setups.get(), position=booth, zone="bowl")
    place_unit(actor=ACTOR, unit=unit, place=first, starts_at=NOON)
    placement = move_unit(actor=ACTOR, unit=unit, to=second, at=NOON + hours(1))
    end_placement(actor=ACTOR, placement=placement, at=NOON + hours(2))
    end_unit(actor=ACTOR, unit=unit, at=NOON + hours(2), reason="sold")
    end_place(actor=ACTOR, place=second, at=NOON + hours(2), reason="rail out")
    change(actor=ACTOR, row=booth, house=house, seen=1, values={"name": "Rear booth"})
    end_position(actor=ACTOR, position=booth, at=NOON + hours(2), reason="wall moved")
    assert [event_sentence(line) for line in house.history.all()] == [
        "opened the house Quillmark Hall",
        "added the set-up Usual",
        "had the roster Quillmark Hall serve Quillmark Hall",
        "added the position Booth",
        "added Booth, place 1",
        "added Booth, place 2",
        "added the unit FS-1",
        "made ada reader of the house",
        "ended the access of ada: left",
        "set the zone of Booth in the set-up Usual to bowl",
        "put FS-1 at Booth, place 1",
        "moved FS-1 from Booth, place 1 to Booth, place 2",
        "took FS-1 away from Booth, place 2",
        "took the unit FS-1 off the books: sold",
        "ended Booth, place 2: rail out",
        "changed the position Rear booth",
        "ended the position Rear booth: wall moved",
    ]


@pytest.mark.django_db
def test_an_old_line_without_a_detail_and_one_of_an_unknown_verb_are_still_read() -> None:
    house = make_a_house()
    bare = record(ACTOR, "unit.added", house, house=house)
    unknown = record(ACTOR, "unit.polished", house, house=house)
    assert [event_sentence(line) for line in (bare, unknown)] == ["added the unit …", "unit.polished"]


@pytest.mark.parametrize("data", [{"email": "x"}, {"person": {"Phone": "555"}}, {"rows": [{"contact": 1}]}])
def test_a_detail_named_as_a_contact_is_refused(data: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match="contact values never enter"):
        without_contacts(data)


def test_a_mail_address_in_a_text_is_struck_out() -> None:
    data = {"reason": "ask ada@example.org first", "list": ["a@b.example", 3, None]}
    assert without_contacts(data) == {"reason": "ask … first", "list": ["…", 3, None]}
