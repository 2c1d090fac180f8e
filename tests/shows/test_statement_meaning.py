"""What a statement means is said in whole words, both names for each side."""

import pytest

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import House, Spot
from shows.core.paperwork.light import lux_of
from shows.standing import answers
from shows.wording.statements import meaning
from tests.shows.numbering_cases import count_to, even_ring, row, row_house, spots

BOOTH = House((row(count_to(4)),))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "Nothing says how the show counts."),
        (
            "stage right to stage left",
            "The show counts from house left · stage right to house right · stage left.",
        ),
        ("left to right", "The show counts from left, without saying whose."),
        ("clockwise from 3 o'clock", "The show counts clockwise seen from above, from 3 o'clock."),
        ("ccw from house label 4", "The show counts counterclockwise seen from above, from house label 4."),
        ("clockwise", "The show counts clockwise seen from above, without saying where it starts."),
        (
            "odd HL, even HR",
            "The show counts odd numbers on house left · stage right, even on house right · stage left.",
        ),
        ("from center out", "The show counts from the center outward, without saying which side first."),
        ("downstage first", "The show counts from downstage to upstage."),
        (
            "HL to HR; 3 not used; 2 is a team of 2",
            "The show counts from house left · stage right to house right · stage left. Not used: 3. "
            "Number 2 is a team of 2.",
        ),
        (
            "as ever",
            "This can't be read as a way of counting. "
            "Is it “house left to house right” or “house right to house left”?",
        ),
    ],
)
def test_a_statement_is_said_back_in_whole_words(text: str, said: str) -> None:
    assert meaning(text, BOOTH) == said


def test_named_positions_are_said_each_with_its_way() -> None:
    said = meaning("Row 1 HL to HR, then Row 2 HR to HL", row_house(count_to(2), count_to(2)))
    assert said == (
        "Row 1: from house left · stage right to house right · stage left. "
        "Row 2: from house right · stage left to house left · stage right."
    )


@pytest.mark.parametrize(
    ("house", "statement", "stated"),
    [
        (BOOTH, "left to right", ["left to right, as seen from the house", "left to right, as seen from the stage"]),
        (
            row_house(["1", "2", "3"], ["4", "5"]),
            "house left to house right",
            ["house left to house right, position by position", "house left to house right, all in one row"],
        ),
        (BOOTH, "from center out", ["from center out, house left first", "from center out, house right first"]),
        (BOOTH, "", ["house left to house right", "house right to house left"]),
        (even_ring(4), "", ["clockwise from 12 o'clock", "counterclockwise from 12 o'clock"]),
    ],
)
def test_every_answer_that_is_offered_leaves_nothing_open(house: House, statement: str, stated: list[str]) -> None:
    lines = spots(*count_to(4))
    found = answers(house, lines, statement, compare(house, lines, statement or None))
    assert [answer.statement for answer in found] == stated
    for answer in found:
        settled = compare(house, lines, answer.statement)
        assert len(settled.pairs) == 4
        assert not {flag.flag for flag in settled.flags} & {"unclear", "convention-missing"}


def test_a_question_that_no_words_close_is_left_to_a_person() -> None:
    overhead = House((row(["1", "2"], "Booth"), row(["3", "4"], "Truss", 2.0, zone="overhead")))
    lines = spots(*count_to(4))
    statement = "booth stage left to stage right, then truss"
    assert answers(overhead, lines, statement, compare(overhead, lines, statement)) == []


def test_whose_left_a_line_means_can_be_answered_without_any_statement() -> None:
    lines = [Spot("1", side="left", nth="1"), Spot("2", side="right", nth="1")]
    found = answers(BOOTH, lines, "", compare(BOOTH, lines))
    assert [(answer.reading, answer.statement) for answer in found] == [("house", ""), ("stage", "")]


@pytest.mark.parametrize(
    ("text", "header", "lux"),
    [
        ("1600 lx", "", 1600.0),
        ("1600", "Least light", 1600.0),
        ("150 fc", "", 1614.5865625),
        ("150", "Least fc", 1614.5865625),
        ("1500 lx", "Foot-candles", 1500.0),
        (">= 100", "", None),
        ("≥ 100", "", 100.0),
        ("1,5", "", 1.5),
        ("bright", "", None),
        ("1e9", "", None),
        ("-5", "", None),
    ],
)
def test_light_is_read_in_lux_or_foot_candles_or_not_at_all(text: str, header: str, lux: float | None) -> None:
    """1 fc = 10.76391 lx: UNECE Recommendation 20, code P27, as quoted by a unit library."""
    read = lux_of(text, header)
    assert read is None if lux is None else read == pytest.approx(lux, rel=1e-6)
