"""One light of a sheet by itself: its frames from 1 on, and who runs it, by first name."""

from dataclasses import dataclass

from crew.core.call_sheet import CallSheet, SheetLine

MOST_FRAMES = 60
"""More are said to be as many as they are, and listed no further than this."""


@dataclass(frozen=True)
class Frame:
    """Frame `number` as the show counts; `held` is empty for an empty frame.

    `on_unit` is the same frame as the unit counts, 0 where the two count alike or nobody knows.
    """

    number: int
    held: str
    on_unit: int = 0


def frames_of(line: SheetLine, sheet: CallSheet) -> list[Frame]:
    """Every frame of the magazine, the empty ones too; without a known magazine those that the show names."""
    count = max(len(line.frames), min(line.magazine, MOST_FRAMES))
    held = (*line.frames, *[""] * (count - len(line.frames)))
    return [Frame(number, text, _on_unit(number, line, sheet)) for number, text in enumerate(held, start=1)]


def counts_other_way(line: SheetLine, sheet: CallSheet) -> bool:
    """Whether the show and the unit both say from which end they count, and say it differently."""
    return bool(line.frame_1_end and sheet.frame_1_end and line.frame_1_end != sheet.frame_1_end)


def _on_unit(number: int, line: SheetLine, sheet: CallSheet) -> int:
    is_told = counts_other_way(line, sheet) and number <= line.magazine
    return line.magazine + 1 - number if is_told else 0


def line_at(sheet: CallSheet, at: int) -> SheetLine | None:
    """The light of the sheet, counted from 1 in the sheet's order."""
    return sheet.lines[at - 1] if 1 <= at <= len(sheet.lines) else None


def first_name(operator: str) -> str:
    """What stands on the tape; empty where nobody is on the light."""
    return operator.split()[0] if operator.split() else ""
