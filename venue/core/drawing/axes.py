"""The ground of a chart: scales, round numbers and dates along them, lines and writing beside them.

caption
2,000 |- - - - - - -
1,000 |- - - - - - -
    0 +-------------
      Mar   Jun   Sep
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, floor, log10

from venue.core.drawing.shapes import CHAR_WIDTH, Line, Shape, Text, shortened, text_width

TYPE = 15.0
_GAP = 6.0
_MONTH_STEPS = (1, 2, 3, 6, 12, 24, 60, 120, 240)
_DAY_STEPS = (1, 2, 4, 7, 14)
_SHORT_DAYS = 62
"""A time no longer than two months is cut by days."""


@dataclass(frozen=True)
class Tick:
    """A value on an axis and what is written there."""

    value: float
    text: str


@dataclass(frozen=True)
class Frame:
    """Where values fall on the sheet: `low` at the left and at the bottom [drawing units]."""

    left: float
    top: float
    right: float
    bottom: float
    low_x: float
    high_x: float
    low_y: float
    high_y: float

    def x(self, value: float) -> float:
        return self.left + (value - self.low_x) / (self.high_x - self.low_x) * (self.right - self.left)

    def y(self, value: float) -> float:
        return self.bottom - (value - self.low_y) / (self.high_y - self.low_y) * (self.bottom - self.top)

    def point(self, x: float, y: float) -> tuple[float, float]:
        return self.x(x), self.y(y)


def number_ticks(high: float, text: Callable[[float], str], most: int = 5) -> tuple[Tick, ...]:
    """Round numbers from 0 up to `high`: at most `most` (3 or more) steps of 1, 2 or 5 of a power of ten."""
    rough = max(high, 1e-9) / most
    power = 10.0 ** floor(log10(rough))
    step = next(power * part for part in (1, 2, 5, 10) if power * part >= rough * (1 - 1e-9))
    return tuple(Tick(step * index, text(step * index)) for index in range(floor(high / step + 1e-9) + 1))


def date_ticks(first: date, last: date, text: Callable[[date], str], room: float) -> tuple[Tick, ...]:
    """Round dates between two days, so far apart that their texts fit into `room`; values are ordinals."""
    days = max(1, (last - first).days)

    def fits(found: Sequence[date]) -> bool:
        widest = max((text_width(text(day), TYPE) for day in found), default=0.0)
        return len(found) * (widest + 2 * _GAP) <= room

    choices = [_days(first, last, step) for step in _DAY_STEPS] if days <= _SHORT_DAYS else []
    choices += [_months(first, last, step) for step in _MONTH_STEPS]
    found = next((choice for choice in choices if choice and fits(choice)), [first])
    return tuple(Tick(day.toordinal(), text(day)) for day in found)


def _days(first: date, last: date, step: int) -> list[date]:
    return [first + timedelta(days=day) for day in range(0, (last - first).days + 1, step)]


def _months(first: date, last: date, step: int) -> list[date]:
    """The first days of every `step`-th month between two days, counted from a year's beginning."""
    start = ceil((first.year * 12 + first.month - 1 + (first.day > 1)) / step) * step
    return [date(month // 12, month % 12 + 1, 1) for month in range(start, last.year * 12 + last.month, step)]


def margin(ticks: Iterable[Tick]) -> float:
    """The room that numbers take at the left."""
    return max((text_width(tick.text, TYPE) for tick in ticks), default=0.0) + _GAP + 2.0


def level_lines(frame: Frame, ticks: Iterable[Tick]) -> list[Shape]:
    """A line across for each number, with the number at its left."""
    shapes: list[Shape] = []
    for tick in ticks:
        y = frame.y(tick.value)
        shapes.append(Line(frame.left, y, frame.right, y, "base" if tick.value == frame.low_y else "level"))
        shapes.append(Text(frame.left - _GAP, y, tick.text, TYPE, "number", "end"))
    return shapes


def foot(frame: Frame, ticks: Iterable[Tick]) -> list[Shape]:
    """A short stroke and its text under the frame for each value along it; texts stay on the sheet."""
    shapes: list[Shape] = []
    for tick in ticks:
        x, half = frame.x(tick.value), text_width(tick.text, TYPE) / 2
        shapes.append(Line(x, frame.bottom, x, frame.bottom + 4.0, "base"))
        middle = min(max(x, half), frame.right - half) if half * 2 < frame.right else x
        shapes.append(Text(middle, frame.bottom + _GAP + TYPE / 2 + 2.0, tick.text, TYPE, "number"))
    return shapes


def caption(text: str, width: float, y: float) -> Text:
    """What an axis counts, written across the sheet."""
    return Text(0.0, y, fitted(text, width), TYPE, "caption", "start")


def fitted(text: str, width: float) -> str:
    """The text, cut to a width."""
    return shortened(text, max(1, int(width / (TYPE * CHAR_WIDTH))))
