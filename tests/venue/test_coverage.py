"""What a lens reaches by its recorded limits: by hand, then every point by itself."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.coverage import Limits, PanRange, Reached, Zone, reached, rectangle, why_not
from venue.core.polygons import Corner, PolygonProblem, area, contains, sides_of, signed_area

LENS = (0.0, -40.0)
STAGE = Zone("stage", ((-6, 0), (6, 0), (6, 10), (-6, 10)))
THRUST = Zone("thrust", ((-6, 0), (-2, 0), (-2, -4), (2, -4), (2, 0), (6, 0), (6, 10), (-6, 10)))  # with notches
UPSTAGE_HALF = Zone("set", ((-6, 5), (6, 5), (6, 10), (-6, 10)))
DESK = Zone("desk", ((-1, 4), (-1, 6), (1, 6), (1, 4)))
STRIP, WEDGE = Zone("strip", ((0, 0), (3, 0), (3, 10), (0, 10))), Zone("wedge", ((-6, 0), (6, 0), (6, 10)))


def share_of(limits: Limits, zone: Zone = STAGE) -> float | None:
    (found,) = reached(LENS, limits, [zone])
    return found.share


@pytest.mark.parametrize(
    ("limits", "share"),
    [
        (Limits(farthest_upstage_m=7.5), 0.75),
        (Limits(farthest_downstage_m=2.5), 0.75),
        (Limits(farthest_downstage_m=2.5, farthest_upstage_m=7.5), 0.5),
        (Limits(farthest_upstage_m=-1.0), 0.0),
        (Limits(farthest_upstage_m=20.0), 1.0),
        (Limits(pan=PanRange(0, 90)), 0.5),  # only the stage-left half
        (Limits(pan=PanRange(-90, 0)), 0.5),
        (Limits(pan=PanRange(-90, 90)), 1.0),
        (Limits(pan=PanRange(90, -90)), 0.0),  # looks away from the stage
        (Limits(pan=PanRange(0, 350)), 0.5),  # all but 10 degrees toward stage right, which hold that half
        (Limits(pan=PanRange(170, 10)), 1.0),
        (Limits(pan=PanRange(30, 30)), 1.0),  # all the way round
        (Limits(blocked_pans=(PanRange(0, 90),)), 0.5),
        (Limits(blocked_pans=(PanRange(0, 270),)), 0.5),
        (Limits(blocked_zones=(UPSTAGE_HALF,)), 0.5),
        (Limits(blocked_zones=(DESK,)), 1 - 4 / 120),
        (Limits(blocked_zones=(DESK, DESK)), 1 - 4 / 120),
        (Limits(blocked_zones=(STRIP, WEDGE)), (60 - 11.25) / 120),  # they overlap
    ],
)
def test_the_share_of_the_stage_that_recorded_limits_leave(limits: Limits, share: float) -> None:
    assert share_of(limits) == pytest.approx(share)


def test_a_stage_is_a_rectangle_and_without_area_nothing() -> None:
    assert rectangle("stage", (-6, 6), (0, 10)) == STAGE
    assert rectangle("stage", (6, -6), (10, 0)) == STAGE
    assert rectangle("stage", (-6, 6), (0, 0)) is None
    assert rectangle("stage", (0, 0), (0, 10)) is None


def test_where_nothing_is_recorded_nothing_is_promised() -> None:
    assert reached(LENS, Limits(), [STAGE]) == (Reached("stage", None, ()),)


def test_a_pan_limit_cuts_the_stage_along_its_ray() -> None:
    """From 40 m away the ray toward stage left at atan(0.1) passes (4, 0) and (5, 10)."""
    (found,) = reached(LENS, Limits(pan=PanRange(-90, 5.710593137)), [STAGE])
    assert found.share == pytest.approx((12 * 10 - (2 + 1) / 2 * 10) / 120)
    (piece,) = found.pieces
    for corner in ((4, 0), (5, 10), (-6, 0), (-6, 10)):
        assert min(abs(x - corner[0]) + abs(y - corner[1]) for x, y in piece) < 1e-6


def test_a_thrust_is_covered_as_a_whole_or_in_part() -> None:
    assert share_of(Limits(farthest_upstage_m=30.0), THRUST) == pytest.approx(1)
    assert share_of(Limits(farthest_upstage_m=0.0), THRUST) == pytest.approx(16 / 136)


def test_corners_that_are_no_area_are_refused() -> None:
    with pytest.raises(PolygonProblem):
        reached(LENS, Limits(farthest_upstage_m=1.0), [Zone("line", ((0, 0), (1, 1)))])


LIMITS = Limits(-2.0, 8.0, PanRange(-20, 6), (DESK,), (PanRange(-3, -1),))


@pytest.mark.parametrize(
    ("point", "reasons"),
    [
        ((2, 3), ()),
        ((2, -2.1), (("too-far-downstage", ""),)),
        ((2, 8.1), (("too-far-upstage", ""),)),
        ((6, 3), (("pan", ""),)),
        ((-1.5, 2), (("pan", ""),)),
        ((0.5, 5), (("blocked", "desk"),)),
        ((7, 12), (("too-far-upstage", ""), ("pan", ""))),
    ],
)
def test_every_limit_in_the_way_of_a_point_is_named(point: Corner, reasons: tuple[tuple[str, str], ...]) -> None:
    assert why_not(LENS, LIMITS, point) == reasons


def hundredths(low: int, high: int) -> st.SearchStrategy[float]:
    """Numbers as somebody types them."""
    return st.integers(100 * low, 100 * high).map(lambda number: number / 100)


PANS = st.builds(PanRange, hundredths(-180, 180), hundredths(-180, 180))
SOME_LIMITS = st.builds(
    Limits,
    st.none() | hundredths(-10, 5),
    st.none() | hundredths(0, 15),
    st.none() | PANS,
    st.lists(st.sampled_from([DESK, STRIP, WEDGE, THRUST]), max_size=2).map(tuple),
    st.lists(PANS, max_size=2).map(tuple),
)
AROUND = st.tuples(hundredths(-30, 30), hundredths(-60, 60))


@settings(max_examples=25)
@given(AROUND, SOME_LIMITS, st.lists(st.tuples(hundredths(-6, 6), hundredths(-4, 10)), min_size=1, max_size=8))
def test_a_point_is_in_just_one_piece_if_nothing_is_in_its_way(
    lens: Corner, limits: Limits, points: list[Corner]
) -> None:
    (found,) = reached(lens, limits, [THRUST])
    if found.share is None:
        return
    whole = sum(map(area, found.pieces)) / area(THRUST.corners)
    assert found.share == pytest.approx(whole, abs=1e-9)
    assert all(signed_area(piece) > 0 for piece in found.pieces)
    for point in points:
        sides = [side for piece in found.pieces for side in sides_of(piece)]
        if not _is_clear_of_borders(point, lens, limits) or any(abs(side.excess(point)) < 1e-6 for side in sides):
            continue
        is_in_area = point[1] >= -4 and (point[1] > 0 or abs(point[0]) < 2)
        count = sum(contains(sides_of(piece), point) for piece in found.pieces)
        assert count == (is_in_area and not why_not(lens, limits, point))


def _is_clear_of_borders(point: Corner, lens: Corner, limits: Limits) -> bool:
    """Whether everything within a hand's breadth is judged alike."""
    x, y = point
    if min(abs(y), abs(y + 4), abs(y - 10), abs(abs(x) - 2), abs(abs(x) - 6)) < 1e-3:
        return False
    steps = (-1e-3, 0.0, 1e-3)
    return len({bool(why_not(lens, limits, (x + dx, y + dy))) for dx in steps for dy in steps}) == 1


@settings(max_examples=25)
@given(AROUND, SOME_LIMITS, PANS)
def test_one_more_limit_never_adds_to_what_is_reached(lens: Corner, limits: Limits, pans: PanRange) -> None:
    (before,) = reached(lens, limits, [STAGE])
    more = Limits(*list(vars(limits).values())[:-1], (*limits.blocked_pans, pans))
    (after,) = reached(lens, more, [STAGE])
    assert after.share is not None
    assert after.share <= (1.0 if before.share is None else before.share) + 1e-9
