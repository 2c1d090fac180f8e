"""A revision sends back only those whose own lines or times changed."""

from dataclasses import replace

from crew.core.call_sheet import CallSheet, Hand, SheetLine
from crew.core.confirming import Confirmed, Named, concerns_alike, keys_of, still_confirmed, touched
from crew.core.telling import concerned

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


BARE = replace(
    SHEET, at_spot_talk=("Ada", "", "Dov"), hands=(Hand("head", "Mira"), Hand("spare", "Ines"), Hand("runner"))
)


def test_whoever_has_no_number_confirms_by_name_and_looks_again_when_the_own_entry_changes() -> None:
    assert keys_of(BARE)[4:] == [Named("Ada"), Named("Dov"), Named("Mira"), Named("Ines")]
    given = [(key, Confirmed(1, "said so")) for key in keys_of(BARE)]
    later = replace(BARE, hands=(Hand("head", "Mira", "2026-03-02T17:00:00+00:00"), Hand("spare", "Ines")))
    assert touched(BARE, later) == [Named("Mira")]
    assert set(still_confirmed({1: BARE, 2: later}, given, latest=2)) == set(keys_of(BARE)) - {Named("Mira")}
    assert len(touched(BARE, replace(BARE, place="loading dock"))) == 8


def test_who_moves_from_the_spot_talk_onto_a_number_has_to_look_again_and_the_others_do_not() -> None:
    open_line = replace(BARE, lines=(*SHEET.lines, SheetLine("5", label="5")))
    moved_up = replace(BARE, at_spot_talk=("Dov",), lines=(*SHEET.lines, SheetLine("5", label="5", operator="Ada")))
    assert touched(open_line, moved_up) == [("5", 1)]
    assert concerned(open_line, moved_up).names == frozenset()
    given = [(Named("Ada"), Confirmed(1, "Ada")), (Named("Dov"), Confirmed(1, "Dov"))]
    assert set(still_confirmed({1: open_line, 2: moved_up}, given, latest=2)) == {Named("Dov")}


def test_two_of_one_name_count_when_each_has_confirmed() -> None:
    two = replace(SHEET, hands=(Hand("spare", "Ines"), Hand("runner", "Ines")))
    once = [(Named("Ines"), Confirmed(1, "Ines", line=7)), (Named("Ines"), Confirmed(1, "Ines", line=7))]
    assert keys_of(two).count(Named("Ines")) == 2
    assert not still_confirmed({1: two}, once, latest=1)
    both = [*once, (Named("Ines"), Confirmed(1, "Ines", line=8))]
    assert set(still_confirmed({1: two}, both, latest=1)) == {Named("Ines")}
