"""Who may see or do what in a house. Views get every row from here and from nowhere else.

Strangers meet 404, readers who try to write 403. A superuser is a stranger too.
"""

from datetime import datetime
from uuid import UUID

from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import PermissionDenied
from django.db.models import QuerySet
from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.crypto import constant_time_compare
from django.utils.translation import gettext as _

from venue.core.codes import typed_code
from venue.errors import LinkRefused
from venue.models import House, HouseMembership, Link, Place, Placement, Position, PrintedCode, Setup, Unit
from venue.models.memberships import Role
from venue.secrets import hash_of

Visitor = AbstractBaseUser | AnonymousUser


def houses_for(user: Visitor) -> QuerySet[House]:
    """The houses that the user heads or reads."""
    return House.objects.of_member(user)


def house_for(user: Visitor, slug: str) -> tuple[House, bool]:
    """The house, and whether the user may write in it. Raises Http404 for strangers."""
    memberships = HouseMembership.objects.in_force_for(user).select_related("house")
    membership = memberships.filter(house__slug=slug).first()
    if membership is None:
        raise Http404
    return membership.house, membership.role == Role.HEAD


def house_to_write(user: Visitor, slug: str) -> House:
    """The house, for a change. Raises Http404 for strangers, PermissionDenied for readers."""
    house, may_write = house_for(user, slug)
    require_write(may_write)
    return house


def require_write(may_write: bool) -> None:
    """Raise PermissionDenied unless the user may write."""
    if not may_write:
        raise PermissionDenied(_("You may look at this but not change it. Ask the house head."))


def setup_named(house: House, ref: str) -> Setup:
    """The house's set-up of this reference; the usual one where none is given. Raises Http404."""
    if not ref:
        return house.setups.select_related("house").filter(is_default=True).first() or _no_setup(house)
    try:
        return setup_in(house, UUID(ref))
    except ValueError as error:
        raise Http404 from error


def _no_setup(house: House) -> Setup:
    return get_object_or_404(house.setups.order_by("pk")[:1])


def setup_in(house: House, ref: UUID) -> Setup:
    """The house's set-up. Raises Http404."""
    return get_object_or_404(house.setups, ref=ref)


def position_in(house: House, ref: UUID) -> Position:
    """The house's position, ended or not. Raises Http404."""
    return get_object_or_404(house.positions, ref=ref)


def own_position_in(house: House, ref: UUID) -> Position:
    """The house's own position, for a change: not ended, not brought by a tour. Raises Http404."""
    return get_object_or_404(house.positions.standing().of_house(), ref=ref)


def own_place_in(house: House, ref: UUID) -> Place:
    """The house's own place, for a change: not ended, not brought by a tour. Raises Http404."""
    places = Place.objects.standing().of_house().select_related("position__house")
    return get_object_or_404(places, position__house=house, ref=ref)


def own_unit_in(house: House, ref: UUID) -> Unit:
    """The house's unit, for a change: not ended. Raises Http404."""
    return get_object_or_404(house.units.standing(), ref=ref)


def placement_in(house: House, ref: UUID) -> Placement:
    """The placement of one of the house's units, over or not. Raises Http404."""
    placements = Placement.objects.select_related("unit__house", "place__position")
    return get_object_or_404(placements, unit__house=house, ref=ref)


def place_in(house: House, ref: UUID) -> Place:
    """The place in one of the house's positions, ended or not. Raises Http404."""
    return get_object_or_404(Place.objects.select_related("position"), position__house=house, ref=ref)


def unit_in(house: House, ref: UUID) -> Unit:
    """The house's unit, ended or not. Raises Http404."""
    return get_object_or_404(house.units, ref=ref)


def link_for(ref: UUID, secret: str, *, purpose: str, now: datetime) -> Link:
    """The link, if the secret is its own and it still works. Nothing is changed. Raises LinkRefused.

    An unknown link takes as long as a wrong secret, and both are refused alike.
    """
    link = Link.objects.filter(ref=ref, purpose=purpose).first()
    is_right = constant_time_compare(link.secret_hash if link else hash_of(""), hash_of(secret))
    if link is None or not is_right or not link.works(now):
        raise LinkRefused
    return link


def printed_code(text: str) -> PrintedCode:
    """The code that somebody scanned or typed. Raises Http404."""
    return get_object_or_404(PrintedCode, code=typed_code(text))
