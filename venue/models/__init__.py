"""The house on file: who may see it, its set-ups, positions, places and units, and its history."""

from venue.models.base import Ending, EndingQuerySet, Keyed, Ref, Versioned
from venue.models.house import House
from venue.models.memberships import HouseMembership
from venue.models.people import User
from venue.models.places import Place
from venue.models.positions import Position, SetupZone
from venue.models.record import Event, Link, PrintedCode
from venue.models.setups import Setup
from venue.models.units import Placement, Unit
from venue.models.walks import OrderWalk

__all__ = [
    "Ending",
    "EndingQuerySet",
    "Event",
    "House",
    "HouseMembership",
    "Keyed",
    "Link",
    "OrderWalk",
    "Place",
    "Placement",
    "Position",
    "PrintedCode",
    "Ref",
    "Setup",
    "SetupZone",
    "Unit",
    "User",
    "Versioned",
]
