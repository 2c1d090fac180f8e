"""Usual sizes against what a unit can make of them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.beams import diameter_m
from venue.core.pick_ups import SIZES, Size, pick_up, size_within, sizes_below_body

HEAD, FULL_BODY = SIZES[0], SIZES[-1]


@pytest.mark.parametrize(
    ("size", "narrow", "wide", "reach", "limit"),
    [
        (HEAD, 0.8, 7.0, "ok", None),
        (HEAD, 0.9, 7.0, "too-small", 0.9),  # it needs 0.859 degrees at 40 m: the unit can't close to a head
        (FULL_BODY, 0.9, 3.6, "ok", None),
        (FULL_BODY, 0.9, 3.4, "too-large", 3.4),  # it needs 3.508: the unit can't open to a full body
        (HEAD, None, 7.0, None, None),
        (HEAD, 0.9, None, "too-small", 0.9),
        (FULL_BODY, None, 3.4, "too-large", 3.4),
        (FULL_BODY, 0.9, None, None, None),
        (FULL_BODY, None, None, None, None),
    ],
)
def test_a_size_is_within_reach_or_the_angle_in_the_way_is_named(
    size: Size, narrow: float | None, wide: float | None, reach: str | None, limit: float | None
) -> None:
    found = pick_up(size, 40.0, narrow, wide)
    assert (found.reach, found.limit_deg) == (reach, limit)
    assert found.beam_deg == pytest.approx({"head": 0.85943, "full body": 3.50827}[size.name], abs=1e-5)


def test_without_a_throw_no_angle_and_no_reach_is_said() -> None:
    found = pick_up(HEAD, None, 0.9, 7.0)
    assert (found.beam_deg, found.reach, found.limit_deg) == (None, None, None)


@settings(max_examples=40)
@given(st.floats(0.2, 20), st.floats(2, 305), st.floats(0.3, 10), st.floats(0, 50))
def test_reach_agrees_with_the_diameters_of_the_unit_at_that_throw(
    size: float, throw: float, narrow: float, more: float
) -> None:
    smallest, largest = diameter_m(narrow, throw), diameter_m(narrow + more, throw)
    if min(abs(size - smallest), abs(size - largest)) < 1e-9:
        return
    found = pick_up(Size("any", size), throw, narrow, narrow + more).reach
    assert found == ("too-small" if size < smallest else "too-large" if size > largest else "ok")


@pytest.mark.parametrize(
    ("diameter", "name"),
    [(0.59, None), (0.6, "head"), (1.29, "head and shoulders"), (1.3, "waist"), (2.0, "knees"), (9.0, "full body")],
)
def test_a_pool_shows_the_largest_size_that_it_holds(diameter: float, name: str | None) -> None:
    found = size_within(diameter)
    assert (found and found.name) == name


def test_a_size_smaller_than_its_part_of_a_body_is_found_and_an_unknown_name_is_not_judged() -> None:
    sizes = [Size("head", 0.25), Size("waist", 0.75), Size("full body", 1.8), Size("hands", 0.1)]
    assert [size.name for size in sizes_below_body(sizes)] == ["head", "full body"]
    assert sizes_below_body(SIZES) == ()
