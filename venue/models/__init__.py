"""The house on file: who may see it, its set-ups, positions, places and units, and its history."""

from venue.models.base import Ending, EndingQuerySet, Keyed, Ref, Versioned
from venue.models.circuits import Circuit
from venue.models.coverage import Area, Blockage
from venue.models.faults import Fault
from venue.models.house import House
from venue.models.lamps import Fitting, Lamp, LampDecision, LampKind, LampTally
from venue.models.memberships import HouseMembership
from venue.models.meters import HoursAdded, Meter, Reading, UnitTally
from venue.models.optics import ColorFilter, PickUpSize
from venue.models.people import User
from venue.models.places import Place
from venue.models.positions import Position, SetupZone
from venue.models.record import Event, Link, PrintedCode
from venue.models.setups import Setup
from venue.models.units import Placement, Unit
from venue.models.upkeep import Attachment, CareItem, CarePlan, LightReading, LogEntry
from venue.models.walks import OrderWalk

__all__ = [
    "Area",
    "Attachment",
    "Blockage",
    "CareItem",
    "CarePlan",
    "Circuit",
    "ColorFilter",
    "Ending",
    "EndingQuerySet",
    "Event",
    "Fault",
    "Fitting",
    "HoursAdded",
    "House",
    "HouseMembership",
    "Keyed",
    "Lamp",
    "LampDecision",
    "LampKind",
    "LampTally",
    "LightReading",
    "Link",
    "LogEntry",
    "Meter",
    "OrderWalk",
    "PickUpSize",
    "Place",
    "Placement",
    "Position",
    "PrintedCode",
    "Reading",
    "Ref",
    "Setup",
    "SetupZone",
    "Unit",
    "UnitTally",
    "User",
    "Versioned",
]
