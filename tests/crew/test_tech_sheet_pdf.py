"""The technical sheet on paper, read back: every place and position, nothing cut, page by page."""

from dataclasses import replace
from functools import lru_cache
from io import BytesIO

import pytest
from pypdf import PdfReader

from crew.core.tech_sheet import TechSheet
from crew.sheets.lettering import UNPRINTABLE
from crew.sheets.pen import A4, LETTER, PAPERS, Paper
from crew.sheets.tech_sheet import MARGIN, drawing_width, tech_sheet_pdf
from tests.crew.teched import AT, a_place, a_position, a_sheet, a_sheet_of, a_unit, shown
from tests.crew.test_call_sheet_pdf import lowest, pages, text
from tests.venue.drawn_houses import PLAN_WORDS, PROSCENIUM, row
from tests.venue.test_section import BOOTH, WORDS, placed
from venue.core.drawing.house_plan import house_plan
from venue.core.drawing.section import center_section

PLAN = house_plan(row(24, -30.0, 12.0), PROSCENIUM, PLAN_WORDS, width=540.0)
SECTION = center_section([placed(BOOTH)], PROSCENIUM, WORDS)


@lru_cache
def printed(sheet: TechSheet, paper: Paper = LETTER) -> bytes:
    return tech_sheet_pdf(shown(sheet), PLAN, SECTION, paper)


def undrawn(sheet: TechSheet, paper: Paper = LETTER) -> bytes:
    """The sheet without its drawings."""
    return tech_sheet_pdf(shown(sheet), None, None, paper)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS.keys())
def test_the_first_page_has_house_set_up_date_plan_and_the_table_of_places(paper: Paper) -> None:
    content = printed(a_sheet(1), paper)
    first = pages(content)[0]
    for wanted in (
        "Technical sheet: follow spots",
        "Quillmark Hall",
        "Set-up: End stage (proscenium)",
        "As on file Mar 2, 2026, 5:04 PM, by the house's clocks",
        "Dimensions in feet and inches as recorded; computed values are marked *.",
        "HOUSE LEFT ·",
        "Labels run from house left · stage right (river side) to house right · stage left (street side): 1, 2, 3, 4.",
        "142' 6\" to the lip of the stage",
        "144' 4\"*",
        "17.3°*",
    ):
        assert wanted in first, wanted
    box = PdfReader(BytesIO(content)).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((paper.width, paper.height), abs=0.01)


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
def test_twenty_four_places_at_eight_positions_are_all_there_once(paper: Paper) -> None:
    content = undrawn(a_sheet(8, 3), paper)
    found = pages(content)
    for number in range(1, 25):
        assert sum(page.count(f"FS-{number:02} ") for page in found) == 1
    for index in range(8):
        assert any(f"Position {index} Booth · front · level 3" in page for page in found)
    assert lowest(content) > MARGIN - 1


def test_every_page_has_house_date_and_its_number() -> None:
    found = pages(undrawn(a_sheet(8, 3)))
    assert len(found) > 3
    for number, page in enumerate(found, start=1):
        assert "Quillmark Hall · Technical sheet: follow spots · Mar 2, 2026, 5:04 PM" in page
        assert f"page {number} of {len(found)}" in page


def test_a_table_that_goes_on_has_its_columns_and_its_position_at_the_top_again() -> None:
    content = undrawn(a_sheet(1, 40))
    going_on = [page for page in pages(content)[1:] if page.startswith(("place", "Quillmark Hall · Technical"))]
    assert going_on
    assert all("Position 0" in page for page in going_on)


def test_the_section_comes_after_the_positions_and_the_caution_at_the_end() -> None:
    said = text(printed(a_sheet()))
    order = [said.index(each) for each in ("Places", "What stands there", "Way up", "Section along the throw")]
    assert order == sorted(order)
    assert "the maker's manual, local codes and a qualified person come first" in said


def test_a_house_without_anything_measured_or_on_file_is_printed_without_drawings() -> None:
    said = text(undrawn(a_sheet(0)))
    assert "No position is on file yet." in said
    assert "Section" not in said
    assert "page 1 of 1" in said


def test_the_longest_names_and_texts_are_wrapped_and_none_is_cut() -> None:
    words = [f"word{index}" for index in range(60)]
    unit = a_unit(tag="T" * 40, source="S" * 40, limits=(" ".join(words),))
    place = a_place(1, label="L" * 40, unit=unit, run_from="Q" * 80)
    position = a_position("P" * 80, places=(place,), access=" ".join(words), needs="N" * 300)
    sheet = replace(a_sheet_of(position), house="H" * 120, note="note " * 400)
    content = undrawn(sheet)
    said, squeezed = text(content), text(content).replace(" ", "")
    assert all(said.count(word) >= 2 for word in words)
    assert said.count("note") >= 400
    for whole in ("T" * 40, "S" * 40, "L" * 40, "Q" * 80, "P" * 80, "N" * 300, "H" * 120):
        assert whole in squeezed, whole
    assert lowest(content) > MARGIN - 1


def test_a_row_with_more_text_than_a_page_goes_on_over_the_page() -> None:
    limits = tuple(f"limit{index}" for index in range(400))
    sheet = a_sheet_of(a_position(places=(a_place(1, unit=a_unit(limits=limits)), a_place(2))))
    content = undrawn(sheet)
    said = text(content)
    assert all(f"limit{index}" in said for index in range(400))
    assert "FS-02" in said
    assert lowest(content) > MARGIN - 1


def test_names_in_other_letters_come_back_and_what_the_font_lacks_is_explained() -> None:
    said = text(undrawn(a_sheet_of(a_position("Ложа Żółw"))))
    assert "Ложа Żółw" in said
    assert "can't show" not in said
    said = text(undrawn(a_sheet_of(a_position("漢 booth"))))
    assert f"{UNPRINTABLE} booth" in said
    assert "stands for a character that this print can't show" in said


def test_the_same_records_and_time_give_the_same_bytes() -> None:
    assert undrawn(a_sheet(1)) == undrawn(a_sheet(1))
    later = replace(shown(a_sheet(1)), at=AT.replace(minute=5))
    assert tech_sheet_pdf(later, None, None, LETTER) != undrawn(a_sheet(1))


def test_ink_is_the_only_color() -> None:
    reader = PdfReader(BytesIO(printed(a_sheet())))
    for page in reader.pages:
        operators = page.get_contents().operations  # type: ignore[union-attr]
        colored = [values for values, name in operators if name in {b"rg", b"RG", b"k", b"K", b"sc", b"scn"}]
        assert all(not any(float(value) for value in values) for values in colored)


def test_a_drawing_is_made_wider_than_the_paper_so_that_its_writing_is_small() -> None:
    assert LETTER.width - 2 * MARGIN < drawing_width(LETTER) < 1.5 * LETTER.width


def test_facts_that_go_on_over_the_page_have_their_position_at_the_top_again() -> None:
    positions = [a_position(f"Cove {index}", range(1, 2), needs="much " * 150) for index in range(8)]
    found = pages(undrawn(a_sheet_of(*positions)))
    tops = [page for page in found[1:] if page.startswith("Cove ")]
    assert tops
    assert all("Way up" in page or "Needed there" in page or "Last checked" in page for page in tops)
