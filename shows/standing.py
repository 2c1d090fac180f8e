"""How an engagement stands: places in use, comparison, chosen way, verdict; gathered once for a page."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from shows.conditions import conditions_tonight
from shows.core.numbering.comparison import OPEN_WORDS, compare
from shows.core.numbering.records import Comparison, House, Spot
from shows.core.numbering.statement import could_be
from shows.lines import ShowLine, Verdict, choice_of, lines_of, verdict_of
from shows.models import Choice, Engagement
from shows.tonight import ShowNumbers, Tonight, compared, numbers_of, places_tonight, show_instant
from shows.walked import unwalked_positions

CLOSING_WORDS = {
    "house": "as seen from the house",
    "stage": "as seen from the stage",
    "by-position": "position by position",
    "one-row": "all in one row",
    "house-left-first": "house left first",
    "house-right-first": "house right first",
}
"""What a statement has to add for one of its readings to be the only one, in the words that are read back."""


@dataclass(frozen=True)
class Answer:
    """A way to close an open question: what to state, and which reading that is (empty: a statement by itself)."""

    reading: str
    statement: str


@dataclass(frozen=True)
class Standing:
    """All that the pages about one engagement's numbers show."""

    engagement: Engagement
    tonight: Tonight
    numbers: ShowNumbers
    comparison: Comparison
    choice: Choice | None
    verdict: Verdict

    @property
    def way(self) -> str:
        """The way out that was chosen; empty where none was."""
        return self.choice.way if self.choice else ""

    @cached_property
    def lines(self) -> tuple[ShowLine, ...]:
        """A line a show number and place."""
        conditions = conditions_tonight(self.tonight)
        return lines_of(self.numbers, self.tonight, self.comparison, self.way, conditions)

    @cached_property
    def unit_sentences(self) -> list[str]:
        """What units of this show can't do, or why they are out of service; a sentence once."""
        return list(dict.fromkeys(said for line in self.lines for said in line.unit_sentences))

    @property
    def has_spots(self) -> bool:
        return bool(self.numbers.spots)

    @cached_property
    def not_walked(self) -> list[str]:
        """The names of positions in use whose order nobody checked on foot, or where another label was found."""
        return [position.name for position in unwalked_positions(self.engagement.setup, self.tonight)]


def standing_of(engagement: Engagement) -> Standing:
    """How the engagement stands at its first show."""
    tonight, numbers = places_tonight(engagement, show_instant(engagement)), numbers_of(engagement)
    comparison, choice = compared(engagement, tonight, numbers), choice_of(engagement)
    verdict = verdict_of(comparison, choice.way if choice else "")
    return Standing(engagement, tonight, numbers, comparison, choice, verdict)


def answers(house: House, spots: list[Spot], statement: str, comparison: Comparison) -> list[Answer]:
    """What one tap may state to close the open question: each reading that has words, else what it could be."""
    if any(flag.flag == "unclear" for flag in comparison.flags):
        return list(_closing(house, spots, statement, comparison))
    missing = next((flag for flag in comparison.flags if flag.flag == "convention-missing"), None)
    if missing is None:
        return []
    texts = missing.data.get("could_be") or could_be(statement, house)
    return [Answer("", str(text)) for text in texts]  # type: ignore[attr-defined]


def _closing(house: House, spots: list[Spot], statement: str, comparison: Comparison) -> Iterator[Answer]:
    for reading in comparison.readings:
        stated = ", ".join(filter(None, [statement, CLOSING_WORDS[reading.reading]])) if statement else ""
        meant = [_seen_from(spot, reading.reading) for spot in spots]
        if _open_words(compare(house, meant, stated or None)) < _open_words(comparison):
            yield Answer(reading.reading, stated)


def _seen_from(spot: Spot, reading: str) -> Spot:
    """The spot with whose left is meant, where it names a side and does not say."""
    is_open = reading in OPEN_WORDS["whose"] and spot.side and not spot.whose_left
    return replace(spot, whose_left=reading) if is_open else spot


def _open_words(comparison: Comparison) -> set[str]:
    return {
        str(word)
        for flag in comparison.flags
        if flag.flag == "unclear"
        for word in flag.data["open"]  # type: ignore[attr-defined]
    }
