"""Who may see or do what with a roster. Views get every row from here: dispatch only, strangers meet 404."""

from uuid import UUID

from django.db.models import QuerySet
from django.http import Http404
from django.shortcuts import get_object_or_404

from crew.models import Person, Roster
from venue.access import Visitor
from venue.models import House


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


def houses_served(roster: Roster) -> QuerySet[House]:
    """The houses that the roster serves now."""
    return House.objects.filter(pk__in=roster.roster_houses.standing().values("house"))
