"""Rows about somebody on a roster: a certification, days off."""

from datetime import date
from uuid import UUID

from crew.actions.certifying import add_certification, add_certification_kind, add_days_off
from crew.models import Certification, Person, Roster
from tests.factories import ACTOR


def certified(person: Person, kind: str = "Climb and harness", expires_on: date | None = None) -> Certification:
    """The person holds a certification that the roster keeps already."""
    row = person.roster.certification_kinds.get(name=kind)
    return add_certification(actor=ACTOR, person=person, kind=row, expires_on=expires_on)


def people_rows(roster: Roster, person: Person) -> dict[str, UUID]:
    """References for addresses: a kind of certification of the roster's own, the person's, and days off."""
    kind = add_certification_kind(actor=ACTOR, roster=roster, name="Rope access")
    row = add_certification(actor=ACTOR, person=person, kind=kind)
    off = add_days_off(actor=ACTOR, person=person, first_day=date(2026, 4, 1), last_day=date(2026, 4, 2))
    return {"skill": kind.ref, "paper": row.ref, "off": off.ref}
