"""Who may see or do what in an engagement. Views get every row from here.

Members of the house see its engagements; its head may change them. The road crew sees and changes its own
engagement until its access ends. Strangers meet 404.
"""

from datetime import datetime
from uuid import UUID

from django.db.models import Q, QuerySet
from django.http import Http404
from django.shortcuts import get_object_or_404

from shows.links import ADVANCE, ARRIVAL, show_links
from shows.models import AdvanceItem, Decision, Engagement, Paperwork, ShowColor, ShowEvent, ShowSpot
from venue.access import Visitor, link_for, require_write
from venue.errors import LinkRefused
from venue.models import Blockage, House, HouseMembership, Link, Place, Position
from venue.models.memberships import Role


def engagements_for(user: Visitor, now: datetime) -> QuerySet[Engagement]:
    """The engagements that the user may see now, each with `may_write`."""
    return Engagement.objects.seen_by(user, now)


def engagement_for(user: Visitor, ref: UUID, now: datetime) -> tuple[Engagement, bool]:
    """The engagement, and whether the user may change it. Raises Http404 for strangers."""
    engagement = engagements_for(user, now).select_related("house", "setup").filter(ref=ref).first()
    if engagement is None:
        raise Http404
    return engagement, engagement.may_write


def engagement_to_write(user: Visitor, ref: UUID, now: datetime) -> Engagement:
    """The engagement, for a change. Raises Http404 for strangers, PermissionDenied for readers."""
    engagement, may_write = engagement_for(user, ref, now)
    require_write(may_write)
    return engagement


def spot_in(engagement: Engagement, ref: UUID) -> ShowSpot:
    """The engagement's show spot, ended or not. Raises Http404."""
    return get_object_or_404(engagement.spots, ref=ref)


def event_in(engagement: Engagement, ref: UUID) -> ShowEvent:
    """The engagement's event, ended or not. Raises Http404."""
    return get_object_or_404(engagement.events, ref=ref)


def decision_in(engagement: Engagement, ref: UUID) -> Decision:
    """A decision of the engagement that holds. Raises Http404."""
    decisions = engagement.decisions.standing().select_related("engagement__house")
    return get_object_or_404(decisions, ref=ref)


def point_in(engagement: Engagement, ref: UUID) -> AdvanceItem:
    """An open or answered point of the engagement's advance that has not ended. Raises Http404."""
    points = engagement.advance_items.standing().select_related("engagement__house")
    return get_object_or_404(points, ref=ref)


def own_blockage_in(engagement: Engagement, ref: UUID) -> Blockage:
    """What was noted as in the way for the engagement alone, ended or not. Raises Http404."""
    rows = Blockage.objects.select_related("position__house", "place__position")
    return get_object_or_404(rows, position__house=engagement.house_id, only_for=engagement.ref, ref=ref)


def color_in(engagement: Engagement, ref: UUID) -> ShowColor:
    """A color of the show, for a change: not ended. Raises Http404."""
    return get_object_or_404(engagement.colors.standing(), ref=ref)


def paperwork_in(engagement: Engagement, ref: UUID) -> Paperwork:
    """The engagement's paperwork, accepted or not. Raises Http404."""
    return get_object_or_404(engagement.paperwork, ref=ref)


def place_for(engagement: Engagement, ref: UUID) -> Place:
    """A place that the engagement may use. Raises Http404."""
    return get_object_or_404(places_for(engagement), ref=ref)


def position_for(engagement: Engagement, ref: UUID) -> Position:
    """A position that the engagement may use. Raises Http404."""
    positions = Position.objects.standing().open_to(engagement.ref).select_related("house")
    return get_object_or_404(positions, house=engagement.house_id, ref=ref)


def places_for(engagement: Engagement) -> QuerySet[Place]:
    """The places that the engagement may use: the house's own and those it brings, none that have ended."""
    owner = Q(position__only_for__isnull=True) | Q(position__only_for=engagement.ref)
    places = Place.objects.standing().open_to(engagement.ref).select_related("position")
    return places.filter(owner, position__house=engagement.house_id, position__ended_at__isnull=True)


def arrival_link_of(engagement: Engagement, now: datetime) -> Link | None:
    """The link to the engagement's arrival check, if one works."""
    return show_links(engagement, ARRIVAL, now).first()


def advance_link_of(engagement: Engagement, now: datetime) -> Link | None:
    """The link to the house's answer, if one works."""
    return show_links(engagement, ADVANCE, now).first()


def advanced_behind(ref: UUID, secret: str, now: datetime) -> tuple[Engagement, Link]:
    """As `engagement_behind`, for a link to the house's answer."""
    return engagement_behind(ref, secret, now, purpose=ADVANCE)


def engagement_behind(ref: UUID, secret: str, now: datetime, purpose: str = ARRIVAL) -> tuple[Engagement, Link]:
    """The engagement that the link opens for its purpose, to anybody. Raises LinkRefused; of a show that ended too."""
    link = link_for(ref, secret, purpose=purpose, now=now)
    rows = Engagement.objects.standing().select_related("house", "setup")
    engagement = rows.filter(ref=link.subject_ref).first()
    if engagement is None:
        raise LinkRefused
    return engagement, link


def may_sign_for_house(user: Visitor, engagement: Engagement) -> bool:
    """Whether the user heads the house now."""
    own = HouseMembership.objects.in_force_for(user).filter(role=Role.HEAD)
    return own.filter(house=engagement.house_id).exists()


def houses_to_book(user: Visitor) -> QuerySet[House]:
    """The houses that the user may book shows into: those that the user heads. Raises PermissionDenied for none."""
    own = HouseMembership.objects.in_force_for(user).filter(role=Role.HEAD)
    houses = House.objects.filter(pk__in=own.values("house")).order_by("name", "pk")
    require_write(houses.exists())
    return houses
