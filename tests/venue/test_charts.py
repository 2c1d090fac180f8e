"""Charts: values where they belong, writing on the sheet and apart, plain well-formed SVG."""

from collections.abc import Callable
from datetime import date, timedelta
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.venue.ledgers import day
from venue.core.drawing.axes import date_ticks, number_ticks
from venue.core.drawing.charts import (
    HoursPoint,
    HoursWords,
    LightPoint,
    LightWords,
    StripWords,
    hours_chart,
    light_chart,
    weekly_hours,
    year_strip,
)
from venue.core.drawing.shapes import Box, Drawing, Line, Mark, Text, Trail
from venue.core.drawing.svg import as_svg
from venue.core.light_trend import Slope

ZONE = "America/Chicago"
HOURS = HoursWords("Lamp hours", "warns at 800 h", "stops at 1,000 h", lambda on: f"{on:%b %Y}", lambda v: f"{v:,.0f}")
LIGHT = LightWords(
    "Candela on the axis",
    "lamp hours",
    "70 % of its first",
    "its mates",
    lambda v: f"{v / 1e6:g} M",
    lambda v: f"{v:g}",
)
STRIP = StripWords("Hours a week", lambda v: f"fullest week {v:g} h", lambda on: f"{on:%b}")
LAST = date(2026, 5, 30)


def nights(count: int, lamp: object = "L-1", start: float = 0.0, step: float = 3.0) -> list[HoursPoint]:
    return [HoursPoint(day(at), start + step * at, lamp, f"night {at}") for at in range(count)]


def shapes(drawing: Drawing, kind: str) -> list:
    return [shape for shape in drawing.flat() if shape.kind == kind]


CHARTS: dict[str, Callable[[], Drawing]] = {
    "hours": lambda: hours_chart(nights(30), 800, 1000, HOURS, ZONE, ahead=[HoursPoint(day(90), 1000)]),
    "hours, wide": lambda: hours_chart(nights(200), 800, 1000, HOURS, ZONE, width=720),
    "hours, close limits": lambda: hours_chart(nights(5), 990, 1000, HOURS, ZONE),
    "hours, one": lambda: hours_chart(nights(1), None, None, HOURS, ZONE),
    "hours, none": lambda: hours_chart([], 800, 1000, HOURS, ZONE),
    "hours, nothing at all": lambda: hours_chart([], None, None, HOURS, ZONE),
    "light": lambda: light_chart(
        [LightPoint(4, 6.4e6, "first"), LightPoint(900, 4.1e6, "last")], LIGHT, line=Slope(-2500, 6.4e6), mates_cd=5.6e6
    ),
    "light, one": lambda: light_chart([LightPoint(0, 6.4e6)], LIGHT),
    "light, none": lambda: light_chart([], LIGHT),
    "strip": lambda: year_strip({LAST - timedelta(days=3 * back): 4.0 + back % 5 for back in range(100)}, LAST, STRIP),
    "strip, empty": lambda: year_strip({}, LAST, STRIP),
}


@pytest.mark.parametrize("name", CHARTS)
def test_everything_stays_on_the_sheet_and_no_writing_covers_another(name: str) -> None:
    drawing = CHARTS[name]()
    texts = [shape for shape in drawing.flat() if isinstance(shape, Text)]
    for text in texts:
        left, top, right, bottom = text.bounds
        assert left >= -0.01 and right <= drawing.width + 0.01, text
        assert top >= -0.01 and bottom <= drawing.height + 0.01, text
    for one, other in combinations(texts, 2):
        a, b = one.bounds, other.bounds
        assert a[2] <= b[0] + 0.01 or b[2] <= a[0] + 0.01 or a[3] <= b[1] + 0.01 or b[3] <= a[1] + 0.01, (one, other)
    for trail in drawing.flat():
        if isinstance(trail, Trail):
            assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in trail.points)


@pytest.mark.parametrize("name", CHARTS)
def test_the_svg_is_well_formed_with_classes_of_the_charts_and_no_style(name: str) -> None:
    svg = as_svg(CHARTS[name](), title="a & b", identity="chart-1", family="chart")
    root = ElementTree.fromstring(svg)
    assert "style" not in svg
    assert root.get("class") == "chart"
    looks = {each.get("class") for each in root.iter() if each is not root and not each.tag.endswith("title")}
    assert all(look is not None and look.startswith("chart-") for look in looks)


def test_hours_rise_from_left_to_right_and_the_stop_lies_where_the_hours_say() -> None:
    drawing = hours_chart(nights(10, step=100), 800, 1000, HOURS, ZONE)
    (trail,) = shapes(drawing, "hours")
    assert all(x < x2 and y > y2 for (x, y), (x2, y2) in pairwise(trail.points))
    (warn,), (stop,) = shapes(drawing, "warn"), shapes(drawing, "stop")
    per_hour = (trail.points[0][1] - trail.points[8][1]) / 800
    assert warn.y1 == pytest.approx(trail.points[8][1])
    assert warn.y1 - stop.y1 == pytest.approx(200 * per_hour)


def test_each_lamp_has_its_own_stroke_and_a_faint_one_leads_to_the_next() -> None:
    points = [*nights(5), *[HoursPoint(day(5 + at), 3.0 * at, "L-2") for at in range(4)]]
    drawing = hours_chart(points, None, 1000, HOURS, ZONE, ahead=[HoursPoint(day(40), 90)])
    first, second = shapes(drawing, "hours")
    (change,), (ahead,) = shapes(drawing, "change"), shapes(drawing, "ahead")
    assert change.points == (first.points[-1], second.points[0])
    assert ahead.points[0] == second.points[-1]


def test_readings_have_dots_with_words_while_they_can_be_told_apart() -> None:
    few = [shape for shape in hours_chart(nights(3), None, None, HOURS, ZONE).shapes if isinstance(shape, Mark)]
    assert [mark.words for mark in few] == ["night 0", "night 1", "night 2"]
    many = [shape for shape in hours_chart(nights(200), None, None, HOURS, ZONE).shapes if isinstance(shape, Mark)]
    assert [mark.words for mark in many] == ["night 199"]


def test_thousands_of_readings_are_drawn_with_no_more_points_than_can_be_seen() -> None:
    points = nights(5000, step=0.2)
    (trail,) = shapes(hours_chart(points, None, 1000, HOURS, ZONE), "hours")
    (same,) = shapes(hours_chart([points[0], points[-1]], None, 1000, HOURS, ZONE), "hours")
    assert len(trail.points) <= 401
    assert (trail.points[0], trail.points[-1]) == same.points


def test_the_light_chart_marks_seventy_percent_of_the_first_reading() -> None:
    drawing = light_chart([LightPoint(0, 5e6), LightPoint(500, 3.5e6)], LIGHT)
    (stop,), dots = shapes(drawing, "stop"), shapes(drawing, "dot")
    assert stop.y1 == pytest.approx(dots[1].y)
    assert len(shapes(drawing, "light")) == 1
    assert shapes(light_chart([LightPoint(0, 5e6), LightPoint(500, 3e6)], LIGHT, line=Slope(-4e3, 5e6)), "light") == []


def test_the_strip_has_a_step_for_each_of_52_weeks_up_to_the_day() -> None:
    by_day = {
        LAST: 3.0,
        LAST - timedelta(days=6): 4.0,
        LAST - timedelta(days=7): 14.0,
        LAST - timedelta(days=364): 99.0,
    }
    weeks = weekly_hours(by_day, LAST)
    assert len(weeks) == 52
    assert [hours for _first, hours in weeks[-2:]] == [14.0, 7.0]
    assert sum(hours for _first, hours in weeks) == 21.0
    drawing = year_strip(by_day, LAST, STRIP)
    (edge,) = shapes(drawing, "use-edge")
    base = next(shape for shape in shapes(drawing, "base") if isinstance(shape, Line) and shape.y1 == shape.y2)
    heights = [base.y1 - y for _x, y in edge.points[::2]]
    assert heights[-1] == pytest.approx(heights[-2] / 2)
    assert "fullest week 14 h" in [text.text for text in drawing.flat() if isinstance(text, Text)]


def test_hostile_words_are_written_as_text() -> None:
    words = StripWords("<script>", lambda _v: '"&', lambda on: f"{on:%b}")
    svg = as_svg(year_strip({}, LAST, words, width=720), title="<b>", identity='"', family="chart")
    assert "<script" not in svg and "<b>" not in svg
    ElementTree.fromstring(svg)


@settings(max_examples=50)
@given(st.floats(0.001, 1e9), st.integers(3, 8))
def test_numbers_on_an_axis_are_round_even_and_reach_high(high: float, most: int) -> None:
    values = [tick.value for tick in number_ticks(high, str, most)]
    step = values[1] - values[0]
    assert len(values) <= most + 1
    assert values[0] == 0 and values[-1] <= high * (1 + 1e-9) and values[-1] + step > high * (1 - 1e-9)
    assert f"{step:.0e}"[0] in "125"


@settings(max_examples=50)
@given(st.dates(date(1990, 1, 1), date(2090, 1, 1)), st.integers(0, 12_000), st.sampled_from([260.0, 352.0, 700.0]))
def test_dates_on_an_axis_lie_between_both_days_and_fit(first: date, days: int, room: float) -> None:
    last = first + timedelta(days=days)
    ticks = date_ticks(first, last, lambda on: f"{on:%b %Y}", room)
    assert ticks
    assert all(first.toordinal() <= tick.value <= last.toordinal() for tick in ticks)
    assert [tick.value for tick in ticks] == sorted({tick.value for tick in ticks})
    assert sum(len(tick.text) for tick in ticks) * 15 * 0.62 <= room


def test_a_dot_is_a_circle() -> None:
    (dot,) = shapes(hours_chart(nights(1), None, None, HOURS, ZONE), "dot")
    assert isinstance(dot, Box)
    assert dot.width == dot.height == 2 * dot.radius
