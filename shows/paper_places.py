"""Where a show's paperwork wants its numbers: by house label, by place words, by how the show counts.

What persons put by hand keeps its place; the rest is followed as new paperwork would be.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from shows.core.fit.records import Finding
from shows.core.numbering.comparison import compare
from shows.core.numbering.directions import Statement
from shows.core.numbering.numbers import sort_numbers
from shows.core.numbering.place_words import positions_named
from shows.core.numbering.records import Comparison, Pair, Spot
from shows.core.numbering.statement import read_statement
from shows.models import Engagement, ShowSpot
from shows.tonight import ShowNumbers, Tonight
from venue.core.labels import label_key
from venue.models import Place


@dataclass(frozen=True)
class PaperPlaces:
    """The places that the paperwork gives one number, by team, and what gives them; none where it names none for sure.

    `is_wish`: another place breaks a need. `within`: primary keys of the places in the positions that its `words` name,
    None where they name none.
    """

    places: tuple[Place, ...] = ()
    source: str = ""
    is_wish: bool = False
    within: frozenset[int] | None = None
    words: str = ""

    def missed_at(self, number: str, nth: int, place: Place) -> tuple[Finding, ...]:
        """What is found where the nth light of the number stands at this place."""
        if self.is_wish:
            return tuple(_elsewhere(number, each) for each in self.places[nth - 1 : nth] if each != place)
        if self.within is None or place.pk in self.within:
            return ()
        facts = {"words": self.words}
        return (Finding("other-position", "stops", number, ways=("other-place",), decider="road", facts=facts),)


def _elsewhere(number: str, place: Place) -> Finding:
    facts = {"label": place.label, "position": place.position.name}
    return Finding("elsewhere-in-paperwork", "stops", number, ways=("other-place",), decider="road", facts=facts)


@dataclass(frozen=True)
class Paper:
    """All numbers of the show: `of` by the spot's primary key, `lights` how many each wants, by the number's key."""

    comparison: Comparison
    of: Mapping[int, PaperPlaces]
    lights: Mapping[str, int]


def paper_of(
    engagement: Engagement, tonight: Tonight, numbers: ShowNumbers, by_hand: Mapping[int, Sequence[Place]]
) -> Paper:
    """What the paperwork says of every number, beside what was put by hand. No query."""
    comparison = _beside_hands(engagement, tonight, numbers, by_hand)
    pairs: dict[str, list[Pair]] = {}
    for pair in comparison.pairs:
        pairs.setdefault(label_key(pair.number), []).append(pair)
    of = {
        spot.pk: _places_of(spot, asked, pairs.get(spot.number_key, []), tonight)
        for spot, asked in zip(numbers.spots, numbers.asked, strict=True)
    }
    return Paper(comparison, of, _lights(engagement, tonight, numbers))


def _beside_hands(
    engagement: Engagement, tonight: Tonight, numbers: ShowNumbers, by_hand: Mapping[int, Sequence[Place]]
) -> Comparison:
    given = {
        spot.number: [tonight.slot_of[place.pk] for place in by_hand.get(spot.pk, ()) if place.pk in tonight.slot_of]
        for spot in numbers.spots
    }
    held = {number: slots for number, slots in given.items() if slots}
    return compare(tonight.house, numbers.asked, engagement.statement or None, given=held)


def _places_of(spot: ShowSpot, asked: Spot, pairs: Sequence[Pair], tonight: Tonight) -> PaperPlaces:
    places, source = tuple(tonight.places[pair.slot] for pair in pairs), pairs[0].source if pairs else ""
    is_own_label = source == "label" and all(place.label_key == spot.number_key for place in places)
    is_wish = bool(places) and not is_own_label  # to leave one's own label costs tape, which counts anyway
    return PaperPlaces(places, source, is_wish, _within(asked, tonight), spot.position_words)


def _within(asked: Spot, tonight: Tonight) -> frozenset[int] | None:
    """The places in the positions that the number's words name; None where they name none that is in use."""
    positions = positions_named(asked, tonight.house)
    found = frozenset(tonight.places[slot].pk for index in positions for slot in tonight.house.slots_at[index])
    return found or None


def _lights(engagement: Engagement, tonight: Tonight, numbers: ShowNumbers) -> dict[str, int]:
    """A team takes more than one, never more than one above what there is."""
    statement = read_statement(engagement.statement, tonight.house) if engagement.statement.strip() else None
    sorted_out = sort_numbers(numbers.asked, statement if isinstance(statement, Statement) else None)
    return {key: max(1, min(count, len(tonight.places) + 1)) for key, count in sorted_out.wanted.items()}
