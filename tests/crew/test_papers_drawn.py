"""Frame lists, tapes and the caller's chart on paper, read back; what the trade asks of each is beside its test."""

from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from crew.core.call_sheet import CallSheet, SheetLine
from crew.core.chart import Band, chart_of
from crew.sheets.chart import chart_pdf
from crew.sheets.frame_list import frames_pdf
from crew.sheets.lettering import BOLD, width
from crew.sheets.pen import A4, LETTER, Paper
from crew.sheets.tapes import CAP, LEAST_HIGH, NUMBER_ROOM, SIZE, tapes_pdf
from tests.crew.test_call_sheet_pdf import ISSUED, light, lowest, pages, sheet, text

BOTH = pytest.mark.parametrize("paper", [LETTER, A4], ids=lambda paper: paper.name)


def across(lights: int, zone: str = "front") -> CallSheet:
    """Numbers that run from house right to house left."""
    lines = (light(n, row=lights + 1 - n, position_zone=zone) for n in range(1, lights + 1))
    return sheet(lines=tuple(lines))


def placed(content: bytes) -> dict[str, tuple[float, float]]:
    """Where each text of the first page begins [pt from its bottom left corner]."""
    found: dict[str, tuple[float, float]] = {}

    def visit(said: str, cm: list[float], matrix: list[float], *_font: object) -> None:
        if said.strip():
            found.setdefault(said.strip(), (matrix[4] + cm[4], matrix[5] + cm[5]))

    PdfReader(BytesIO(content)).pages[0].extract_text(visitor_text=visit)
    return found


@BOTH
def test_a_frame_list_says_every_frame_the_empty_ones_too_and_from_which_end(paper: Paper) -> None:
    lines = (light(1, magazine=6, frame_1_end="lens"), light(2, frames=()))
    said = text(frames_pdf(sheet(lines=lines, frame_1_end="lens"), ISSUED, paper))
    assert "Show 1 · house 24 · FS-01 As the show counts: frame 1 at the lens end." in said
    assert "frame 1 pale pink frame 2 empty frame 3 amber frame 4 empty frame 5 empty frame 6 empty" in said
    assert "OPPOSITE" not in said
    assert "Show 2 · house 23 · FS-02 As the show counts: frame 1 at the lens end. The sheet says nothing" in said
    assert "Frame loading list, revision 2 · page 1 of 1" in said


def test_a_frame_list_longer_than_a_page_repeats_the_light_and_loses_no_frame() -> None:
    frames = tuple(f"color{n} " + "x" * 120 for n in range(50))
    content = frames_pdf(sheet(lines=(light(1, frames=frames),)), ISSUED, LETTER)
    found = pages(content)
    assert len(found) > 1
    assert all("Show 1 · house 24 · FS-01" in page for page in found)
    said = text(content)
    assert [n for n in range(50) if f"color{n} " not in said] == []
    assert lowest(content) > 36


@BOTH
def test_eight_spots_get_eight_tapes_with_the_numbers_of_the_sheet(paper: Paper) -> None:
    """The trade's own words: number big, house label, channel, home, name; 8 labels for 8 spots."""
    eight = sheet(lines=tuple(light(n, home="down center") for n in range(1, 9)))
    found = pages(tapes_pdf(eight, ISSUED, paper))
    said = " ".join(found)
    assert len(found) == 2
    assert [said.count(each) for each in ("Channel B", "Home: down center", "code ACDE-FGH-JKMN")] == [8, 8, 8]
    for line in eight.lines:
        assert f"{line.number} house {line.label} {line.operator.split()[0] if line.operator else ''}".strip() in said


def test_the_number_on_a_tape_is_two_inches_high() -> None:
    """The figure 1 of the font is 1493 of 2048 units high, read from the font's own outline table."""
    assert CAP * SIZE >= LEAST_HIGH == 2 * 72
    assert pytest.approx(1493 / 2048, abs=1e-3) == CAP
    assert width("88", BOLD, SIZE) <= NUMBER_ROOM


def test_tapes_of_long_and_missing_words_stay_in_their_frames() -> None:
    lines = (light(1, number="M" * 40, label="W" * 40, home="h " * 100, operator=""), SheetLine("Left"))
    content = tapes_pdf(sheet(lines=lines), ISSUED, LETTER)
    assert len(pages(content)) == 1
    assert min(y for _x, y in placed(content).values()) > 36
    assert "No light is on this sheet." in text(tapes_pdf(sheet(0), ISSUED, A4))


@BOTH
def test_the_chart_has_the_stage_at_the_top_and_house_left_at_left_and_says_where_it_is_turned(paper: Paper) -> None:
    """The trade's own words: house left is at left; stage at top; the switch turns it by 180 degrees and says so."""
    show = across(4)
    plain, turned = chart_pdf(show, ISSUED, paper), chart_pdf(show, ISSUED, paper, is_turned=True)
    at, over = placed(plain), placed(turned)
    assert at["4"][0] < at["3"][0] < at["2"][0] < at["1"][0]
    assert at["STAGE"][1] > at["4"][1]
    assert at["HOUSE LEFT · stage right"][0] < at["HOUSE RIGHT · stage left"][0]
    assert over["1"][0] < over["2"][0] < over["3"][0] < over["4"][0]
    assert over["STAGE"][1] < over["4"][1]
    assert over["HOUSE RIGHT · stage left"][0] < over["HOUSE LEFT · stage right"][0]
    assert "As seen facing the stage: house left at left, stage at the top." in text(plain)
    assert "TURNED BY 180 DEGREES" in text(turned)
    assert "TURNED" not in text(plain)
    assert all(f"house {line.label} · {line.unit}" in text(plain) for line in show.lines)
    assert len(pages(plain)) == 1


def test_what_stands_upstage_is_beyond_the_stage_and_turns_with_it() -> None:
    chart = chart_of(across(2, "rear"))
    assert [band.name for band in chart.above] == ["Rear booth"]
    assert [line.number for line in chart.above[0].lights] == ["2", "1"]
    assert chart.turned.above == ()
    assert [line.number for line in chart.turned.below[0].lights] == ["1", "2"]
    assert chart.turned.turned == chart


def numbers(band: Band) -> list[list[str]]:
    return [[line.number if line else "" for line in row] for row in band.rows]


def test_a_bowl_is_drawn_round_from_the_stage_end_down() -> None:
    stands = ((1, "center", 360), (2, "house right", 90), (3, "center", 180), (4, "house left", 265))
    lines = tuple(light(n, position_zone="bowl", house_side=side, bearing_deg=at) for n, side, at in stands)
    band = chart_of(sheet(lines=lines)).below[0]
    assert numbers(band) == [["", "1", ""], ["4", "", "2"], ["", "3", ""]]
    assert numbers(band.turned) == [["", "3", ""], ["2", "", "4"], ["", "1", ""]]


def test_galleries_are_at_their_sides_upstage_first_and_what_nothing_orders_is_said() -> None:
    sides = ((1, "house left", 1), (2, "house right", 1), (3, "house left", 2))
    gallery = tuple(light(n, position_zone="side", house_side=side, row=row) for n, side, row in sides)
    assert numbers(chart_of(sheet(lines=gallery)).below[0]) == [["3", "", ""], ["1", "", "2"]]
    loose = replace(gallery[0], row=0)
    assert chart_of(sheet(lines=(loose, *gallery[1:]))).below[0].kind == "loose"
    said = text(chart_pdf(sheet(lines=(loose,)), ISSUED, LETTER))
    assert "The order in this position is not known; listed by number." in said


def test_lights_at_one_place_of_the_row_and_without_a_place_are_named() -> None:
    lines = (light(1, row=1, position_zone="front"), light(2, row=1, position_zone="front"), SheetLine("9"))
    said = text(chart_pdf(sheet(lines=lines, caller="Inga"), ISSUED, A4))
    assert "1, 2 stand too near each other to be told apart." in said
    assert "No place yet 9" in said
    assert "Caller: Inga" in said


def test_a_sheet_issued_before_its_papers_were_thought_of_still_has_them() -> None:
    old = sheet(3)
    assert all(f"Show {n} · " in text(frames_pdf(old, ISSUED, LETTER)) for n in (1, 2, 3))
    assert "not known; listed by number" in text(chart_pdf(old, ISSUED, LETTER))
