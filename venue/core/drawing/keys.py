"""What the lines and surfaces of a drawing mean: a sample of each with its word, in rows below it."""

from collections.abc import Callable, Sequence

from venue.core.drawing.figure import figure
from venue.core.drawing.hatching import hatched
from venue.core.drawing.shapes import Box, Ellipse, Line, Shape, Text, Trail, text_width
from venue.core.drawing.stage import target_cross

TYPE = 13.0
ROW = 22.0
_SAMPLE, _GAP, _BETWEEN = 24.0, 6.0, 14.0


def _reached(x: float, y: float) -> list[Shape]:
    corners = ((x - 11.0, y - 7.0), (x + 11.0, y - 7.0), (x + 11.0, y + 7.0), (x - 11.0, y + 7.0))
    return [*hatched(corners), Trail(corners, "reached-edge", is_closed=True)]


_SAMPLES: dict[str, Callable[[float, float], Sequence[Shape]]] = {
    "throw": lambda x, y: [Line(x - 12.0, y, x + 12.0, y, "throw"), Box(x - 12.0, y, 7.0, 7.0, "slot", 3.5)],
    "target": target_cross,
    "pool": lambda x, y: [Ellipse(x, y, 22.0, 12.0, 0.0, "pool")],
    "reached": _reached,
    "clock": lambda x, y: [Ellipse(x, y, 18.0, 18.0, 0.0, "dial"), Text(x, y, "12", 12.0, "hour")],
    "cone": lambda x, y: [Line(x - 12.0, y, x + 12.0, y, "cone")],
    "person": lambda x, y: figure(x, y + 10.0, 20.0),
    "deck-pool": lambda x, y: [Line(x - 11.0, y, x + 11.0, y, "deck-pool")],
    "glass": lambda x, y: [Line(x + side, y - 8.0, x + side, y + 8.0, "glass") for side in (-2.0, 2.0)],
}


def sample_key(entries: Sequence[tuple[str, str]], width: float, top: float) -> tuple[list[Shape], float]:
    """A sample and its word for each (kind, word), in centered rows; also where the next thing may begin."""
    shapes: list[Shape] = []
    for row in _rows(entries, width - 2 * _BETWEEN):
        x = (width - _length(row)) / 2
        for kind, word in row:
            shapes += _SAMPLES[kind](x + _SAMPLE / 2, top + ROW / 2)
            shapes.append(Text(x + _SAMPLE + _GAP, top + ROW / 2, word, TYPE, "key-word", "start"))
            x += _entry(word) + _BETWEEN
        top += ROW
    return shapes, top


def _entry(word: str) -> float:
    return _SAMPLE + _GAP + text_width(word, TYPE)


def _length(row: Sequence[tuple[str, str]]) -> float:
    return sum(_entry(word) for _kind, word in row) + _BETWEEN * (len(row) - 1)


def _rows(entries: Sequence[tuple[str, str]], room: float) -> list[list[tuple[str, str]]]:
    rows: list[list[tuple[str, str]]] = []
    for entry in entries:
        if rows and _length([*rows[-1], entry]) <= room:
            rows[-1].append(entry)
        else:
            rows.append([entry])
    return rows
