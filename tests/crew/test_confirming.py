"""A revision sends back only those whose own lines or times changed."""

from dataclasses import replace

from crew.core.call_sheet import CallSheet, SheetLine
from crew.core.confirming import Confirmed, concerns_alike, still_confirmed, touched

SHEET = CallSheet(
    house="The Lantern",
    show="Nine Paper Boats",
    event="Show",
    zone="UTC",
    starts="2026-03-02T19:30:00+00:00",
    call="2026-03-02T18:30:00+00:00",
    lines=tuple(SheetLine(number, label=number, operator=f"Person {number}") for number in ("1", "2", "3", "4")),
)


def moved(number: str, label: str) -> CallSheet:
    lines = (replace(line, label=label) if line.number == number else line for line in SHEET.lines)
    return replace(SHEET, lines=tuple(lines))


def test_moving_spot_3_sends_back_the_operator_of_spot_3_alone() -> None:
    """The trade's story of the moved spot, by its own words (common practice, no source)."""
    assert touched(SHEET, moved("3", "9")) == [("3", 1)]
    all_of_them = [((line.number, 1), Confirmed(1, line.operator)) for line in SHEET.lines]
    held = still_confirmed({1: SHEET, 2: moved("3", "9")}, all_of_them, latest=2)
    assert sorted(held) == [("1", 1), ("2", 1), ("4", 1)]


def test_what_concerns_everybody_sends_everybody_back() -> None:
    assert len(touched(SHEET, replace(SHEET, call="2026-03-02T18:00:00+00:00"))) == 4
    assert touched(SHEET, replace(SHEET, house_left="river")) == []


def test_a_new_line_is_to_be_confirmed_and_one_that_comes_back_as_it_was_is_confirmed_again() -> None:
    new = replace(SHEET, lines=(*SHEET.lines, SheetLine("5", operator="Person 5")))
    assert touched(SHEET, new) == [("5", 1)]
    given = [(("3", 1), Confirmed(1, "Person 3"))]
    assert still_confirmed({1: SHEET, 2: moved("3", "9"), 3: SHEET}, given, latest=3) == dict(given)
    assert not concerns_alike(new, SHEET, ("5", 1))


def test_the_last_confirmation_that_holds_is_told() -> None:
    given = [(("1", 1), Confirmed(1, "first")), (("1", 1), Confirmed(2, "second"))]
    assert still_confirmed({1: SHEET, 2: SHEET}, given, latest=2)[("1", 1)].by == "second"
