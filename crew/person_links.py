"""The link by which somebody on a roster answers without an account: one a person, the same in every message.

Its secret follows from the link's reference and the installation's secret key, so that nothing secret is stored and
every message can carry it. Whoever renews it, or changes that key, makes the old address open nothing.
"""

import base64
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from django.db import transaction
from django.utils.crypto import constant_time_compare, salted_hmac

from crew.models import Person
from venue.actions import make_link, revoke_link
from venue.history import Actor
from venue.models import Link
from venue.secrets import hash_of

PURPOSE = "mine"
LASTS = timedelta(days=366)


@dataclass(frozen=True)
class PersonLink:
    """A link that works, and its secret."""

    link: Link
    secret: str


def secret_of(ref: UUID) -> str:
    """256 bits as text for an address, the same each time."""
    made = salted_hmac("crew.person_links", str(ref), algorithm="sha256").digest()
    return base64.urlsafe_b64encode(made).rstrip(b"=").decode()


def is_own_secret(link: Link, secret: str) -> bool:
    """Whether the secret is the one that follows from the installation's key as it is now."""
    return constant_time_compare(secret_of(link.ref), secret)


def links_of(persons: Iterable[Person], now: datetime) -> dict[UUID, PersonLink]:
    """The links that work, by the reference of the person. One query."""
    refs = [person.ref for person in persons]
    links = Link.objects.working(now).filter(subject_kind="person", subject_ref__in=refs, purpose=PURPOSE)
    found = {link.subject_ref: PersonLink(link, secret_of(link.ref)) for link in links.order_by("made_at", "pk")}
    return {ref: each for ref, each in found.items() if each.link.secret_hash == hash_of(each.secret)}


def link_of(person: Person, now: datetime) -> PersonLink | None:
    """The person's link, if one works."""
    return links_of([person], now).get(person.ref)


def ensured_link(person: Person, *, actor: Actor, now: datetime) -> PersonLink | None:
    """The person's link, made where there never was one or the last is over; None where it was switched off."""
    found = link_of(person, now)
    if found is not None or person.has_ended:
        return found
    own = Link.objects.filter(subject_kind="person", subject_ref=person.ref, purpose=PURPOSE)
    is_off = own.filter(revoked_at__isnull=False, expires_at__gt=now).exists()
    return None if is_off else renew_person_link(actor=actor, person=person, now=now)


@transaction.atomic
def renew_person_link(*, actor: Actor, person: Person, now: datetime) -> PersonLink:
    """A new link; the one before stops at once."""
    _revoke_all(actor, person, now)
    return _make(person, actor, now)


@transaction.atomic
def end_person_link(*, actor: Actor, person: Person, now: datetime) -> int:
    """The link stops working at once, and messages carry none until somebody renews it. How many did work."""
    return _revoke_all(actor, person, now)


def _revoke_all(actor: Actor, person: Person, now: datetime) -> int:
    """The person is held: whoever makes a link at the same time comes before or after."""
    Person._base_manager.select_for_update().get(pk=person.pk)
    own = Link.objects.working(now).filter(subject_kind="person", subject_ref=person.ref, purpose=PURPOSE)
    links = list(own)
    for link in links:
        revoke_link(actor=actor, link=link, now=now)
    return len(links)


def _make(person: Person, actor: Actor, now: datetime) -> PersonLink:
    facts = {"subject": person, "house": None, "made_at": now, "expires_at": now + LASTS}
    made = make_link(actor=actor, purpose=PURPOSE, secret_of=secret_of, **facts)  # type: ignore[arg-type]
    return PersonLink(made.link, made.secret)
