"""Rosters and the people on them, the calls that they come to, the sheets that were issued."""

from crew.models.calls import Call, CallLine
from crew.models.certifications import Certification, CertificationKind, DaysOff
from crew.models.day import Attendance, MealBreak
from crew.models.hour_rules import HourRules
from crew.models.offers import Message, Offer
from crew.models.passed_over import PassedOver
from crew.models.rosters import DispatchMembership, Person, Roster, RosterHouse
from crew.models.sheets import IssuedSheet, LineConfirmation
from crew.models.templates import CallTemplate

__all__ = [
    "Attendance",
    "Call",
    "CallLine",
    "CallTemplate",
    "Certification",
    "CertificationKind",
    "DaysOff",
    "DispatchMembership",
    "HourRules",
    "IssuedSheet",
    "LineConfirmation",
    "MealBreak",
    "Message",
    "Offer",
    "PassedOver",
    "Person",
    "Roster",
    "RosterHouse",
]
