"""What the page of the proposal shows: an answer, what is in the way, a line a light, other places where asked for."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from shows.core.fit.records import Finding
from shows.core.proposing import Alternative
from shows.proposal import Proposed
from shows.proposal_question import Asked, LeftOut, ShowLight
from shows.wording import proposal as words
from shows.wording.fit import GRAVITY
from venue.core.labels import plain_text
from venue.models import Place

MOST_CHARACTERS = 40
"""Of a number that nobody knows so many are read back."""


@dataclass(frozen=True)
class PlaceWords:
    """A place as a line shows it; `unit` is empty where none stands."""

    label: str
    position: str
    unit: str


@dataclass(frozen=True)
class OtherPlace:
    """Another place for a light, and what it costs."""

    place: PlaceWords
    words: list[str]


@dataclass(frozen=True)
class Line:
    """One light of the show.

    `now` is where it stands if that is not proposed; `told` what is found there, by gravity in words; `others` is None
    if nobody asked.
    """

    light: ShowLight
    words: str
    place: PlaceWords | None
    why: str
    is_taped: bool
    now: str
    told: list[tuple[str, str]]
    others: list[OtherPlace] | None


def proposal_context(proposed: Proposed, other_places_for: str) -> dict[str, Any]:
    """Everything that the template names, but for who asks. No query."""
    asked, proposal = proposed.asked, proposed.proposal
    opened = proposed.lights_of(other_places_for) if other_places_for else []
    return {
        "engagement": asked.engagement,
        "proposed": proposed,
        "answer": words.answer_sentence(proposed),
        "price": words.price_sentence(proposal),
        "change": words.change_sentence(proposed),
        "in_the_way": words.in_the_way(proposal, asked),
        "is_open": any(flag.flag == "unclear" for flag in asked.paper.comparison.flags),
        "lines": [_line(light, proposed, light in opened) for light in asked.lights.values()],
        "left_out": [(_place_words(each.place, asked), _said(each, asked)) for each in asked.left_out],
        "unknown": "" if opened else plain_text(other_places_for)[:MOST_CHARACTERS],
        "climbs": any(each.code == "needs-certification" for each in _found(proposed)),
    }


def _line(light: ShowLight, proposed: Proposed, is_opened: bool) -> Line:
    asked, place = proposed.asked, proposed.place_of(light)
    return Line(
        light=light,
        words=words.light_words(light, asked),
        place=None if place is None else _place_words(place, asked),
        why=words.reason_sentence(proposed.reason_of[light.key], proposed),
        is_taped=light.key in proposed.proposal.taped,
        now=words.now_words(light, proposed),
        told=[(str(GRAVITY[each.gravity]), words.found_sentence(each, asked)) for each in _told(light, proposed)],
        others=[_other(each, proposed) for each in proposed.next_best(light)] if is_opened else None,
    )


def _told(light: ShowLight, proposed: Proposed) -> list[Finding]:
    """What stops the show there or makes it other than asked for, by the light itself and by its pair."""
    asked, chosen = proposed.asked, proposed.proposal.chosen[light.key]
    if chosen is None:
        return []
    breaking = list(asked.needs[light.key, chosen].values())
    limiting = [each for each in asked.findings[light.key, chosen] if each.gravity == "limits"]
    paired = [each for each in proposed.of_pairs if each.number == light.spot.number and light.nth == 1]
    return breaking + limiting + paired


def _found(proposed: Proposed) -> Iterable[Finding]:
    chosen = ((key, place) for key, place in proposed.proposal.chosen.items() if place is not None)
    return (each for pair in chosen for each in proposed.asked.findings[pair])


def _other(each: Alternative, proposed: Proposed) -> OtherPlace:
    place = _place_words(proposed.asked.places[each.candidate], proposed.asked)
    return OtherPlace(place, words.alternative_words(each, proposed))


def _place_words(place: Place, asked: Asked) -> PlaceWords:
    unit = asked.unit_at(place)
    return PlaceWords(place.label, place.position.name, "" if unit is None else unit.tag)


def _said(each: LeftOut, asked: Asked) -> list[str]:
    return [words.found_sentence(finding, asked) for finding in each.findings]
