"""The rows of one house while a file is loaded into them."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, TypeVar

from venue import actions
from venue.core.names import name_key
from venue.errors import DomainError
from venue.history import Actor
from venue.house_file.paths import Path
from venue.house_file.problems import Problem
from venue.house_file.records import ElsewhereRecord, PlaceKey, PlaceName
from venue.models import Area, Blockage, Circuit, ColorFilter, House, Place, Placement, Position, Setup, Unit

AnyRow = TypeVar("AnyRow", Setup, Position, Place, Unit, Circuit, ColorFilter, Area, Blockage)


@dataclass
class Rows:
    """The house's circuits, units, positions and places by their keys, and what was refused so far."""

    actor: Actor
    now: datetime
    house: House
    problems: list[Problem] = field(default_factory=list)
    circuits: dict[str, Circuit] = field(init=False)
    units: dict[str, Unit] = field(init=False)
    positions: dict[str, Position] = field(init=False)
    places: dict[PlaceKey, Place] = field(init=False)

    def __post_init__(self) -> None:
        """Fetch what stands already; units also where they ended, since their tags are taken for good."""
        positions = self.house.positions.standing().of_house().order_by("row_order", "pk")
        places = Place.objects.standing().of_house().filter(position__in=positions).select_related("position")
        self.circuits = {circuit.name_key: circuit for circuit in self.house.circuits.standing()}
        self.units = {unit.tag_key: unit for unit in self.house.units.all()}
        self.positions = {position.name_key: position for position in positions}
        self.places = {(place.position.name_key, place.label_key): place for place in places}

    @contextmanager
    def at(self, path: Path) -> Iterator[None]:
        """What a verb refuses becomes a problem at the path; the rest is still tried, to name all problems."""
        try:
            yield
        except DomainError as refusal:
            self.refuse(path, refusal)

    def refuse(self, path: Path, refusal: DomainError) -> None:
        self.problems.append(Problem(path, "refused", {"reason": str(refusal)}))

    def change(self, path: Path, row: Any, values: dict[str, Any]) -> None:
        """Bring the row to the values."""
        with self.at(path):
            actions.change(actor=self.actor, row=row, house=self.house, seen=row.version, values=values)

    def put(self, path: Path, row: AnyRow | None, add: Callable[..., AnyRow], values: dict[str, Any]) -> AnyRow | None:
        """The row brought to the values, or added; None if it could not be added."""
        if row is not None:
            self.change(path, row, values)
            return row
        with self.at(path):
            return add(actor=self.actor, **values)
        return None

    def placements(self, tag: str, name: PlaceName) -> Any:
        """The placements of the unit at the place."""
        unit, place = self.units.get(name_key(tag)), self.places.get(name.key)
        return Placement.objects.real().filter(unit=unit, place=place)

    def away(self, record: ElsewhereRecord) -> Any:
        """The placements of the unit where the record says that it is."""
        unit = self.units.get(name_key(record.unit))
        return Placement.objects.real().filter(unit=unit, place__isnull=True, elsewhere=record.elsewhere)
