"""Who fits a line best.

A fit is a row of levels, each a number, the smaller the better, compared one after the other: certifications that are
only told, who was on this number of the show last, who ever was, experience on the show, experience on follow spots,
knowing the unit, the roster's own list, a fair share of hours.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from crew.core.filling.records import Bar, OrderedBy, Somebody, Wanted

EXPERIENCE = {"lead": 0, "some": 1, "": 2, "none": 3}
MOST_CALLS = 20
"""On a show: who has run it more often than this knows it no better."""


class Fit(NamedTuple):
    """The levels, most important first."""

    lacking: int
    not_last: int
    never_here: int
    show_calls: int
    experience: int
    unit_unknown: int
    listed: int
    hours: int


@dataclass(frozen=True)
class Ranked:
    """Somebody with what keeps them off the line, and how well they fit it."""

    somebody: Somebody
    bars: tuple[Bar, ...]
    fit: Fit

    @property
    def can_come(self) -> bool:
        return not any(bar.is_stop for bar in self.bars)


class Roll:
    """The people of a roster, each with a place on its list and among those with the fewest hours."""

    def __init__(self, people: Iterable[Somebody], ordered_by: OrderedBy) -> None:
        self.people = tuple(people)
        self.listed = _dense({each.key: list_key(each, ordered_by) for each in self.people})
        self.hours = _dense({each.key: each.minutes for each in self.people})
        self._last: dict[tuple[str, int], int | None] = {}

    def fit(self, somebody: Somebody, wanted: Wanted, bars: Sequence[Bar]) -> Fit:
        """How well the person fits the line."""
        seat, ran = (wanted.number, wanted.seat), somebody.ran
        return Fit(
            lacking=sum(not bar.is_stop for bar in bars) if bars else 0,
            not_last=int(somebody.key != self.last_on(seat)),
            never_here=int(seat not in ran.on_seat),
            show_calls=MOST_CALLS - min(ran.calls, MOST_CALLS),
            experience=EXPERIENCE.get(somebody.experience, EXPERIENCE[""]),
            unit_unknown=int(wanted.unit_words.isdisjoint(somebody.units_known)),
            listed=self.listed[somebody.key],
            hours=self.hours[somebody.key],
        )

    def last_on(self, seat: tuple[str, int]) -> int | None:
        """Who was on the seat last, None where nobody was."""
        if seat not in self._last:
            been = [(each.ran.last_on_seat[seat], each.key) for each in self.people if seat in each.ran.last_on_seat]
            self._last[seat] = max(been)[1] if been else None
        return self._last[seat]


def list_key(somebody: Somebody, ordered_by: OrderedBy) -> tuple[int, str]:
    """The place on the roster's list; who has no number there comes behind all who have one, by name."""
    number = {"seniority": somebody.seniority, "skill": somebody.grade}.get(ordered_by)
    by_name = somebody.name.casefold()
    if ordered_by == "alphabet":
        return 0, by_name
    return (1, by_name) if number is None else (0, f"{number:09}")


def judged(people: Iterable[tuple[Somebody, tuple[Bar, ...]]], wanted: Wanted, roll: Roll) -> list[Ranked]:
    """People with their bars and how well they fit, in the order given."""
    return [Ranked(somebody, bars, roll.fit(somebody, wanted, bars)) for somebody, bars in people]


def ranked(people: Iterable[tuple[Somebody, tuple[Bar, ...]]], wanted: Wanted, roll: Roll) -> list[Ranked]:
    """As `judged`, the best first: who can come before who can't."""
    return sorted(
        judged(people, wanted, roll),
        key=lambda each: (not each.can_come, each.fit, each.somebody.name, each.somebody.key),
    )


def passed_over(chosen: int, can_come: Iterable[int], roll: Roll) -> list[int]:
    """Who can come and stands on the list before the person chosen, in the list's order."""
    before = [key for key in can_come if roll.listed[key] < roll.listed[chosen]]
    return sorted(before, key=roll.listed.__getitem__)


def _dense(values: Mapping[int, object]) -> dict[int, int]:
    """Each key's place among the values, equal ones sharing a place, from 0."""
    places = {value: place for place, value in enumerate(sorted(set(values.values())))}  # type: ignore[type-var]
    return {key: places[value] for key, value in values.items()}
