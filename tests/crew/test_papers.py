"""A sheet's other papers, as pages and as PDF that is read back: they say what the issued sheet says."""

import pytest
from django.test import Client
from django.urls import reverse

from crew.actions import issue_call_sheet, put_on_number
from crew.core.call_sheet import SheetLine, read_sheet
from crew.core.cards import Frame, first_name, frames_of, line_at
from crew.models import Call, IssuedSheet
from crew.sheets.cards import cards_pdf
from crew.sheets.pen import A4, HALF, LETTER, Paper
from tests.crew.stage import Stage, a_stage
from tests.crew.test_call_sheet_pdf import ISSUED, light, lowest, pages, sheet, text
from tests.factories import ACTOR, NOON
from venue.models import Unit

FULL = light(
    3,
    side="house left · stage right",
    neighbors=("1 is to your left", "4 is to your right"),
    home="down center",
    magazine=4,
    frame_1_end="lamp",
    limits=("iris sticks",),
    cautions=("way up: ladder",),
)
CALL = sheet(lines=(light(1), FULL), frame_1_end="lens", caller="Inga, from the desk")


@pytest.mark.parametrize("paper", [HALF, LETTER, A4], ids=lambda paper: paper.name)
def test_a_card_has_all_that_its_operator_needs_on_one_page(paper: Paper) -> None:
    first, second = pages(cards_pdf(CALL, CALL.lines, ISSUED, paper))
    for wanted in (
        *("house label 22", "Rear booth, place 22, unit FS-03", "house left · stage right"),
        "Facing the stage: 1 is to your left, 4 is to your right.",
        *("Call: 6:30 PM, stage door", "Show: 8:00 PM – 10:30 PM", "Channel: B", "Home: down center"),
        *("Caller: Inga, from the desk", "LIMIT: iris sticks", "CAUTION: way up: ladder"),
        "Frames: 1 pale pink · 2 empty · 3 amber · 4 empty",
        "As the show counts: frame 1 at the lens end. As FS-03 counts: frame 1 at the lamp end.",
        *(
            "OPPOSITE ENDS: the show's frame 1 is the unit's frame 4.",
            "Operator card, revision 2 · page 2 of 2",
            "Code ACDE-FGH-JKMN",
        ),
    ):
        assert wanted in second, wanted
    assert second.startswith("3 ")
    assert "Facing the stage" not in first


def test_a_card_with_more_than_a_page_goes_on_under_its_number() -> None:
    long = light(7, notes=" ".join(f"word{n}" for n in range(900)))
    content = cards_pdf(sheet(lines=(long,)), (long,), ISSUED, HALF)
    found = pages(content)
    assert len(found) > 1
    assert all(page.startswith("7 ") for page in found)
    said = text(content)
    assert [n for n in range(899) if f"word{n} " not in said] == []
    assert lowest(content) > 18


def test_frames_are_listed_to_the_end_of_the_magazine_and_turned_only_where_both_ends_are_known() -> None:
    line = SheetLine("1", frames=("amber",), magazine=3)
    assert frames_of(line, sheet(frame_1_end="lens")) == [Frame(1, "amber"), Frame(2, ""), Frame(3, "")]
    assert [frame.on_unit for frame in frames_of(FULL, CALL)] == [4, 3, 2, 1]
    assert frames_of(SheetLine("1"), CALL) == []


def test_a_light_is_found_by_its_place_on_the_sheet_and_a_name_by_its_first_word() -> None:
    assert line_at(CALL, 2) is FULL
    assert line_at(CALL, 0) is line_at(CALL, 3) is None
    assert [first_name("Ada Quillfeather"), first_name("")] == ["Ada", ""]


@pytest.fixture
def stage(db: None) -> Stage:
    made = a_stage(4)
    put_on_number(actor=ACTOR, call=made.call, number="2", person=made.people[0])
    Unit.objects.update(frames=6, frame_1_end="lamp")
    engagement = made.cast.engagement
    engagement.frame_1_end, engagement.caller = "lens", "Inga, from the desk"
    engagement.save()
    engagement.spots.update(home="down center")
    return made


def issued(stage: Stage) -> IssuedSheet:
    call = Call.objects.select_related("event", "engagement__house", "engagement__setup").get(pk=stage.call.pk)
    return issue_call_sheet(actor=ACTOR, call=call, now=NOON).sheet


def test_an_issued_sheet_has_what_its_papers_need(stage: Stage) -> None:
    content = read_sheet(issued(stage).content)
    assert (content.caller, content.frame_1_end) == ("Inga, from the desk", "lens")
    second = content.lines[1]
    assert second.neighbors == ("1 is to your left", "3 is to your right")
    assert (second.home, second.magazine, second.frame_1_end) == ("down center", 6, "lamp")
    assert [(line.row, line.position_zone) for line in content.lines] == [(n, "front") for n in range(1, 5)]


def test_the_pages_of_cards_open_from_the_sheet_and_odd_addresses_are_not_found(stage: Stage, client: Client) -> None:
    made = issued(stage)
    client.force_login(stage.cast.head)
    where = [stage.call.ref, made.n]
    assert reverse("crew:cards", args=where) in client.get(reverse("crew:sheet", args=where)).content.decode()
    assert reverse("crew:card", args=[*where, 2]) in client.get(reverse("crew:cards", args=where)).content.decode()
    page = client.get(reverse("crew:card", args=[*where, 2])).content.decode()
    for wanted in ("Ada Quillfeather", "1 is to your left, 3 is to your right", "down center", "OPPOSITE ENDS"):
        assert wanted in page, wanted
    for odd in (reverse("crew:card", args=[*where, 99]), reverse("crew:cards_pdf", args=[*where, "a5"])):
        assert client.get(odd).status_code == 404
    frames = client.get(reverse("crew:frames", args=where)).content.decode()
    assert frames.count("The two count".upper()) == 4
    plain, turned = (
        client.get(reverse("crew:chart", args=where), {"turned": said}).content.decode() for said in ("", "yes")
    )
    assert plain.index("<b>1</b>") < plain.index("<b>4</b>")
    assert turned.index("<b>4</b>") < turned.index("<b>1</b>")
    assert ("TURNED BY 180 DEGREES" in plain, "TURNED BY 180 DEGREES" in turned) == (False, True)
    tapes = client.get(reverse("crew:tapes", args=where)).content.decode()
    assert tapes.count("Home: down center") == 4
    assert "Ada" in tapes
    printed = reverse("crew:cards_pdf", args=[*where, "half"])
    assert len(pages(client.get(printed, {"light": "2"}).content)) == 1
    for odd in ("0", "x", "-1", "9" * 30, "²"):
        assert client.get(printed, {"light": odd}).status_code == 404
