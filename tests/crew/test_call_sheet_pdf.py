"""The call sheet on paper, read back: all that it must say, in any Latin or Cyrillic text, on both papers."""

from dataclasses import replace
from datetime import datetime
from io import BytesIO

import pytest
from pypdf import PdfReader

from crew.core.call_sheet import CallSheet, SheetLine
from crew.sheets.call_sheet import Imprint, call_sheet_pdf
from crew.sheets.lettering import BOLD, REGULAR, UNPRINTABLE, fitting_size, printable, width, wrapped
from crew.sheets.pen import A4, LETTER, PAPERS, Paper

NAMES = ("Ada Quillfeather", "Мира Лисовская", "Zofia Wiśniak", "", "Ștefan Țurcanu-Đorđević")
PRINTED = datetime(2026, 3, 3, 17, 4)
ISSUED = Imprint(
    printed_at=PRINTED,
    revision=2,
    issued_at=datetime(2026, 3, 3, 16, 55),
    issued_by="Dilys Okafor-Penn",
    code="ACDEFGHJKMN",
    address="https://house.example/q/ACDEFGHJKMN",
)


def light(index: int, **facts: object) -> SheetLine:
    usual = {
        "number": f"{index}",
        "label": f"{25 - index}",
        "position": "Rear booth",
        "unit": f"FS-{index:02d}",
        "operator": NAMES[index % len(NAMES)],
        "channel": "B",
        "frames": ("pale pink", "", "amber"),
        "notes": "home: down right",
    }
    return SheetLine(**{**usual, **facts})  # type: ignore[arg-type]


def sheet(lights: int = 4, **facts: object) -> CallSheet:
    usual = {
        "house": "Quillmark Hall",
        "show": "Nine Paper Boats",
        "event": "Show",
        "zone": "America/New_York",
        "starts": "2026-03-03T20:00:00-05:00",
        "ends": "2026-03-03T22:30:00-05:00",
        "call": "2026-03-03T18:30:00-05:00",
        "place": "stage door",
        "notice_kind": "tell",
        "notice": "House labels run the other way: show 1 = house 4.",
        "house_left": "river side",
        "house_right": "street side",
        "lines": tuple(light(index) for index in range(1, lights + 1)),
    }
    return CallSheet(**{**usual, **facts})  # type: ignore[arg-type]


def pages(content: bytes) -> list[str]:
    """The text of each page, white space folded."""
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(content)).pages]


def text(content: bytes) -> str:
    return " ".join(pages(content))


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS.keys())
def test_the_paper_is_portrait_and_of_the_size_asked_for(paper: Paper) -> None:
    box = PdfReader(BytesIO(call_sheet_pdf(sheet(), ISSUED, paper))).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((paper.width, paper.height), abs=0.01)
    assert paper.height > paper.width


def test_the_sheet_says_where_when_who_and_what_to_tell() -> None:
    said = text(call_sheet_pdf(sheet(), ISSUED, LETTER))
    for wanted in (
        "Nine Paper Boats",
        "Quillmark Hall",
        "Tuesday, March 3, 2026",
        "6:30 PM stage door",
        "8:00 PM – 10:30 PM",
        "TELL every operator: right lights, different paint",
        "House labels run the other way: show 1 = house 4.",
        "HOUSE LEFT · stage right: river side",
        "HOUSE RIGHT · stage left: street side",
        "Frames: 1 pale pink · 3 amber",
        "Notes: home: down right",
        "Channel B",
        "3 of 4, 1 to fill",
        "TO FILL",
    ):
        assert wanted in said, wanted


def test_every_light_has_its_show_number_and_its_house_label_both_worded() -> None:
    said = text(call_sheet_pdf(sheet(), ISSUED, LETTER))
    for index in range(1, 5):
        assert f"show {index} house {25 - index}" in said
        assert f"place {25 - index}, unit FS-0{index}" in said


def test_the_foot_of_every_page_has_revision_print_time_page_and_code() -> None:
    found = pages(call_sheet_pdf(sheet(24), ISSUED, LETTER))
    assert len(found) > 1
    for number, page in enumerate(found, start=1):
        assert f"Call sheet, revision 2 · page {number} of {len(found)} · printed Mar 3, 2026, 5:04 PM" in page
        assert "Issued Mar 3, 2026, 4:55 PM by Dilys Okafor-Penn" in page
        assert "Code ACDE-FGH-JKMN" in page
        assert "https://house.example/q/ACDEFGHJKMN" in page


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
@pytest.mark.parametrize("lights", [1, 4, 24, 60])
def test_every_light_is_on_some_page_once_and_the_head_on_each(lights: int, paper: Paper) -> None:
    found = pages(call_sheet_pdf(sheet(lights), ISSUED, paper))
    assert all("Nine Paper Boats" in page and "Quillmark Hall" in page for page in found)
    for index in range(1, lights + 1):
        assert sum(f"unit FS-{index:02d}" in page for page in found) == 1


@pytest.mark.parametrize(
    "name", [name for name in NAMES if name] + ["Łódź Żółw", "Ђорђе Њушић", "Ελένη", "Þórður Ægir"]
)
def test_names_in_latin_cyrillic_and_greek_letters_come_back_as_they_were(name: str) -> None:
    one = sheet(lines=(light(1, operator=name),))
    assert name in text(call_sheet_pdf(one, ISSUED, LETTER))


def test_letters_written_as_letter_and_accent_are_printed_as_one() -> None:
    assert printable("Zofia Wis\u0301niak") == "Zofia Wiśniak"


def test_what_the_font_lacks_is_marked_in_sight_and_explained() -> None:
    assert printable("漢 A 𝄞") == f"{UNPRINTABLE} A {UNPRINTABLE}"
    said = text(call_sheet_pdf(sheet(show="漢字 Boats"), ISSUED, LETTER))
    assert f"{UNPRINTABLE}{UNPRINTABLE} Boats" in said
    assert "stands for a character that this print can't show" in said
    assert "can't show" not in text(call_sheet_pdf(sheet(), ISSUED, LETTER))


def test_the_same_records_and_print_time_give_the_same_bytes() -> None:
    first, second = (call_sheet_pdf(sheet(24), ISSUED, A4) for _ in range(2))
    assert first == second
    later = replace(ISSUED, printed_at=datetime(2026, 3, 3, 17, 5))
    assert call_sheet_pdf(sheet(24), later, A4) != first


def test_a_draft_says_so_and_has_no_code() -> None:
    said = text(call_sheet_pdf(sheet(), Imprint(printed_at=PRINTED), LETTER))
    assert "DRAFT, not issued" in said
    assert "A draft: nobody can check it later." in said
    assert "Code" not in said


def test_a_call_that_is_off_is_told_first() -> None:
    assert "CALLED OFF: storm" in pages(call_sheet_pdf(sheet(called_off="storm"), ISSUED, LETTER))[0]


def test_cautions_are_printed_at_the_light_and_for_all_at_the_end() -> None:
    lines = (light(1, cautions=("fall protection needed",)), light(2))
    said = text(call_sheet_pdf(sheet(lines=lines), ISSUED, LETTER))
    assert said.count("CAUTION: fall protection needed") == 1
    assert "the maker's manual, local codes and a qualified person come first" in said


def test_somebody_of_the_spot_talk_takes_the_open_light() -> None:
    said = text(call_sheet_pdf(sheet(at_spot_talk=("Dov Halloran",)), ISSUED, LETTER))
    assert "Number told at the spot talk Dov Halloran" in said
    assert "TO FILL" not in said
    assert "all 4 filled" in said


def test_the_longest_texts_are_wrapped_and_none_is_cut() -> None:
    words = [f"word{index}" for index in range(200)]
    long = sheet(
        show=" ".join(words[:15]),
        house="W" * 120,
        notes=" ".join(words[:120]),
        lines=(
            light(1, operator=" ".join(words[:20]), notes=" ".join(words)),
            light(2, number="M" * 40, label="W" * 40, position="Q" * 80),
        ),
    )
    said = text(call_sheet_pdf(long, ISSUED, LETTER))
    assert all(word in said for word in words)
    squeezed = said.replace(" ", "")
    assert "W" * 120 in squeezed
    assert "M" * 40 in squeezed
    assert "Q" * 80 in squeezed


def lowest(content: bytes) -> float:
    """The lowest baseline of any text on any page [pt from the bottom]."""
    found: list[float] = []

    def visit(text: str, _cm: object, matrix: list[float], *_font: object) -> None:
        if text.strip():
            found.append(matrix[5])

    for page in PdfReader(BytesIO(content)).pages:
        page.extract_text(visitor_text=visit)
    return min(found)


def test_a_light_with_more_text_than_a_page_goes_on_over_the_page() -> None:
    frames = tuple(f"frame {index} " + "x" * 180 for index in range(50))
    long = sheet(lines=(light(1, frames=frames), light(2)), at_spot_talk=tuple(f"Person {n}" for n in range(90)))
    content = call_sheet_pdf(long, ISSUED, A4)
    said = text(content)
    assert all(f"frame {index} " in said for index in range(50))
    assert all(f"Person {index}" in said for index in range(90))
    assert lowest(content) > 36


def test_a_notice_that_fills_the_page_goes_on_and_leaves_the_lights_to_the_next() -> None:
    long = sheet(2, show="Long name " * 12, notes="n" * 1000, notice="word " * 700)
    found = pages(call_sheet_pdf(long, ISSUED, LETTER))
    assert "word word" in found[0]
    assert "unit FS-01" not in found[0]
    assert sum(page.count("word") for page in found) == 700
    assert sum("unit FS-01" in page for page in found) == 1
    assert lowest(call_sheet_pdf(long, ISSUED, LETTER)) > 36


@pytest.mark.parametrize("font", [REGULAR, BOLD])
def test_no_wrapped_line_is_wider_than_its_room(font: str) -> None:
    for line in wrapped("Мира " * 30 + "W" * 90 + " end", font, 12, 150):
        assert width(line, font, 12) <= 150


def test_a_text_is_made_smaller_to_fit_but_never_too_small_to_read() -> None:
    assert fitting_size("1", BOLD, 28, 7, 54) == 28
    assert 7 < fitting_size("Left", BOLD, 28, 7, 54) < 28
    assert fitting_size("W" * 40, BOLD, 28, 7, 54) == 7
    assert fitting_size("", BOLD, 28, 7, 54) == 28


def test_black_is_the_only_color() -> None:
    reader = PdfReader(BytesIO(call_sheet_pdf(sheet(24), ISSUED, LETTER)))
    for page in reader.pages:
        operators = page.get_contents().operations  # type: ignore[union-attr]
        colored = [(values, name) for values, name in operators if name in {b"rg", b"RG", b"k", b"K", b"sc", b"scn"}]
        assert all(not any(float(value) for value in values) for values, _name in colored)
