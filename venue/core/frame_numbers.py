"""Numbers of frames in a color magazine, as people list them: "2, 4", "2 and 4", "3-5"."""

import re
from typing import Literal

from venue.core.labels import plain_text

Problem = Literal["empty", "unreadable", "backward", "too-high", "none"]

MOST_FRAMES = 50
"""No magazine holds more; where a unit's own number is not on file, this is held against."""
_PIECE = re.compile(r"(?:frames? ?)?(?:no\.? ?|# ?)?(\d{1,4})(?: ?(?:-|–|to|through) ?(\d{1,4}))?")


class FrameProblem(ValueError):
    """The text lists no frames of the magazine; `code` says why, `found` the piece that is wrong."""

    def __init__(self, code: Problem, found: str = "") -> None:
        super().__init__(code)
        self.code, self.found = code, found


def read_frames(text: str, frames: int | None) -> tuple[int, ...]:
    """The frames that the text lists, in order, each once, out of a magazine of `frames` (None: not on file).

    Raises FrameProblem: `none` for a magazine without frames, `too-high` for one that it does not have.
    """
    plain = plain_text(text).casefold()
    if not plain:
        raise FrameProblem("empty")
    if frames == 0:
        raise FrameProblem("none")
    pieces = [piece for piece in re.split(r"\s*(?:[,;+&/]|\band\b)\s*|(?<=\d)\s+(?=\d)", plain) if piece]
    if not pieces:
        raise FrameProblem("unreadable", text.strip())
    return tuple(sorted({number for piece in pieces for number in _numbers(piece, frames)}))


def _numbers(piece: str, frames: int | None) -> range:
    found = _PIECE.fullmatch(piece)
    if found is None:
        raise FrameProblem("unreadable", piece)
    first, last = int(found[1]), int(found[2] or found[1])
    if last < first:
        raise FrameProblem("backward", piece)
    for number in (first, last):
        if not 1 <= number <= (MOST_FRAMES if frames is None else frames):
            raise FrameProblem("too-high", str(number))
    return range(first, last + 1)


def as_list(numbers: tuple[int, ...]) -> str:
    """The list as it is stored: "2, 4"."""
    return ", ".join(map(str, numbers))
