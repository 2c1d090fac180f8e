"""What the units draw on the house's circuits and weigh on its positions, against what is recorded.

rows at an instant --stands_of--> stands --circuit_sums, position_sums--> sums

The number of queries does not depend on how many circuits, positions and places there are.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from django.db.models import Q
from django.utils.translation import gettext as _

from venue.core.supply import Current, Load, Sum, Weight, circuit_sum, weight_sum
from venue.models import Circuit, House, Place, Placement, Position, Unit


class Standing(Protocol):
    """A place and the unit that stands there; None: nothing stands there."""

    @property
    def place(self) -> Place: ...

    @property
    def unit(self) -> Unit | None: ...


@dataclass(frozen=True)
class Stand:
    """A place and the unit that stands there; None: nothing stands there."""

    place: Place
    unit: Unit | None


@dataclass(frozen=True)
class CircuitSum:
    """One circuit: the places on it, with who stands there, and the amperes that come together."""

    circuit: Circuit
    lights: tuple[Standing, ...]
    sum: Sum


@dataclass(frozen=True)
class PositionSum:
    """One position: its places, with who stands there, and the kilograms that come together."""

    position: Position
    lights: tuple[Standing, ...]
    sum: Sum


def stands_of(house: House, at: datetime) -> list[Stand]:
    """Every place of the house at the instant in its order, a tour's only where a unit of the house stands there."""
    places = Place.objects.at(at).filter(_at(at, "position__"), position__house=house).select_related("position")
    stays = Placement.objects.at(at).filter(place__position__house=house).select_related("unit")
    units = {stay.place_id: stay.unit for stay in stays}
    stands = [Stand(place, units.get(place.pk)) for place in places]
    return [stand for stand in stands if stand.unit is not None or _is_own(stand.place)]


def _at(at: datetime, path: str = "") -> Q:
    """Those that have not ended by the instant."""
    return Q(**{f"{path}ended_at__isnull": True}) | Q(**{f"{path}ended_at__gt": at})


def _is_own(place: Place) -> bool:
    return place.only_for is None and place.position.only_for is None


def circuits_at(house: House, at: datetime) -> list[Circuit]:
    """The circuits that have not ended by the instant."""
    return list(house.circuits.filter(_at(at)))


def circuit_sums(lights: Iterable[Standing], circuits: Iterable[Circuit] | None = None) -> list[CircuitSum]:
    """Each circuit with what these places put on it; nothing that stands at another place is counted.

    Of the `circuits` given, else of those that the places are on: then one query.
    """
    on: dict[int | None, list[Standing]] = {}
    for light in lights:
        on.setdefault(light.place.circuit_id, []).append(light)
    if circuits is None:
        circuits = Circuit.objects.filter(pk__in=[key for key in on if key is not None])
    return [_circuit_sum(circuit, on.get(circuit.pk, [])) for circuit in circuits]


def _circuit_sum(circuit: Circuit, lights: Sequence[Standing]) -> CircuitSum:
    loads = [load_of(light.unit) for light in lights if light.unit is not None]
    other = Current(_("what else draws on it"), circuit.other_a)
    return CircuitSum(circuit, tuple(lights), circuit_sum(loads, circuit.volts, circuit.rating_a, [other]))


def load_of(unit: Unit) -> Load:
    """What its supply takes in; where that is not recorded its lamp's watts, which are less."""
    if unit.input_w is None:
        return Load(unit.tag, unit.watts)
    return Load(unit.tag, unit.input_w, power_factor=unit.power_factor)


def positions_at(house: House, lights: Iterable[Standing], at: datetime) -> list[Position]:
    """The positions that have not ended by the instant, a tour's only where one of the places is."""
    used = {light.place.position_id for light in lights}
    return [each for each in house.positions.filter(_at(at)) if each.only_for is None or each.pk in used]


def position_sums(lights: Iterable[Standing], positions: Iterable[Position]) -> list[PositionSum]:
    """Each position with the units that stand there and what else it carries; people are not counted."""
    at: dict[int, list[Standing]] = {}
    for light in lights:
        at.setdefault(light.place.position_id, []).append(light)
    return [_position_sum(position, at.get(position.pk, [])) for position in positions]


def _position_sum(position: Position, lights: Sequence[Standing]) -> PositionSum:
    weights = [Weight(light.unit.tag, light.unit.weight_kg) for light in lights if light.unit is not None]
    other = Weight(_("what else stands or hangs there"), position.other_load_kg)
    return PositionSum(position, tuple(lights), weight_sum([*weights, other], position.load_limit_kg))
