"""Pictures of a light's life: hours over time, light over hours, a year of use. Every word is passed in."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby, pairwise
from math import ceil

from venue.core.drawing.axes import (
    TYPE,
    Frame,
    caption,
    date_ticks,
    fitted,
    foot,
    level_lines,
    margin,
    number_ticks,
)
from venue.core.drawing.shapes import Box, Drawing, Line, Mark, Shape, Text, Trail, text_width
from venue.core.light_trend import LEAST_OF_FIRST, Slope
from venue.core.local_time import wall_time

WIDTH = 360.0
"""A phone's width, so that nothing shrinks there."""
MOST_DOTS = 40
MOST_POINTS = 400
WEEKS = 52

_TOP, _BOTTOM, _EDGE = 26.0, 30.0, 8.0
_HEADROOM = 1.1
_DOT = 7.0
_WEEK = timedelta(days=7)


@dataclass(frozen=True)
class HoursPoint:
    """A lamp's hours at an instant [h]; `words` are read aloud at its dot."""

    at: datetime
    hours: float
    lamp: object = None
    words: str = ""


@dataclass(frozen=True)
class HoursWords:
    """What stands on the chart of hours: the axis, both limits, and how dates and hours are written."""

    hours: str
    warn: str
    stop: str
    date: Callable[[date], str]
    number: Callable[[float], str]


def hours_chart(
    points: Sequence[HoursPoint],
    warn_h: float | None,
    stop_h: float | None,
    words: HoursWords,
    zone: str,
    *,
    ahead: Sequence[HoursPoint] = (),
    width: float = WIDTH,
    height: float = 230.0,
) -> Drawing:
    """Lamp hours over time with the limits across; a stroke for each lamp, and what is foretold broken.

    `points` by time, those of one lamp together; `ahead` goes on from the last of them. Without points only the
    ground is drawn.
    """
    everything = [*points, *ahead]
    limits = [limit for limit in (warn_h, stop_h) if limit is not None]
    high = max([point.hours for point in everything] + limits, default=0.0) * _HEADROOM or 1.0
    ticks = number_ticks(high, words.number)
    days = [_day(point.at, zone) for point in everything] or [0.0]
    left = margin(ticks)
    last = max(days[-1], days[0] + 1.0)
    frame = Frame(left, _TOP, width - _EDGE, height - _BOTTOM, days[0], last, 0.0, high)
    shapes = [caption(words.hours, width, TYPE / 2 + 2.0), *level_lines(frame, ticks)]
    if everything:
        dates = date_ticks(_date_in(days[0]), date.fromordinal(int(last)), words.date, frame.right - left)
        shapes += foot(frame, dates)
    shapes += _limits(frame, warn_h, stop_h, words)
    shapes += _lamps(frame, points, zone) + _foretold(frame, [*points[-1:], *ahead], zone) + _dots(frame, points, zone)
    return Drawing(width, height, tuple(shapes))


def _day(instant: datetime, zone: str) -> float:
    """The instant as days of the house's clock: the ordinal of its date and the part of the day."""
    wall = wall_time(instant, zone)
    return wall.toordinal() + (wall - datetime.combine(wall.date(), datetime.min.time())) / timedelta(days=1)


def _date_in(day: float) -> date:
    """The first whole day from a moment on."""
    return date.fromordinal(max(1, ceil(day)))


def _limits(frame: Frame, warn_h: float | None, stop_h: float | None, words: HoursWords) -> list[Shape]:
    """Both limits with their words at the line, stop above it and warn below, so that they never meet."""
    shapes: list[Shape] = []
    for limit, text, kind, side in ((warn_h, words.warn, "warn", 1.0), (stop_h, words.stop, "stop", -1.0)):
        if limit is not None:
            y = frame.y(limit)
            shapes.append(Line(frame.left, y, frame.right, y, kind))
            written = fitted(text, frame.right - frame.left)
            shapes.append(Text(frame.left + 4.0, y + side * (TYPE / 2 + 2.0), written, TYPE, f"{kind}-word", "start"))
    return shapes


def _lamps(frame: Frame, points: Sequence[HoursPoint], zone: str) -> list[Shape]:
    """A stroke for each lamp, and a faint one down to where the next begins."""
    lamps = [list(group) for _lamp, group in groupby(points, key=lambda point: point.lamp)]
    strokes = [tuple(_place(frame, point, zone) for point in _thinned(lamp)) for lamp in lamps]
    changes = [Trail((before[-1], after[0]), "change") for before, after in pairwise(strokes)]
    return [*changes, *(Trail(stroke, "hours") for stroke in strokes if len(stroke) > 1)]


def _thinned(points: Sequence[HoursPoint]) -> Sequence[HoursPoint]:
    """No more points than anybody can tell apart, the first and the last among them."""
    step = -(-len(points) // MOST_POINTS)
    return points if step <= 1 else [*points[:-1:step], points[-1]]


def _foretold(frame: Frame, points: Sequence[HoursPoint], zone: str) -> list[Shape]:
    return [Trail(tuple(_place(frame, point, zone) for point in points), "ahead")] if len(points) > 1 else []


def _dots(frame: Frame, points: Sequence[HoursPoint], zone: str) -> list[Shape]:
    """A dot at every reading while they can be told apart, else at the last one."""
    shown = points if len(points) <= MOST_DOTS else points[-1:]
    return [_dot(*_place(frame, point, zone), point.words) for point in shown]


def _place(frame: Frame, point: HoursPoint, zone: str) -> tuple[float, float]:
    return frame.point(_day(point.at, zone), point.hours)


def _dot(x: float, y: float, words: str) -> Shape:
    dot = Box(x, y, _DOT, _DOT, "dot", _DOT / 2)
    return Mark(words, (dot,), "reading") if words else dot


@dataclass(frozen=True)
class LightPoint:
    """A light reading: candela after so many lamp hours [h]; `words` are read aloud at its dot."""

    hours: float
    candela: float
    words: str = ""


@dataclass(frozen=True)
class LightWords:
    """What stands on the chart of light: both axes, the least, the mates' usual, how numbers are written."""

    candela: str
    hours: str
    least: str
    mates: str
    candela_number: Callable[[float], str]
    hours_number: Callable[[float], str]


def light_chart(
    points: Sequence[LightPoint],
    words: LightWords,
    *,
    line: Slope | None = None,
    mates_cd: float | None = None,
    width: float = WIDTH,
    height: float = 250.0,
) -> Drawing:
    """Candela over lamp hours, the first reading's 70 % across, and the mates' median.

    `points` by time, the first one is what the others are held against; `line` is drawn among them, without one
    a stroke joins them.
    """
    high = max([point.candela for point in points] + [mates_cd or 0.0], default=0.0) * _HEADROOM or 1.0
    last = max((point.hours for point in points), default=0.0) * 1.04 or 1.0
    ticks = number_ticks(high, words.candela_number)
    left = margin(ticks)
    frame = Frame(left, _TOP, width - _EDGE, height - _BOTTOM - TYPE - 4.0, 0.0, last, 0.0, high)
    shapes = [caption(words.candela, width, TYPE / 2 + 2.0), *level_lines(frame, ticks)]
    shapes += foot(frame, number_ticks(last, words.hours_number))
    shapes.append(Text(frame.right, height - TYPE / 2 - 1.0, fitted(words.hours, width), TYPE, "caption", "end"))
    shapes += _levels(frame, LEAST_OF_FIRST * points[0].candela if points else None, mates_cd, words)
    places = [frame.point(point.hours, point.candela) for point in points]
    if line is not None and points:
        shapes.append(_trend(frame, line, [point.hours for point in points]))
    elif len(places) > 1:
        shapes.append(Trail(tuple(places), "light"))
    shapes += [_dot(*place, point.words) for place, point in zip(places, points, strict=True)]
    return Drawing(width, height, tuple(shapes))


def _levels(frame: Frame, least: float | None, mates_cd: float | None, words: LightWords) -> list[Shape]:
    """The least light with its words under it at the left, the mates' usual with its words at the right."""
    shapes: list[Shape] = []
    room = frame.right - frame.left
    if mates_cd is not None:
        y = frame.y(mates_cd)
        shapes.append(Line(frame.left, y, frame.right, y, "mates"))
        text = fitted(words.mates, room)
        shapes.append(Text(frame.right - 2.0, y - TYPE / 2 - 2.0, text, TYPE, "mates-word", "end"))
    if least is not None:
        y = frame.y(least)
        shapes.append(Line(frame.left, y, frame.right, y, "stop"))
        text = fitted(words.least, room)
        shapes.append(Text(frame.left + 4.0, y + TYPE / 2 + 2.0, text, TYPE, "stop-word", "start"))
    return shapes


def _trend(frame: Frame, line: Slope, hours: Sequence[float]) -> Shape:
    ends = (min(hours), max(hours))
    held = [min(max(line.at(each), frame.low_y), frame.high_y) for each in ends]
    return Trail(tuple(frame.point(x, y) for x, y in zip(ends, held, strict=True)), "ahead")


@dataclass(frozen=True)
class StripWords:
    """What stands on the strip of a year: what it counts, how its fullest week and its months are written."""

    caption: str
    fullest: Callable[[float], str]
    month: Callable[[date], str]


def weekly_hours(by_day: Mapping[date, float], ends: date) -> tuple[tuple[date, float], ...]:
    """The hours of the 52 weeks that end with a day, each with its first day [h]."""
    first = ends + timedelta(days=1) - _WEEK * WEEKS
    sums = [0.0] * WEEKS
    for day, hours in by_day.items():
        if first <= day <= ends:
            sums[(day - first).days // 7] += hours
    return tuple((first + _WEEK * index, hours) for index, hours in enumerate(sums))


def year_strip(
    by_day: Mapping[date, float], ends: date, words: StripWords, *, width: float = WIDTH, height: float = 112.0
) -> Drawing:
    """A year's use as one profile, a step for each week up to `ends`; its height is the fullest week's."""
    weeks = weekly_hours(by_day, ends)
    fullest = max(hours for _first, hours in weeks)
    start = weeks[0][0].toordinal()
    frame = Frame(1.0, _TOP, width - 1.0, height - _BOTTOM, start, start + 7.0 * WEEKS, 0.0, fullest or 1.0)
    steps = [frame.point(first.toordinal() + part, hours) for first, hours in weeks for part in (0, 7)]
    shapes: list[Shape] = []
    if fullest > 0:
        ground = ((frame.right, frame.bottom), (frame.left, frame.bottom))
        shapes = [Trail((*steps, *ground), "use", is_closed=True), Trail(tuple(steps), "use-edge")]
    shapes.append(Line(frame.left, frame.bottom, frame.right, frame.bottom, "base"))
    shapes += foot(frame, date_ticks(weeks[0][0], ends, words.month, width))
    peak = words.fullest(fullest)
    shapes.append(caption(words.caption, width - text_width(peak, TYPE) - TYPE, TYPE / 2 + 2.0))
    shapes.append(Text(width, TYPE / 2 + 2.0, peak, TYPE, "number", "end"))
    return Drawing(width, height, tuple(shapes))
