"""Links handed out and codes printed."""

import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db import transaction
from django.db.models import Model

from venue.core.codes import new_code
from venue.errors import AlreadyEnded, LinkRefused
from venue.history import Actor, record
from venue.models import House, Link, PrintedCode
from venue.secrets import hash_of, new_secret
from venue.storing import store


@dataclass(frozen=True)
class MadeLink:
    """A new link and its secret, which is told this once and never again."""

    link: Link
    secret: str


@transaction.atomic
def make_link(
    *,
    actor: Actor,
    purpose: str,
    subject: Model,
    house: House | None,
    made_at: datetime,
    expires_at: datetime,
    secret_of: Callable[[UUID], str] | None = None,
) -> MadeLink:
    """A link for one purpose on one subject (a row with a `ref`). Raises Invalid.

    Its secret is by chance, unless `secret_of` makes it from the link's reference.
    """
    link = Link(purpose=purpose, house=house, made_at=made_at, expires_at=expires_at)
    secret = secret_of(link.ref) if secret_of else new_secret()
    link.secret_hash = hash_of(secret)
    link.subject_kind, link.subject_ref = _kind_and_ref(subject)
    store(link)
    record(actor, "link.made", link, house=house, purpose=purpose, expires_at=expires_at)
    return MadeLink(link, secret)


@transaction.atomic
def use_link(*, actor: Actor, link: Link, now: datetime) -> None:
    """Note that the link was used to change something. Raises LinkRefused if it stopped working meanwhile."""
    if not Link.objects.filter(pk=link.pk).working(now).update(last_used_at=now):
        raise LinkRefused
    link.last_used_at = now
    record(actor, "link.used", link, house=link.house, purpose=link.purpose)


@transaction.atomic
def revoke_link(*, actor: Actor, link: Link, now: datetime) -> None:
    """The link stops working. Raises AlreadyEnded if it was revoked before."""
    if not Link.objects.filter(pk=link.pk, revoked_at__isnull=True).update(revoked_at=now):
        raise AlreadyEnded(link, Link.objects.get(pk=link.pk).revoked_at or now)
    link.revoked_at = now
    record(actor, "link.revoked", link, house=link.house, purpose=link.purpose)


@transaction.atomic
def make_code(*, actor: Actor, purpose: str, subject: Model, house: House) -> PrintedCode:
    """A code to print, which stands for the subject (a row with a `ref`) whatever it is called later."""
    code = PrintedCode(code=new_code(secrets.randbelow), purpose=purpose, house=house)
    code.subject_kind, code.subject_ref = _kind_and_ref(subject)
    store(code)
    record(actor, "code.made", subject, house=house, purpose=purpose)
    return code


def _kind_and_ref(subject: Model) -> tuple[str, UUID]:
    return str(subject._meta.model_name), subject.ref  # type: ignore[attr-defined]
