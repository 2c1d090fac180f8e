"""Lamp and unit hours: ledgers worked by hand, then what holds for every ledger."""

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.venue.ledgers import NOW, added, day, h, mark, meter, span
from venue.core.hours import ZERO, Added, Fitted, Mark, MeterRun, hours_in, lamp_hours, ledger, unit_hours
from venue.core.hours.records import Span

# A unit's first meter ran from 640.0 to 846.5 and was replaced on day 30 by one that began at 0; a lamp went in
# on day 10 at 812.0.
OLD = meter(0, 640, mark(10, 812.0, 100), mark(20, 830.4, 112), mark(30, 846.5, 120), until=30)
NEW = meter(30, 0, mark(31, 3.2, 2), mark(40, 26.5, 15))


def test_a_meter_replaced_while_the_lamp_is_in_counts_on_both_sides() -> None:
    # 846.5 - 812.0 = 34.5 on the old meter, 26.5 - 0 on the new one; strikes 120 - 100 and 15.
    found = hours_in(span(10, 812.0), [OLD, NEW], [], NOW)
    assert (found.hours, found.strikes, found.as_of) == (h(61.0), 35, day(40))
    assert found.strikes_are_all


def test_the_same_ledger_as_known_earlier_holds_what_was_read_until_then() -> None:
    lamp = span(10, 812.0, 40, 26.5)
    assert [hours_in(lamp, [OLD, NEW], [], day(at)).hours for at in (9, 10, 25, 30, 35, 40)] == [
        h(hours) for hours in (0, 0, 18.4, 34.5, 37.7, 61.0)
    ]


def test_a_lamp_moved_between_units_adds_up_over_both() -> None:
    # In the first unit from 812.0 to 830.4, in the second from 55.0 on: 18.4 + 7.5, and 100 h that it came with.
    other = meter(0, 50, mark(22, 55.0), mark(25, 62.5))
    first = hours_in(span(10, 812.0, 20, 830.4), [OLD, NEW], [], NOW)
    second = hours_in(span(22, 55.0), [other], [], NOW)
    found = lamp_hours([first, second], came_with=h(100))
    assert (found.hours, found.as_of) == (h(125.9), day(25))
    assert (found.strikes, found.strikes_are_all) == (12, False)


def test_a_late_reading_changes_no_sum_and_is_the_last_one_only_where_it_is() -> None:
    late = replace(NEW, marks=(NEW.marks[0], mark(35, 11.0), NEW.marks[1]))
    lamp = span(10, 812.0)
    assert hours_in(lamp, [OLD, late], [], NOW) == hours_in(lamp, [OLD, NEW], [], NOW)
    assert hours_in(lamp, [OLD, late], [], day(36)).hours == h(45.5)


def test_a_relamp_at_a_reading_gives_each_hour_to_one_lamp() -> None:
    # Both fittings point at the reading of 830.4 on day 20.
    out, into = span(10, 812.0, 20, 830.4), span(20, 830.4)
    before, after = (hours_in(each, [OLD, NEW], [], NOW).hours for each in (out, into))
    assert (before, after) == (h(18.4), h(42.6))
    assert before + after == hours_in(span(10, 812.0), [OLD, NEW], [], NOW).hours


def test_a_relamp_on_the_day_of_a_reading_but_after_it_points_at_its_own() -> None:
    run = meter(0, 0, mark(5, 20.0), mark(5.4, 20.6), mark(5.9, 24.0))
    out, into = span(0, 0, 5.4, 20.6), span(5.4, 20.6)
    assert [hours_in(each, [run], [], NOW).hours for each in (out, into)] == [h(20.6), h(3.4)]


def test_a_relamp_as_the_meter_is_replaced_takes_the_new_meters_start_whichever_reading_it_points_at() -> None:
    for shows in (846.5, 0):
        into = hours_in(span(30, shows), [OLD, NEW], [], NOW)
        out = hours_in(span(10, 812.0, 30, shows), [OLD, NEW], [], NOW)
        assert (out.hours, into.hours) == (h(34.5), h(26.5))


def test_a_dead_meter_is_bridged_by_hours_added() -> None:
    # The meter died at 830.4 on day 20; three nights were added by hand; a new meter began at 100 on day 24.
    dead = meter(0, 640, mark(10, 812.0), mark(20, 830.4), until=20)
    fresh = meter(24, 100, mark(25, 103.5))
    gap = [added(21, 3.5), added(22, 3.0), added(23, 4.0)]
    found = hours_in(span(10, 812.0), [dead, fresh], gap, NOW)
    assert found.hours == h(18.4 + 10.5 + 3.5)
    assert hours_in(span(22, None), [dead, fresh], gap, NOW).hours == h(4.0 + 3.5)
    assert hours_in(span(10, 812.0, 22), [dead, fresh], gap, NOW).hours == h(18.4 + 6.5)


def test_a_unit_without_a_meter_counts_what_was_added_after_the_fitting_until_its_end() -> None:
    nights = [added(1, 3, 1), added(2, 3, 1), added(3, 3, 2)]
    found = hours_in(span(1, None, 2), [], nights, NOW)
    assert (found.hours, found.strikes, found.as_of, found.power_hours) == (h(3), 1, day(2), False)


def test_a_lamp_just_fitted_is_known_to_have_no_hours_from_then_on() -> None:
    found = hours_in(span(50, 26.5), [OLD, NEW], [], NOW)
    assert (found.hours, found.strikes, found.as_of) == (ZERO, 0, day(50))
    assert hours_in(span(50, 26.5), [OLD, NEW], [], day(49)) == hours_in(span(60, None), [], [], day(49))


def test_hours_of_the_power_say_so() -> None:
    power = meter(0, 0, mark(3, 40.0), counts="power")
    assert hours_in(span(0, 0), [power], [], NOW).power_hours
    assert not hours_in(span(5, None), [replace(power, ends_at=day(4))], [added(6, 2)], NOW).power_hours


@pytest.mark.parametrize(
    ("strikes", "expected"),
    [
        ((10, 14, 20), (10, True)),
        ((10, None, 20), (10, True)),
        ((None, 14, 20), (6, False)),
        ((10, 14, None), (4, False)),
        ((None, None, 20), (0, False)),
        ((None, None, None), (None, False)),
    ],
)
def test_strikes_are_those_that_were_read_and_say_when_some_are_missing(
    strikes: Sequence[int | None], expected: tuple[int | None, bool]
) -> None:
    run = meter(0, 0, *(mark(at, 10 * at, count) for at, count in zip((1, 2, 3), strikes, strict=True)))
    found = hours_in(span(1, 10), [run], [], NOW)
    assert (found.strikes, found.strikes_are_all) == expected


def test_strikes_that_a_lamp_came_with_count_and_none_are_not_zero() -> None:
    fitting = hours_in(span(10, 812.0), [OLD, NEW], [], NOW)
    assert lamp_hours([fitting], h(50), came_with_strikes=30).strikes == 65
    assert lamp_hours([], ZERO).strikes is None


def test_unit_hours_go_on_over_lamps_and_meters_from_what_the_first_meter_showed() -> None:
    # 846.5 on the first meter, 26.5 on the second, 2 h added.
    found = unit_hours([OLD, NEW], [added(41, 2)], NOW)
    assert (found.hours, found.as_of) == (h(875.0), day(41))
    assert unit_hours([OLD, NEW], [], NOW, came_with=h(0)).hours == h(233.0)
    assert unit_hours([], [], NOW).hours == ZERO


def test_the_ledger_tells_the_book_line_by_line() -> None:
    lamps = [Fitted(span(10, 812.0, 40, 26.5), "first", h(5)), Fitted(span(40, 26.5), "second")]
    rows = ledger([NEW, OLD], [added(35, 2)], lamps, NOW)
    assert [(row.what, row.at, row.meter_h, row.lamp_h, row.lamp) for row in rows] == [
        ("meter-fitted", day(0), h(640), None, None),
        ("reading", day(10), h(812.0), None, None),
        ("lamp-fitted", day(10), h(812.0), h(5), "first"),
        ("reading", day(20), h(830.4), h(23.4), "first"),
        ("reading", day(30), h(846.5), h(39.5), "first"),
        ("meter-replaced", day(30), h(0), h(39.5), "first"),
        ("reading", day(31), h(3.2), h(42.7), "first"),
        ("hours-added", day(35), None, h(44.7), "first"),
        ("reading", day(40), h(26.5), h(68.0), "first"),
        ("lamp-out", day(40), h(26.5), h(68.0), "first"),
        ("lamp-fitted", day(40), h(26.5), h(0), "second"),
    ]
    assert [row.at for row in ledger([OLD, NEW], [], lamps, day(30))][-1] == day(30)


STEPS = st.lists(st.tuples(st.integers(1, 72), st.integers(0, 100), st.booleans()), min_size=2, max_size=25)


def _book(steps: list[tuple[int, int, bool]]) -> tuple[list[MeterRun], list[Mark]]:
    """Meters with their readings: each step is hours later, tenths burnt, and whether the meter is replaced then."""
    at, shows, start, runs, marks = 0.0, Decimal(0), mark(0, 0), [], []
    for hours, tenths, is_replaced in steps:
        at, shows = at + hours / 24, shows + Decimal(tenths) / 10
        marks.append(Mark(day(at), shows))
        if is_replaced:
            runs.append(MeterRun(start.at, day(at), start.hours, "lamp", tuple(marks)))
            start, marks, shows = Mark(day(at), Decimal(7)), [], Decimal(7)
    runs.append(MeterRun(start.at, None, start.hours, "lamp", tuple(marks)))
    return runs, [each for run in runs for each in run.marks]


@settings(max_examples=30)
@given(STEPS, st.data())
def test_lamps_that_follow_one_another_burn_what_the_unit_burns(steps, data) -> None:
    runs, marks = _book(steps)
    cuts = sorted(data.draw(st.sets(st.sampled_from(marks), max_size=4)), key=lambda each: each.at)
    ends = [runs[0].start, *cuts]
    spans = [
        Span(here.at, there.at if there else None, here.hours, there.hours if there else None)
        for here, there in zip(ends, [*cuts, None], strict=True)
    ]
    extra = [Added(each.at, Decimal(2)) for each in data.draw(st.lists(st.sampled_from(marks), max_size=3))]
    each_lamp = [hours_in(one, runs, extra, NOW).hours for one in spans]
    burnt = Decimal(sum(tenths for _hours, tenths, _replaced in steps)) / 10 + 2 * len(extra)
    assert sum(each_lamp) == unit_hours(runs, extra, NOW).hours == burnt
    fitted = [Fitted(one, number) for number, one in enumerate(spans)]
    last = {row.lamp: row.lamp_h for row in ledger(runs, extra, fitted, NOW) if row.lamp is not None}
    assert [last[number] for number in range(len(spans))] == each_lamp


@settings(max_examples=30)
@given(STEPS, st.data())
def test_the_order_of_entry_does_not_matter(steps, data) -> None:
    runs, _marks = _book(steps)
    extra = [added(1, 2), added(3, 1.5), added(2, 0.7)]
    lamp = span(0, 0)
    mixed_runs, mixed_extra = data.draw(st.permutations(runs)), data.draw(st.permutations(extra))
    assert hours_in(lamp, mixed_runs, mixed_extra, NOW) == hours_in(lamp, runs, extra, NOW)
    assert unit_hours(mixed_runs, mixed_extra, NOW) == unit_hours(runs, extra, NOW)
    fitted = [Fitted(lamp, "one")]
    assert ledger(mixed_runs, mixed_extra, fitted, NOW) == ledger(runs, sorted(extra, key=lambda e: e.at), fitted, NOW)


@settings(max_examples=30)
@given(STEPS, st.data())
def test_readings_between_the_ends_may_be_left_out(steps, data) -> None:
    runs, _marks = _book(steps)
    thinned = [replace(run, marks=run.marks[-1:]) for run in runs]
    assert hours_in(span(0, 0), thinned, [], NOW).hours == hours_in(span(0, 0), runs, [], NOW).hours
