"""Opening a house with its roster; rosters and the people on them."""

from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as _lazy

from crew.models import CertificationKind, DispatchMembership, Person, Roster, RosterHouse
from crew.models.certifications import NeededFor
from venue.actions import make_house
from venue.errors import NotFound
from venue.history import Actor, record
from venue.models import House, User
from venue.storing import end, store


@transaction.atomic
def open_house(
    *, actor: Actor, name: str, slug: str, dispatcher: User | None = None, **facts: Any
) -> tuple[House, Roster]:
    """A new house and the roster that serves it, with its dispatcher if given; `facts` as `make_house`.

    Raises AlreadyExists, Invalid.
    """
    house = make_house(actor=actor, name=name, slug=slug, **facts)
    roster = ensure_roster(actor=actor, house=house)
    if dispatcher is not None:
        grant_dispatch(actor=actor, roster=roster, user=dispatcher)
    return house, roster


@transaction.atomic
def ensure_roster(*, actor: Actor, house: House) -> Roster:
    """The first roster that serves the house, made if there is none: a house may come from a file."""
    House.objects.select_for_update().get(pk=house.pk)
    serving = RosterHouse.objects.standing().filter(house=house).select_related("roster").order_by("pk").first()
    if serving is not None:
        return serving.roster
    roster = make_roster(actor=actor, name=house.name)
    serve_house(actor=actor, roster=roster, house=house)
    return roster


USUAL_KINDS = (
    (_lazy("Climb and harness"), NeededFor.CLIMB, True),
    (_lazy("Lift or platform"), NeededFor.LIFT, True),
    (_lazy("Arc-lamp handling"), NeededFor.ARC_LAMP, False),
    (_lazy("House orientation"), NeededFor.HOUSE, False),
)
"""Certifications that a new roster begins with: common practice, no source. The roster may change them."""


@transaction.atomic
def make_roster(*, actor: Actor, name: str) -> Roster:
    """A roster that serves no house yet, with the usual kinds of certification. Raises Invalid."""
    roster = store(Roster(name=name))
    for kind, needed_for, is_required in USUAL_KINDS:
        store(CertificationKind(roster=roster, name=str(kind), needed_for=needed_for, is_required=is_required))
    record(actor, "roster.made", roster, house=None, name=name)
    return roster


@transaction.atomic
def serve_house(*, actor: Actor, roster: Roster, house: House) -> RosterHouse:
    """The roster serves the house from now on. Raises AlreadyExists."""
    row = store(RosterHouse(roster=roster, house=house))
    record(actor, "roster.serves", roster, house=house, roster=roster.name, served=house.name)
    return row


@transaction.atomic
def add_person(*, actor: Actor, roster: Roster, name: str, **facts: Any) -> Person:
    """A person on the roster, `facts` by their columns. Raises Invalid."""
    person = store(Person(roster=roster, name=name, **facts))
    record(actor, "person.added", person, house=None, name=name, roster=roster.name)
    return person


@transaction.atomic
def grant_dispatch(*, actor: Actor, roster: Roster, user: User) -> DispatchMembership:
    """Let the user dispatch the roster. Raises AlreadyExists."""
    membership = store(DispatchMembership(user=user, roster=roster))
    record(actor, "dispatch.granted", roster, house=None, name=user.name_on_paper, roster=roster.name)
    return membership


@transaction.atomic
def revoke_dispatch(*, actor: Actor, roster: Roster, user: User, at: datetime, reason: str) -> None:
    """The user does not dispatch the roster any more. Raises NotFound, Invalid."""
    membership = DispatchMembership.objects.standing().filter(roster=roster, user=user).first()
    if membership is None:
        raise NotFound(_("dispatcher"), user.name_on_paper)
    end(membership, at=at, reason=reason)
    facts = {"name": user.name_on_paper, "roster": roster.name, "reason": reason}
    record(actor, "dispatch.revoked", roster, house=None, **facts)
