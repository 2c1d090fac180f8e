"""The two ways to an arrival check, signed in or by the link: what may be done there, in whose name, and where."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from shows.access import engagement_behind, engagement_for, engagement_to_write, may_sign_for_house
from shows.models import Engagement
from shows.models.arrival import Signer
from venue.errors import LinkRefused
from venue.history import Actor
from venue.models import Blockage, Link, Place
from venue.views.asking import asked_too_often, unlisted
from venue.views.saving import actor_of

SEEN_A_MINUTE = 300
"""From one connection by links that work: a road crew shares one, and each place takes three."""
NAME_KEPT = "checked-by"
"""Where the session keeps who checks."""


@dataclass(frozen=True)
class Door:
    """By which way somebody came in. `may_mark` is False for readers and for a show that ended."""

    engagement: Engagement
    may_mark: bool
    sides: tuple[str, ...]
    name: str = ""
    link: Link | None = None
    secret: str = ""

    @property
    def overview(self) -> str:
        return self._address("arrive", "arrival")

    @property
    def sign(self) -> str:
        return self._address("arrive_sign", "arrival_sign")

    @property
    def numbers(self) -> str:
        return self._address("arrive_numbers", "arrival_numbers")

    def place(self, place: Place) -> str:
        return self._address("arrive_place", "arrival_place", place.ref)

    def blockage_end(self, blockage: Blockage) -> str:
        """Where it is taken back; "" for what the house noted, which is not this show's to take back."""
        if blockage.only_for != self.engagement.ref or not self.may_mark:
            return ""
        return self._address("arrive_blockage_end", "arrival_blockage_end", blockage.ref)

    def _address(self, by_link: str, signed_in: str, *more: UUID) -> str:
        if self.link is None:
            return reverse(f"shows:{signed_in}", args=[self.engagement.ref, *more])
        return reverse(f"shows:{by_link}", args=[self.link.ref, self.secret, *more])

    def actor(self, request: HttpRequest, name: str) -> Actor:
        """Who acts, as the history names them: by the link, whoever wrote a name."""
        if self.link is None:
            return actor_of(request)
        return Actor.of_link(_("%(name)s, by the arrival link") % {"name": name.strip()})

    def name_for(self, request: HttpRequest) -> str:
        """The name that was written at the last place, else the user's own."""
        return str(request.session.get(NAME_KEPT, "")) or self.name

    def name_if_asked(self, request: HttpRequest) -> str | None:
        """As `name_for` where whoever has the link has to say who it is; None where somebody signed in."""
        return None if self.link is None else self.name_for(request)


Body = Callable[[HttpRequest, Door], HttpResponse]
"""A page, the same by both ways in."""


def signed_in(request: HttpRequest, ref: UUID, now: datetime, *, to_write: bool = False) -> Door:
    """For members of the house and the road crew. Raises Http404, PermissionDenied for readers who send something.

    `to_write`: or who open a page that is for sending alone.
    """
    if to_write or request.method == "POST":
        engagement, may_write = engagement_to_write(request.user, ref, now), True
    else:
        engagement, may_write = engagement_for(request.user, ref, now)
    sides = (Signer.HOUSE, Signer.ROAD) if may_sign_for_house(request.user, engagement) else (Signer.ROAD,)
    name = actor_of(request).name
    return Door(engagement, may_write and not engagement.has_ended, tuple(map(str, sides)), name)


def by_link(request: HttpRequest, ref: UUID, secret: str, now: datetime) -> Door | HttpResponse:
    """For whoever has the address; else the answer that says why not, which never tells whose link it was."""
    refused = asked_too_often(request, now, "arrivals", most=SEEN_A_MINUTE)
    if refused is not None:
        return refused
    try:
        engagement, link = engagement_behind(ref, secret, now)
    except LinkRefused:
        often = asked_too_often(request, now, "arrivals-refused")
        return often or unlisted(render(request, "shows/arrive_refused.html", status=404))
    return Door(engagement, True, (str(Signer.ROAD),), link=link, secret=secret)


def behind(request: HttpRequest, ref: UUID, secret: str, body: Body) -> HttpResponse:
    """The page for whoever has the address, kept out of lists; else why it is refused."""
    door = by_link(request, ref, secret, timezone.now())
    return door if isinstance(door, HttpResponse) else unlisted(body(request, door))
