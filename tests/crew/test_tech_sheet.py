"""What a technical sheet says: sides in whole words, gaps named, computed values marked, nobody of the house."""

from dataclasses import replace
from datetime import date

import pytest

from crew.core.tech_sheet import (
    Numbering,
    SheetBlockage,
    SheetCircuit,
    SheetPlace,
    SheetPoint,
    SheetPosition,
    SheetThrow,
    TechSheet,
    clock_of,
)
from crew.wording import tech_values as words
from crew.wording.tech_positions import blockage_words, run_words, walk_words
from crew.wording.tech_tables import now_words
from tests.crew.teched import STAGE, a_place, a_position, a_sheet, a_sheet_of, a_unit, shown, typed
from venue.core.lengths import Length

LEFT, RIGHT = "house left · stage right (river side)", "house right · stage left (street side)"


@pytest.mark.parametrize(
    ("labels", "said"),
    [
        (("1", "2", "3"), f"Labels run from {LEFT} to {RIGHT}: 1, 2, 3."),
        (("10", "9", "2"), f"Labels run from {RIGHT} to {LEFT}: 2, 9, 10."),
        (("3", "1", "2"), f"Labels run from {LEFT} to {RIGHT}: 3, 1, 2."),
        (("Left", "Center", "Right"), f"Labels run from {LEFT} to {RIGHT}: Left, Center, Right."),
        (("7",), "One place, label 7."),
        ((), "No place is on file here."),
    ],
)
def test_the_labels_of_a_row_run_from_one_named_side_to_the_other(labels: tuple[str, ...], said: str) -> None:
    assert run_words(Numbering(labels, "front", "measured"), STAGE) == said


@pytest.mark.parametrize(
    ("zone", "labels", "said"),
    [
        ("bowl", ("1", "2"), "Labels run clockwise, seen from above, from the stage end (north gate): 1, 2."),
        (
            "bowl",
            ("2", "1"),
            "Labels run counterclockwise, seen from above, the last one next to the stage end (north gate): 1, 2.",
        ),
        ("side", ("1", "2"), "Labels run from the end nearest the audience to the end farthest upstage: 1, 2."),
        ("side", ("2", "1"), "Labels run from the end farthest upstage to the end nearest the audience: 1, 2."),
    ],
)
def test_a_side_and_a_bowl_have_ends_of_their_own(zone: str, labels: tuple[str, ...], said: str) -> None:
    stage = replace(STAGE, stage_end="north gate")
    assert run_words(Numbering(labels, zone, "measured"), stage) == said


def test_an_order_that_nobody_recorded_is_not_made_up() -> None:
    said = run_words(Numbering(("1", "2"), "front", "label"), STAGE)
    assert said == "Labels 1, 2: in which order they stand is not recorded."


def test_the_walk_is_told_with_its_day_and_a_contradiction_with_what_to_do() -> None:
    walked = Numbering(("1",), walk="walked", walked_on=date(2026, 3, 1))
    assert walk_words(walked) == "Walked and confirmed on Mar 1, 2026."
    assert "does not fit: ask the house" in walk_words(replace(walked, walk="contradicted"))
    assert walk_words(Numbering(("1",))) == "Not walked: nobody has confirmed this order on the spot."


@pytest.mark.parametrize(
    ("bearing", "twelve", "clock"),
    [
        (0.0, 0.0, (12, 0)),
        (15.0, 0.0, (12, 30)),
        (45.0, 0.0, (1, 30)),
        (90.0, 0.0, (3, 0)),
        (90.0, 90.0, (12, 0)),
        (0.0, 90.0, (9, 0)),
        (359.0, 0.0, (12, 0)),
        (352.0, 0.0, (11, 30)),
    ],
)
def test_the_clock_of_a_bearing_goes_by_the_dial_of_the_set_up(
    bearing: float, twelve: float, clock: tuple[int, int]
) -> None:
    assert clock_of(bearing, twelve) == clock


def test_a_throw_is_told_with_its_end_point_and_a_far_off_one_is_questioned() -> None:
    throw = SheetThrow(typed("142' 6\""), "lip", "", 43.4)
    assert words.told_words(throw, "imperial") == "142' 6\" to the lip of the stage"
    mark = replace(throw, end="mark", mark="the drain")
    assert words.told_words(mark, "imperial") == "142' 6\" to the drain"
    assert words.told_words(replace(throw, same_end_m=50.0), "imperial").endswith("computed differs by over 5 %: ask")
    assert words.told_words(SheetThrow(), "imperial") == "not recorded"


def test_every_length_has_its_unit_and_every_computed_one_its_mark() -> None:
    assert words.length_words(Length(43.434, "142.5"), "imperial") == "142' 6\""
    assert words.length_words(Length(43.4, "43.4 m"), "imperial") == "43.4 m"
    assert words.computed_length(43.434, "imperial") == "142' 6\"*"
    assert words.below_words(17.34) == "17.3°*"
    assert words.below_words(-2.0) == "2.0° upward*"
    assert words.below_words(None) == "–"


def test_a_lens_names_its_side_and_what_its_throw_gave_is_marked() -> None:
    lens = SheetPoint(Length(-4.572, "15'"), Length(-38.1, "125'"), Length(-0.9144, ""))
    assert words.lens_words(lens, "imperial") == ("15' house left", "125' downstage", "3' below the deck")
    assert words.lens_words(replace(lens, y_is_computed=True), "imperial")[1] == "125' downstage*"
    assert words.lens_words(None, "imperial") == ("not recorded",) * 3
    middle = SheetPoint(Length(0.0, ""), Length(0.0, ""), Length(1.524, "5'"))
    assert words.point_words(middle, "imperial") == "on the center line, at the plaster line, 5' above the deck"


def test_a_beam_says_at_which_level_its_angle_ends_or_that_nobody_recorded_it() -> None:
    assert words.beam_words(0.9, 6_500_000.0, a_unit()) == "0.9° at 50 % of the peak; 6,500,000 cd"
    assert "at 50 % or 10 % of the peak, not recorded which" in words.beam_words(7.0, 1.0, a_unit(percent=None))
    assert words.beam_words(None, None, a_unit()) == "not recorded; candela not recorded"


def test_no_number_is_written_with_an_exponent_or_with_digits_that_nobody_recorded() -> None:
    assert [words.number(value) for value in (1e12, 0.1 + 0.2, 450.0)] == ["1,000,000,000,000", "0.3", "450"]


def test_frames_say_where_frame_1_is_or_that_it_is_not_recorded() -> None:
    assert words.frames_words(a_unit()) == "6; frame 1: lens end; magazine: at the very front"
    blank = a_unit(frame_1_end="", magazine="")
    assert words.frames_words(blank) == "6; frame 1: not recorded; magazine: not recorded"
    assert words.frames_words(a_unit(frames=0)) == "no frames"
    assert words.frames_words(a_unit(frames=None)) == "not recorded"


@pytest.mark.parametrize(
    ("pans", "said"),
    [
        ((-40.0, 30.0), "from 40° toward house left clockwise to 30° toward house right, told from straight upstage"),
        ((0.0, 180.0), "from straight upstage clockwise to straight toward the house, told from straight upstage"),
        ((350.0, 10.0), "from 10° toward house left clockwise to 10° toward house right, told from straight upstage"),
        ((90.0, -270.0), "all the way round"),
        (None, "not recorded"),
    ],
)
def test_pans_name_the_sides_of_the_house(pans: tuple[float, float] | None, said: str) -> None:
    assert words.pan_words(pans) == said


def test_what_is_in_the_way_says_of_what_and_where() -> None:
    said = blockage_words(SheetBlockage("speaker cluster", "3", (-20.0, -10.0), has_zone=True))
    assert said.startswith("speaker cluster, in the way of place 3 alone, blocks pans from 20° toward house left")
    assert said.endswith("a part of the plan is on file for it")
    assert blockage_words(SheetBlockage("banner")) == "banner"


def test_a_limit_is_one_line_and_why_a_unit_is_out_stays_in_the_house() -> None:
    limited = a_unit(limits=("No full blackout", "Frame 4 is out"))
    assert now_words(limited) == "LIMIT: No full blackout; Frame 4 is out"
    assert now_words(replace(limited, is_out=True)) == "OUT OF SERVICE"
    assert now_words(a_unit()) == "no limit on file"


def test_an_empty_place_takes_a_hired_unit_and_a_place_with_a_unit_does_not_say_so() -> None:
    sheet = a_sheet_of(a_position(places=(a_place(1), a_place(2, unit=None))))
    first, second = shown(sheet).tables[1].groups[0].rows
    assert "empty: takes a hired unit" not in first
    assert second == ("2", "empty: takes a hired unit", *("–",) * 6)


def test_a_remote_run_unit_says_from_where_it_is_run() -> None:
    sheet = a_sheet_of(a_position(places=(a_place(1, run_from="Rear booth, place 2"),)))
    assert shown(sheet).tables[1].groups[0].rows[0][1] == "FS-01, run from Rear booth, place 2"


def test_a_bowl_tells_bearing_and_clock_and_marks_a_computed_one() -> None:
    ring = (a_place(1, bearing_deg=45.0), a_place(2, bearing_deg=92.04, bearing_is_computed=True), a_place(3))
    sheet = a_sheet_of(a_position(zone="bowl", places=ring))
    table = shown(sheet).tables[0]
    column = [name for name, _share in table.columns].index("bearing, clock")
    assert [row[column] for row in table.groups[0].rows] == ["45°, 1:30 o'clock", "92°, 3 o'clock*", "–"]
    assert "12 o'clock" in [fact.name for fact in shown(sheet).stage_facts]
    assert "bearing, clock" not in [name for name, _share in shown(a_sheet()).tables[0].columns]


def test_what_is_not_recorded_is_said_of_every_single_fact() -> None:
    bare = SheetPosition("Cove", places=(SheetPlace("1", unit=replace(a_unit(), source="", watts=None)),))
    sheet = TechSheet("Quillmark Hall", replace(STAGE, opening=None, target=None), positions=(bare,))
    (position,) = shown(sheet).positions
    recorded = {fact.name for fact in position.facts if fact.is_known}
    assert recorded == {"Rescue plan on file"}
    assert all(fact.value == "not recorded" for fact in position.facts if not fact.is_known)
    places, units = shown(sheet).tables
    assert places.groups[0].rows[0] == ("1", *("not recorded",) * 4, "–", "–", "–", "not recorded")
    assert units.groups[0].rows[0][2] == "source not recorded, watts not recorded"
    assert position.lead == "Kind not recorded · front · level not recorded"
    assert [fact.value for fact in shown(sheet).stage_facts][:1] == ["not recorded"]
    assert shown(sheet).note.value == "not recorded"


def test_a_recorded_position_says_all_its_facts() -> None:
    facts = {fact.name: fact.value for fact in shown(a_sheet()).positions[0].facts}
    assert facts["Time to get there"] == "6 minutes"
    assert facts["Glass"] == "sliding pane; loss not measured, usually 12 to 15 %"
    assert facts["Sees upstage as far as"] == "30' upstage of the plaster line"
    assert facts["Sees downstage as far as"] == "20' downstage of the plaster line"
    assert facts["Fall protection"] == "full-body harness"
    assert facts["Rescue plan on file"] == "yes; ask the house for it"
    assert facts["Seats lost"] == "4"
    assert facts["Last checked"] == "Jan 5, 2026"
    assert facts["Intercom"] == "not recorded"


def test_a_measured_loss_replaces_the_usual_one() -> None:
    sheet = a_sheet_of(a_position(glass_loss_pct=11.5))
    facts = {fact.name: fact.value for fact in shown(sheet).positions[0].facts}
    assert facts["Glass"] == "sliding pane; takes 11.5 % of the light"


def test_a_circuit_has_volts_and_rating_or_says_which_is_missing() -> None:
    rows = [a_place(1), a_place(2, circuit=SheetCircuit("LP-9")), a_place(3, circuit=None)]
    sheet = a_sheet_of(a_position(places=tuple(rows)))
    said = [row[-1] for row in shown(sheet).tables[0].groups[0].rows]
    assert said == ["LP-3/12: 208 V, 30 A", "LP-9: volts not recorded, rating not recorded", "not recorded"]


def test_an_empty_house_says_so() -> None:
    assert shown(a_sheet(0)).nothing == "No position is on file yet."
    assert shown(a_sheet()).nothing == ""
