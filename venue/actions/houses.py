"""Opening a house, its set-ups, and who may see or run it."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from venue.actions.editing import change
from venue.errors import AlreadyExists, NotFound, WrongHouse
from venue.history import Actor, record
from venue.models import House, HouseMembership, Position, Setup, SetupZone, User
from venue.models.memberships import Role
from venue.storing import end, store


@transaction.atomic
def make_house(
    *,
    actor: Actor,
    name: str,
    slug: str,
    head: User | None = None,
    setup: dict[str, Any] | None = None,
    **facts: Any,
) -> House:
    """A new house with its usual set-up and, if given, its head.

    `facts` are further columns of House, `setup` those of Setup. Raises AlreadyExists, Invalid.
    """
    house = store(House(name=name, slug=slug, **facts))
    record(actor, "house.made", house, house=house, name=name)
    usual = {"name": _("Usual"), **(setup or {}), "is_default": True}
    add_setup(actor=actor, house=house, **usual)
    if head is not None:
        grant_membership(actor=actor, house=house, user=head, role=Role.HEAD)
    return house


@transaction.atomic
def add_setup(*, actor: Actor, house: House, name: str, **facts: Any) -> Setup:
    """Another way to set up the house. Raises AlreadyExists, Invalid."""
    setup = store(Setup(house=house, name=name, **facts))
    record(actor, "setup.added", setup, house=house, name=name)
    return setup


@transaction.atomic
def change_setup(
    *, actor: Actor, setup: Setup, seen: int, values: Mapping[str, Any], zones: Mapping[Position, str]
) -> None:
    """Change a set-up as shown in version `seen`, and the zones of positions in it.

    A set-up that becomes the usual one takes that from another. Raises as `change` and `set_zone`.
    """
    if values.get("is_default"):
        _step_down(actor, setup)
    change(actor=actor, row=setup, house=setup.house, seen=seen, values=values)
    if zones and setup.version == seen:
        setup.save_version((), seen)
    for position, zone in zones.items():
        set_zone(actor=actor, setup=setup, position=position, zone=zone)


def _step_down(actor: Actor, setup: Setup) -> None:
    for usual in setup.house.setups.filter(is_default=True).exclude(pk=setup.pk):
        change(actor=actor, row=usual, house=setup.house, seen=usual.version, values={"is_default": False})


@transaction.atomic
def set_zone(*, actor: Actor, setup: Setup, position: Position, zone: str) -> None:
    """In this set-up the position counts as another zone than usual; empty: as the position itself says.

    Raises WrongHouse, Invalid, StaleVersion.
    """
    if setup.house_id != position.house_id:
        raise WrongHouse(setup, position)
    row = SetupZone.objects.filter(setup=setup, position=position).first()
    if zone:
        row = row or SetupZone(setup=setup, position=position)
        row.zone = zone
        store(row)
    elif row is not None:
        row.delete()  # an exception that holds no more; the history keeps that it did
    said = zone or _("that of the position itself, %(zone)s") % {"zone": position.zone}
    facts = {"setup": setup.name, "position": position.name, "zone": said}
    record(actor, "setup.zone_set", setup, house=setup.house, **facts)


@transaction.atomic
def grant_membership(*, actor: Actor, house: House, user: User, role: str) -> HouseMembership:
    """Let the user read or head the house; another role replaces the present one. Raises AlreadyExists."""
    membership = HouseMembership.objects.standing().filter(house=house, user=user).first()
    if membership is not None and membership.role == role:
        raise AlreadyExists(_("%(name)s is %(role)s of this house already.") % _named(user, role))
    membership = membership or HouseMembership(house=house, user=user)
    membership.role = role
    store(membership)
    record(actor, "membership.granted", house, house=house, **_named(user, role))
    return membership


@transaction.atomic
def revoke_membership(*, actor: Actor, house: House, user: User, at: datetime, reason: str) -> None:
    """The user may not see the house any more. Raises NotFound."""
    membership = HouseMembership.objects.standing().filter(house=house, user=user).first()
    if membership is None:
        raise NotFound(_("member"), user.name_on_paper)
    end(membership, at=at, reason=reason)
    record(actor, "membership.revoked", house, house=house, reason=reason, **_named(user, membership.role))


def _named(user: User, role: str) -> dict[str, str]:
    return {"name": user.name_on_paper, "role": role}
