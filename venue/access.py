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
from venue.models import (
    Area,
    Attachment,
    Blockage,
    CareItem,
    CarePlan,
    Circuit,
    ColorFilter,
    Fault,
    HoursAdded,
    House,
    HouseMembership,
    Lamp,
    LampKind,
    Link,
    LogEntry,
    PickUpSize,
    Place,
    Placement,
    Position,
    PrintedCode,
    Reading,
    Setup,
    Unit,
)
from venue.models.memberships import Role
from venue.secrets import hash_of
from venue.sizes import SIZE_KEYS, unset

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


def standing_place_in(house: House, ref: UUID) -> Place:
    """The place in one of the house's positions, not ended, whoever brings it. Raises Http404."""
    return get_object_or_404(Place.objects.standing().select_related("position"), position__house=house, ref=ref)


def unit_in(house: House, ref: UUID) -> Unit:
    """The house's unit, ended or not. Raises Http404."""
    return get_object_or_404(house.units, ref=ref)


# Faults, the log, care
def fault_in(house: House, ref: UUID) -> Fault:
    """A fault of one of the house's units, closed or not. Raises Http404."""
    return get_object_or_404(Fault.objects.select_related("unit__house", "closing"), unit__house=house, ref=ref)


def log_entry_in(house: House, ref: UUID) -> LogEntry:
    """The house's log entry, struck out or not. Raises Http404."""
    entries = LogEntry.objects.select_related("house", "unit", "fitting__lamp__kind")
    return get_object_or_404(entries, house=house, ref=ref)


def attachment_in(house: House, entry_ref: UUID, ref: UUID) -> Attachment:
    """A file that belongs to one of the house's log entries. Raises Http404."""
    return get_object_or_404(Attachment, entry__house=house, entry__ref=entry_ref, ref=ref)


def care_plan_in(house: House, ref: UUID) -> CarePlan:
    """The house's care plan, for a change: not ended. Raises Http404."""
    return get_object_or_404(house.care_plans.standing().select_related("unit", "house"), ref=ref)


def care_item_in(house: House, ref: UUID) -> CareItem:
    """What is or was due in the house, done or not. Raises Http404."""
    return get_object_or_404(CareItem.objects.select_related("plan", "unit", "house"), house=house, ref=ref)


# Lamps, readings, hours added
def lamp_kind_in(house: House, ref: UUID) -> LampKind:
    """The house's lamp kind, for a change: not ended. Raises Http404."""
    return get_object_or_404(house.lamp_kinds.standing().select_related("house"), ref=ref)


def lamp_in(house: House, ref: UUID) -> Lamp:
    """The house's lamp, ended or not. Raises Http404."""
    return get_object_or_404(house.lamps.select_related("kind", "house", "tally__unit"), ref=ref)


def own_lamp_in(house: House, ref: UUID) -> Lamp:
    """The house's lamp, for a change: not ended. Raises Http404."""
    return get_object_or_404(house.lamps.standing().select_related("kind", "house", "tally__unit"), ref=ref)


def reading_of(unit: Unit, ref: UUID) -> Reading:
    """A reading of one of the unit's meters that counts. Raises Http404."""
    readings = Reading.objects.counting().select_related("meter__unit__house")
    return get_object_or_404(readings, meter__unit=unit, ref=ref)


def hours_added_to(unit: Unit, ref: UUID) -> HoursAdded:
    """Hours added to the unit that count. Raises Http404."""
    return get_object_or_404(HoursAdded.objects.counting().select_related("unit__house"), unit=unit, ref=ref)


# Circuits, filters, sizes, areas, what is in the way
def circuit_in(house: House, ref: UUID) -> Circuit:
    """The house's circuit, for a change: not ended. Raises Http404."""
    return get_object_or_404(house.circuits.standing().select_related("house"), ref=ref)


def color_filter_in(house: House, ref: UUID) -> ColorFilter:
    """The house's filter, for a change: not ended. Raises Http404."""
    return get_object_or_404(house.color_filters.standing().select_related("house"), ref=ref)


def pick_up_size_in(house: House, key: str) -> PickUpSize:
    """The house's size of this key; one not stored yet where the house never set it. Raises Http404."""
    if key not in SIZE_KEYS:
        raise Http404
    size = SIZE_KEYS[key]
    return house.pick_up_sizes.select_related("house").filter(size=size).first() or unset(house, size)


def area_in(house: House, ref: UUID) -> Area:
    """An area of one of the house's set-ups, for a change: not ended. Raises Http404."""
    areas = Area.objects.standing().select_related("setup__house")
    return get_object_or_404(areas, setup__house=house, ref=ref)


def blockage_in(house: House, ref: UUID) -> Blockage:
    """What is in the way of one of the house's own positions, for a change: not ended, no tour's. Raises Http404."""
    blockages = Blockage.objects.standing().of_house().select_related("position__house", "place")
    standing = blockages.filter(position__ended_at__isnull=True, position__only_for__isnull=True)
    return get_object_or_404(standing, position__house=house, ref=ref)


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
    return get_object_or_404(PrintedCode.objects.select_related("house"), code=typed_code(text))
