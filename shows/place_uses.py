"""Every place that a show may use: whether it is in use, why, and who stands there. Constant queries."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from shows.access import places_for
from shows.conditions import conditions_at
from shows.models import Engagement, PlaceUse
from shows.tonight import places_tonight
from shows.wording.limits import unit_sentences
from venue.condition import Condition
from venue.models import Place, Position


@dataclass(frozen=True)
class UsedPlace:
    """One place: the unit's tag (empty: none stands there), whether it is in use, the number there, and who said so.

    `version` is that of the correction, 0 where nobody corrected anything. `sentences` say what the unit can't do.
    """

    place: Place
    unit: str
    in_use: bool
    number: str
    is_corrected: bool
    version: int
    sentences: tuple[str, ...] = ()


@dataclass(frozen=True)
class UsedPosition:
    """A position with its places; `is_brought` by the show itself."""

    position: Position
    places: Sequence[UsedPlace]

    @property
    def is_brought(self) -> bool:
        return self.position.only_for is not None


def positions_with_uses(engagement: Engagement, at: datetime) -> list[UsedPosition]:
    """The house's positions in its order, those that the show brings among them."""
    tonight = places_tonight(engagement, at)
    uses = {use.place_id: use for use in engagement.place_uses.all()}
    bound = engagement.spot_places.standing().values_list("place", "spot__number")
    numbers = dict(bound)
    found: dict[int, list[UsedPlace]] = {}
    positions: dict[int, Position] = {}
    conditions = conditions_at((*tonight.places, *tonight.idle), at)
    for place in places_for(engagement):
        positions.setdefault(place.position_id, place.position)
        used = _used(place, tonight.tag_at(place), place.pk in tonight.slot_of, numbers, uses.get(place.pk))
        found.setdefault(place.position_id, []).append(_with_condition(used, conditions.get(place.pk)))
    return [UsedPosition(position, found[key]) for key, position in positions.items()]


def _used(place: Place, unit: str, in_use: bool, numbers: dict[int, str], use: PlaceUse | None) -> UsedPlace:
    number = numbers.get(place.pk, "") if in_use else ""
    return UsedPlace(place, unit, in_use, number, use is not None, use.version if use else 0)


def _with_condition(used: UsedPlace, condition: Condition | None) -> UsedPlace:
    if condition is None or condition.state == "ready":
        return used
    return replace(used, sentences=tuple(unit_sentences(used.unit, condition.stops, condition.limits)))
