"""Show numbers taken together: twice named, missing, declared."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from shows.core.numbering.directions import Statement
from shows.core.numbering.records import Spot
from venue.core.labels import is_name, plain_text, sort_key

MOST_SPOTS = 60  # common practice, no source: more in one hole is another series (1–4 and 101–104)
_SKIPPED_LETTERS = frozenset("IO")  # commonly left out of lettered rows, being read as 1 and 0
_SERIES = re.compile(r"(?P<prefix>\D*)(?P<digits>\d+)")


@dataclass(frozen=True)
class Numbers:
    """The spots of a paperwork by number key, in natural order, and what is wrong with the numbers.

    `wanted` is how many places each number takes; `holes` are undeclared missing numbers.
    """

    lines: Mapping[str, tuple[Spot, ...]]
    wanted: Mapping[str, int]
    twice: frozenset[str]
    holes: tuple[str, ...]
    without_number: tuple[Spot, ...]

    def text(self, key: str) -> str:
        """The number as it is shown: a name as first written, anything else in its plain form."""
        spots = self.lines.get(key)
        written = plain_text(spots[0].number or "") if spots else key
        return written if is_name(written) else key


def sort_numbers(spots: Sequence[Spot], statement: Statement | None) -> Numbers:
    """The spots sorted out by number against what the statement declares."""
    lines: dict[str, list[Spot]] = {}
    for spot in spots:
        if spot.key:
            lines.setdefault(spot.key, []).append(spot)
    in_order = {key: tuple(lines[key]) for key in sorted(lines, key=sort_key)}
    teams = statement.teams if statement else {}
    wanted = {key: max(len(group), teams[key]) if key in teams else 1 for key, group in in_order.items()}
    return Numbers(
        lines=in_order,
        wanted=wanted,
        twice=frozenset(key for key, group in in_order.items() if _is_named_too_often(key, len(group), teams)),
        holes=_holes(list(in_order), statement),
        without_number=tuple(spot for spot in spots if not spot.key),
    )


def _is_named_too_often(key: str, lines: int, teams: Mapping[str, int]) -> bool:
    return lines > 1 if key not in teams else 0 < teams[key] < lines


def _holes(keys: Sequence[str], statement: Statement | None) -> tuple[str, ...]:
    """Numbers between the lowest and the highest of a series that nobody declared unused."""
    expected: set[str] = set(_between_digits(keys)) | set(_between_letters(keys))
    if statement:
        declared = statement.used | _block_numbers(statement)
        within = expected & declared if declared else expected
        expected = (within | statement.used) - statement.unused
    return tuple(sorted(expected - set(keys), key=sort_key))


def _block_numbers(statement: Statement) -> frozenset[str]:
    """All numbers of the blocks, where every block names its own."""
    owned = [block.numbers for block in statement.blocks]
    return frozenset().union(*(numbers for numbers in owned if numbers)) if owned and all(owned) else frozenset()


def _between_digits(keys: Iterable[str]) -> Iterable[str]:
    series: dict[str, list[int]] = {}
    for key in keys:
        found = _SERIES.fullmatch(key)
        if found and len(found["digits"]) <= 6:
            series.setdefault(found["prefix"], []).append(int(found["digits"]))
    for prefix, numbers in series.items():
        for low, high in zip(sorted(numbers), sorted(numbers)[1:], strict=False):
            if high - low <= MOST_SPOTS:
                yield from (f"{prefix}{number}" for number in range(low + 1, high))


def _between_letters(keys: Iterable[str]) -> Iterable[str]:
    letters = sorted(ord(key) for key in keys if len(key) == 1 and key.isascii() and key.isalpha())
    if letters:
        yield from (chr(code) for code in range(letters[0], letters[-1]) if chr(code) not in _SKIPPED_LETTERS)


def has_order(key: str) -> bool:
    """Whether a statement can place this number at all; a name has no order."""
    return not is_name(key)
