"""Rosters and the people on them, the calls that they come to, the sheets that were issued."""

from crew.models.calls import Call, CallLine
from crew.models.rosters import DispatchMembership, Person, Roster, RosterHouse
from crew.models.sheets import IssuedSheet, LineConfirmation

__all__ = [
    "Call",
    "CallLine",
    "DispatchMembership",
    "IssuedSheet",
    "LineConfirmation",
    "Person",
    "Roster",
    "RosterHouse",
]
