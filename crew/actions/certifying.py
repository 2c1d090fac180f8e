"""What people are certified for, the kinds that a roster keeps, and days off."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from crew.actions.people import lock_person
from crew.models import Certification, CertificationKind, DaysOff, Person, Roster
from crew.models.certifications import NeededFor
from venue.actions import change
from venue.errors import AlreadyEnded, Invalid
from venue.history import Actor, record
from venue.models import House
from venue.storing import end, store


@transaction.atomic
def add_certification(
    *, actor: Actor, person: Person, kind: CertificationKind, house: House | None = None, expires_on: date | None = None
) -> Certification:
    """Somebody holds a certification, through its last day if one is given.

    Raises AlreadyExists, AlreadyEnded where the person has left or the kind is kept no more, Invalid.
    """
    _require_standing(lock_person(person))
    _require_standing(_lock_kind(kind))
    row = store(Certification(person=person, kind=kind, house=house, expires_on=expires_on))
    facts = {"name": person.name, "kind": kind.name, "through": expires_on and expires_on.isoformat()}
    record(actor, "certification.added", row, house=house, **facts)
    return row


@transaction.atomic
def change_certification(*, actor: Actor, certification: Certification, seen: int, expires_on: date | None) -> None:
    """Another last day; none is for good. Raises StaleVersion, Invalid."""
    lock_person(certification.person)
    values = {"expires_on": expires_on}
    change(actor=actor, row=certification, house=certification.house, seen=seen, values=values)


@transaction.atomic
def end_certification(*, actor: Actor, certification: Certification, at: datetime, reason: str) -> None:
    """Somebody holds it no more; calls to come that ask for it say so. Raises AlreadyEnded, StaleVersion, Invalid."""
    lock_person(certification.person)
    end(certification, at=at, reason=reason)
    facts = {"name": certification.person.name, "kind": certification.kind.name, "reason": reason}
    record(actor, "certification.ended", certification, house=certification.house, **facts)


@transaction.atomic
def add_days_off(*, actor: Actor, person: Person, first_day: date, last_day: date, words: str = "") -> DaysOff:
    """Days on which somebody does not work; the words stay out of the history. Raises AlreadyEnded, Invalid."""
    _require_standing(lock_person(person))
    row = store(DaysOff(person=person, first_day=first_day, last_day=last_day, words=words))
    record(actor, "daysoff.added", row, house=None, **_days(row))
    return row


@transaction.atomic
def end_days_off(*, actor: Actor, days_off: DaysOff, at: datetime, reason: str) -> None:
    """Somebody works on these days after all. Raises AlreadyEnded, StaleVersion, Invalid."""
    end(days_off, at=at, reason=reason)
    record(actor, "daysoff.ended", days_off, house=None, reason=reason, **_days(days_off))


def _days(row: DaysOff) -> dict[str, str]:
    return {"name": row.person.name, "first": row.first_day.isoformat(), "last": row.last_day.isoformat()}


@transaction.atomic
def add_certification_kind(*, actor: Actor, roster: Roster, name: str, **facts: Any) -> CertificationKind:
    """A kind of certification that the roster keeps. Raises AlreadyExists, Invalid."""
    kind = store(CertificationKind(roster=roster, name=name, **facts))
    record(actor, "certificationkind.added", kind, house=None, name=name, roster=roster.name)
    return kind


@transaction.atomic
def change_certification_kind(*, actor: Actor, kind: CertificationKind, seen: int, values: Mapping[str, Any]) -> None:
    """Store new facts of a kind. Raises StaleVersion, AlreadyExists, Invalid.

    An orientation is of one house, any other certification of none: what people hold must have ended before a kind
    becomes the one or the other.
    """
    before = _lock_kind(kind)
    is_of_house, was_of_house = (
        needed_for == NeededFor.HOUSE for needed_for in (values.get("needed_for", before.needed_for), before.needed_for)
    )
    if is_of_house != was_of_house and kind.certifications.standing().exists():
        told = _("People hold this already. Add another kind for this, and end this one.")
        raise Invalid({"needed_for": [told]})
    change(actor=actor, row=kind, house=None, seen=seen, values=values)


@transaction.atomic
def end_certification_kind(*, actor: Actor, kind: CertificationKind, at: datetime, reason: str) -> None:
    """The roster keeps the kind no more, and nothing asks for it. Raises AlreadyEnded, StaleVersion, Invalid."""
    end(kind, at=at, reason=reason)
    facts = {"name": kind.name, "roster": kind.roster.name, "reason": reason}
    record(actor, "certificationkind.ended", kind, house=None, **facts)


def _lock_kind(kind: CertificationKind) -> CertificationKind:
    return CertificationKind._base_manager.select_for_update().get(pk=kind.pk)


def _require_standing(row: Person | CertificationKind) -> None:
    if row.ended_at is not None:
        raise AlreadyEnded(row, row.ended_at)
