"""Sample paperwork of an invented tour, and how the tests read it."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from shows.core.paperwork import LineProblem, Paperwork, PaperworkUnreadable, SpotLine, read_paperwork

FOLDER = Path(__file__).parent


def names_a_direction(text: str) -> bool:
    """A plain stand-in for the statement reader: a side "to" a side, or a way round."""
    return any(words in text.casefold() for words in ("left to ", "right to ", "clockwise"))


def read(data: bytes | str, columns: Mapping[str, str] | None = None) -> Paperwork:
    return read_paperwork(data, reads_as_statement=names_a_direction, columns=columns or {})


def read_file(name: str) -> Paperwork:
    return read((FOLDER / name).read_bytes())


def refusal(data: bytes | str, columns: Mapping[str, str] | None = None) -> LineProblem:
    """The first problem of paperwork that can't be read."""
    with pytest.raises(PaperworkUnreadable) as refused:
        read(data, columns)
    return refused.value.problems[0]


def numbers(paperwork: Paperwork) -> list[str | None]:
    return [spot.number for spot in paperwork.spots]


def codes(paperwork: Paperwork) -> list[tuple[int | None, str]]:
    return [(problem.line, problem.code) for problem in paperwork.problems]


def only_spot(data: bytes | str) -> SpotLine:
    (spot,) = read(data).spots
    return spot
