"""Where the lights of a sheet stand, as the caller sees them facing the stage: stage at the top, house left at left.

Turned by 180 degrees it is how the stage sees the house: house right at left, stage at the bottom.

    rear          upstage, beyond the stage
    ---- stage ----
    overhead, side, bowl, front
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from crew.core.call_sheet import CallSheet, SheetLine
from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT

BEYOND = ("rear",)
THIS_SIDE = ("overhead", "side", "bowl", "front", "")
COLUMNS = (HOUSE_LEFT, "center", HOUSE_RIGHT)
ALIKE_DEG = 20.0
"""Lights of a bowl nearer than this in bearing are drawn at one height."""
Lights = tuple[SheetLine, ...]


@dataclass(frozen=True)
class Band:
    """A position. `kind` across: `lights` from left to right; sides: `rows` from the top down, each left, middle and
    right; loose: nothing orders the lights. `tied` are numbers that stand where another does.
    """

    name: str
    kind: str
    lights: Lights = ()
    rows: tuple[tuple[SheetLine | None, ...], ...] = ()
    tied: tuple[str, ...] = ()

    @property
    def turned(self) -> "Band":
        """The same from the other side."""
        if self.kind == "loose":
            return self
        return replace(self, lights=self.lights[::-1], rows=tuple(row[::-1] for row in reversed(self.rows)))


@dataclass(frozen=True)
class Chart:
    """Bands from the top down: those above the stage, and those below it. `placeless` have no place yet."""

    above: tuple[Band, ...]
    below: tuple[Band, ...]
    placeless: Lights
    is_turned: bool = False

    @property
    def turned(self) -> "Chart":
        above, below = ([band.turned for band in reversed(bands)] for bands in (self.above, self.below))
        return Chart(tuple(below), tuple(above), self.placeless, not self.is_turned)


def chart_of(sheet: CallSheet) -> Chart:
    """The chart of the sheet, not turned."""
    placed = [line for line in sheet.lines if line.label]
    return Chart(
        above=tuple(_bands(placed, BEYOND)),
        below=tuple(_bands(placed, THIS_SIDE)),
        placeless=tuple(line for line in sheet.lines if not line.label),
    )


def _bands(lines: Iterable[SheetLine], zones: Sequence[str]) -> list[Band]:
    """A band a position, zone by zone from the top down; all of a bowl is one, round the stage."""
    groups: dict[tuple[str, str], list[SheetLine]] = {}
    for line in lines:
        if line.position_zone in zones:
            is_ring = line.position_zone == "bowl" and line.bearing_deg > 0
            groups.setdefault((line.position_zone, "" if is_ring else line.position), []).append(line)
    in_order = sorted(groups.items(), key=lambda group: zones.index(group[0][0]))
    return [_band(zone, tuple(group)) for (zone, _name), group in in_order]


def _band(zone: str, lights: Lights) -> Band:
    name = ", ".join(dict.fromkeys(line.position for line in lights))
    if zone == "bowl" and all(line.bearing_deg for line in lights):
        return _sides(name, lights, lambda line: min(line.bearing_deg, 360 - line.bearing_deg), ALIKE_DEG)
    if zone == "side" and all(line.house_side and line.row for line in lights):
        return _sides(name, lights, lambda line: -line.row, 0.0)
    if zone in {"side", "bowl"} or not all(line.row for line in lights):
        return Band(name, "loose", lights)
    return Band(name, "across", tuple(sorted(lights, key=lambda line: line.row)), tied=_tied(lights))


def _sides(name: str, lights: Lights, down: Callable[[SheetLine], float], alike: float) -> Band:
    """Rows from the top down; lights on different sides share one where they are alike in depth."""
    rows: list[list[SheetLine | None]] = []
    top = 0.0
    for line in sorted(lights, key=down):
        column = COLUMNS.index(line.house_side)
        if not rows or rows[-1][column] is not None or down(line) - top > alike:
            rows.append([None, None, None])
            top = down(line)
        rows[-1][column] = line
    return Band(name, "sides", rows=tuple(tuple(row) for row in rows))


def _tied(lights: Lights) -> tuple[str, ...]:
    rows = [line.row for line in lights]
    return tuple(line.number for line in lights if rows.count(line.row) > 1)
