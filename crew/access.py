"""Who may see or do what with rosters, calls and sheets. Views get every row from here.

- dispatch sees its rosters, and makes, fills and issues their calls
- the head of a house sees its calls, makes and issues them
- whoever sees an engagement (reader, road crew) sees the sheets that were issued for it, not the calls
- strangers meet 404, whoever may only look 403
"""

from datetime import datetime
from uuid import UUID

from django.core.exceptions import PermissionDenied
from django.db.models import Exists, OuterRef, Q, QuerySet
from django.http import Http404
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from crew.actions.feeds import PURPOSE as FEED
from crew.actions.tech_links import PURPOSE
from crew.models import (
    Call,
    CallLine,
    CallTemplate,
    Certification,
    CertificationKind,
    DaysOff,
    DispatchMembership,
    HourRules,
    IssuedSheet,
    Message,
    Offer,
    Person,
    Roster,
    RosterHouse,
)
from crew.person_links import PURPOSE as MINE
from crew.person_links import is_own_secret
from shows.access import engagements_for
from shows.models import Engagement, ShowEvent
from venue.access import Visitor, link_for
from venue.errors import LinkRefused
from venue.models import House, HouseMembership, Link
from venue.models.memberships import Role


def rosters_for(user: Visitor) -> QuerySet[Roster]:
    """The rosters that the user dispatches."""
    return Roster.objects.of_dispatcher(user)


def roster_for(user: Visitor, ref: UUID) -> tuple[Roster, bool]:
    """The roster, and whether the user may write: whoever sees it may. Raises Http404 for strangers."""
    roster = rosters_for(user).filter(ref=ref).first()
    if roster is None:
        raise Http404
    return roster, True


def person_in(roster: Roster, ref: UUID) -> Person:
    """The person on the roster, ended or not. Raises Http404."""
    return get_object_or_404(roster.persons, ref=ref)


def standing_person_in(roster: Roster, ref: UUID) -> Person:
    """The person, who is on the roster now, to be changed. Raises Http404."""
    return get_object_or_404(roster.persons.standing(), ref=ref)


def certification_in(person: Person, ref: UUID) -> Certification:
    """A certification of the person that stands. Raises Http404."""
    rows = person.certifications.standing().filter(kind__ended_at__isnull=True)
    return get_object_or_404(rows.select_related("kind", "house", "person"), ref=ref)


def days_off_in(person: Person, ref: UUID) -> DaysOff:
    """Days off of the person that stand. Raises Http404."""
    return get_object_or_404(person.days_off.standing(), ref=ref)


def certification_kind_in(roster: Roster, ref: UUID) -> CertificationKind:
    """A kind of certification that the roster keeps now. Raises Http404."""
    return get_object_or_404(roster.certification_kinds.standing(), ref=ref)


def houses_served(roster: Roster) -> QuerySet[House]:
    """The houses that the roster serves now."""
    return House.objects.filter(pk__in=roster.roster_houses.standing().values("house"))


def houses_to_serve(user: Visitor, roster: Roster) -> QuerySet[House]:
    """The houses that the user heads and the roster does not serve yet."""
    return headed_houses(user).exclude(pk__in=houses_served(roster).values("pk")).order_by("name", "pk")


def headed_houses(user: Visitor) -> QuerySet[House]:
    """The houses that the user heads."""
    own = HouseMembership.objects.in_force_for(user).filter(role=Role.HEAD)
    return House.objects.filter(pk__in=own.values("house"))


def require_some_head(user: Visitor) -> None:
    """A new house is opened by somebody who heads one already. Raises PermissionDenied."""
    if not headed_houses(user).exists():
        raise PermissionDenied(_("Only somebody who heads a house already may open another. Ask the house head."))


def calls_for(user: Visitor) -> QuerySet[Call]:
    """The calls that the user runs, each with `may_fill`: dispatch may put people on it."""
    dispatched = DispatchMembership.objects.in_force_for(user).filter(roster=OuterRef("roster"))
    headed = Q(engagement__house__in=headed_houses(user))
    return Call.objects.annotate(may_fill=Exists(dispatched)).filter(headed | Q(may_fill=True))


def call_for(user: Visitor, ref: UUID, now: datetime) -> Call:
    """The call, with `may_fill`. Raises Http404 for strangers, PermissionDenied for who sees only its sheets."""
    rows = calls_for(user).select_related("event", "engagement__house", "engagement__setup", "roster")
    call = rows.filter(ref=ref).first()
    if call is not None:
        return call
    if Call.objects.filter(ref=ref, engagement__in=_seen(user, now)).exists():
        raise PermissionDenied(_("You may look at the issued sheets of this call. Ask dispatch for anything else."))
    raise Http404


def call_to_fill(user: Visitor, ref: UUID, now: datetime) -> Call:
    """The call, to put people on it. Raises Http404 for strangers, PermissionDenied for all but dispatch."""
    call = call_for(user, ref, now)
    if not call.may_fill:  # type: ignore[attr-defined]
        raise PermissionDenied(_("Dispatch of the roster fills this call. Ask there."))
    return call


def may_fill(user: Visitor, call: Call) -> bool:
    """Whether the user dispatches the call's roster."""
    return rosters_for(user).filter(pk=call.roster_id).exists()


def sheets_for(user: Visitor, now: datetime) -> QuerySet[IssuedSheet]:
    """The issued sheets that the user may see: of calls that the user runs, and of engagements that are seen."""
    seen = Q(call__in=calls_for(user).values("pk")) | Q(call__engagement__in=_seen(user, now))
    return IssuedSheet.objects.filter(seen)


def sheet_for(user: Visitor, ref: UUID, n: int, now: datetime) -> IssuedSheet:
    """Revision n of the call's sheet. Raises Http404."""
    related = ("code", "call__event", "call__engagement__house", "call__engagement__setup")
    sheet = sheets_for(user, now).select_related(*related).filter(call__ref=ref, n=n).first()
    if sheet is None:
        raise Http404
    return sheet


def _seen(user: Visitor, now: datetime) -> QuerySet:
    return engagements_for(user, now).values("pk")


def events_to_call(user: Visitor) -> QuerySet[ShowEvent]:
    """The events for which the user may make a call, none that are called off."""
    own = RosterHouse.objects.standing().filter(roster__in=rosters_for(user)).values("house")
    houses = Q(engagement__house__in=headed_houses(user)) | Q(engagement__house__in=own)
    standing = ShowEvent.objects.standing().filter(engagement__ended_at__isnull=True)
    return standing.filter(houses).select_related("engagement__house")


def event_to_call(user: Visitor, ref: UUID, now: datetime) -> ShowEvent:
    """The event, for a call. Raises Http404 for strangers, PermissionDenied for readers and the road crew."""
    event = events_to_call(user).filter(ref=ref).first()
    if event is not None:
        return event
    if ShowEvent.objects.filter(ref=ref, engagement__in=_seen(user, now)).exists():
        raise PermissionDenied(_("The house head or dispatch makes the call for this. Ask there."))
    raise Http404


def rosters_to_call(user: Visitor, house: House) -> QuerySet[Roster]:
    """The rosters that serve the house and that the user may call: the head any, dispatch its own."""
    serving = Roster.objects.filter(pk__in=RosterHouse.objects.standing().filter(house=house).values("roster"))
    if headed_houses(user).filter(pk=house.pk).exists():
        return serving
    return serving.filter(pk__in=rosters_for(user).values("pk"))


def template_in(roster: Roster, ref: UUID) -> CallTemplate:
    """A template of the roster that stands. Raises Http404."""
    return get_object_or_404(roster.call_templates.standing().select_related("roster"), ref=ref)


def templates_for(event: ShowEvent, rosters: QuerySet[Roster]) -> QuerySet[CallTemplate]:
    """The templates of the rosters that fit what is on."""
    fitting = CallTemplate.objects.standing().filter(event_kind__in=("", event.kind))
    return fitting.filter(roster__in=rosters.values("pk")).select_related("roster").order_by("name", "pk")


def line_in(call: Call, ref: UUID) -> CallLine:
    """A line of the call that stands. Raises Http404."""
    return get_object_or_404(call.lines.standing().select_related("person", "call"), ref=ref)


def attended_lines(call: Call) -> QuerySet[CallLine]:
    """The lines of the call with somebody on them, also those that ended: whose day may be written down."""
    return call.lines.filter(person__isnull=False).select_related("person", "call")


def attended_line_in(call: Call, ref: UUID) -> CallLine:
    """One of these lines. Raises Http404."""
    return get_object_or_404(attended_lines(call), ref=ref)


def hour_rules_in(roster: Roster, ref: UUID) -> HourRules:
    """A rule set of the roster that stands. Raises Http404."""
    return get_object_or_404(roster.hour_rules.standing().select_related("roster", "house"), ref=ref)


def called_show_in(roster: Roster, ref: UUID) -> Engagement:
    """A show for which the roster was called, ended or not. Raises Http404."""
    shows = Engagement.objects.filter(pk__in=roster.calls.values("engagement"))
    return get_object_or_404(shows.select_related("house"), ref=ref)


def offer_in(call: Call, ref: UUID) -> Offer:
    """Somebody's question for a line of the call. Raises Http404."""
    return get_object_or_404(Offer.objects.filter(line__call=call).select_related("person", "line__call"), ref=ref)


def message_in(roster: Roster, ref: UUID) -> Message:
    """A message about a call of the roster. Raises Http404."""
    rows = Message.objects.filter(call__roster=roster)
    related = ("person__roster", "call__event", "call__engagement__house", "line__call", "offer")
    return get_object_or_404(rows.select_related(*related), ref=ref)


def person_behind(ref: UUID, secret: str, now: datetime) -> tuple[Person, Link]:
    """Whose own page the link opens, for anybody. Raises LinkRefused."""
    link = link_for(ref, secret, purpose=MINE, now=now)
    person = Person.objects.standing().select_related("roster").filter(ref=link.subject_ref).first()
    if person is None or not is_own_secret(link, secret):
        raise LinkRefused
    return person, link


def persons_to_call(call: Call) -> QuerySet[Person]:
    """Who may be put on the call: those on its roster now."""
    return call.roster.persons.standing()


def tech_link_of(house: House, now: datetime) -> Link | None:
    """The public link to the house's technical sheet, if one works."""
    return house.links.filter(purpose=PURPOSE).working(now).first()


def house_behind(ref: UUID, secret: str, now: datetime) -> House:
    """The house whose technical sheet the public link opens, for anybody. Raises LinkRefused."""
    house: House = link_for(ref, secret, purpose=PURPOSE, now=now).house  # type: ignore[assignment]
    return house


def feed_subject(ref: UUID, secret: str, now: datetime) -> Person | House:
    """Whose calendar the address opens, for anybody. Raises LinkRefused, also for who was forgotten."""
    link = link_for(ref, secret, purpose=FEED, now=now)
    if link.house is not None:
        return link.house
    persons = Person.objects.select_related("roster").filter(ref=link.subject_ref, forgotten_at__isnull=True)
    person = persons.first()
    if person is None:
        raise LinkRefused
    return person
