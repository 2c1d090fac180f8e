"""Lamps in units, for tests: of one kind, with so many hours behind them."""

from datetime import datetime
from decimal import Decimal

from tests.factories import ACTOR, NOON
from tests.venue.lamped import a_kind, a_lamp
from venue.actions import fit_lamp
from venue.models import Lamp, Unit


def fitted_lamp(unit: Unit, hours: float, serial: str = "", at: datetime = NOON) -> Lamp:
    """A lamp of 1,000 rated hours that has burned so many, in the unit."""
    kind = unit.house.lamp_kinds.first() or a_kind(unit.house)
    lamp = a_lamp(kind, serial or f"L-{unit.tag}", came_with_h=Decimal(str(hours)))
    fit_lamp(actor=ACTOR, unit=unit, at=at, lamp=lamp)
    return lamp
