"""Booking a show into a house: its events, what it brings, its road crew."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from shows.models import Engagement, EngagementPlace, EngagementPosition, RoadAccess, ShowEvent
from venue.actions import add_place, add_position, change
from venue.errors import AlreadyEnded, NotFound
from venue.history import Actor, record
from venue.instants import the_instant
from venue.models import House, Place, Position, Setup, User
from venue.storing import end, store


@transaction.atomic
def make_engagement(
    *,
    actor: Actor,
    house: House,
    name: str,
    starts_on: date,
    ends_on: date,
    setup: Setup | None = None,
    statement: str = "",
) -> Engagement:
    """A show in the house, in its usual set-up unless another is given. Raises AlreadyExists, Invalid."""
    setup = setup or house.setups.get(is_default=True)
    engagement = Engagement(house=house, setup=setup, name=name, statement=statement)
    engagement.starts_on, engagement.ends_on = starts_on, ends_on
    store(engagement)
    record(actor, "engagement.made", engagement, house=house, name=name, starts_on=starts_on, ends_on=ends_on)
    return engagement


def change_engagement(*, actor: Actor, engagement: Engagement, seen: int, values: Mapping[str, Any]) -> None:
    """Change what a form shows of a show. Raises StaleVersion, AlreadyExists, Invalid."""
    change(actor=actor, row=engagement, house=engagement.house, seen=seen, values=values)


@transaction.atomic
def end_engagement(*, actor: Actor, engagement: Engagement, at: datetime, reason: str) -> None:
    """The show is off, or over and put away. Raises AlreadyEnded, StaleVersion, Invalid."""
    end(engagement, at=at, reason=reason)
    record(actor, "engagement.ended", engagement, house=engagement.house, name=engagement.name, reason=reason)


@transaction.atomic
def add_show_event(
    *,
    actor: Actor,
    engagement: Engagement,
    kind: str,
    starts: datetime,
    ends: datetime | None = None,
    name: str = "",
    starts_fold: int | None = None,
    ends_fold: int | None = None,
) -> ShowEvent:
    """An event of the show, by wall times in the house's zone (`fold` 0 or 1 where clocks show one twice).

    Raises LocalTimeMissing, LocalTimeTwice if such a time comes without a fold, Invalid.
    """
    zone = engagement.house.time_zone
    times = _times(zone, starts, ends, starts_fold, ends_fold)
    event = store(ShowEvent(engagement=engagement, kind=kind, name=name, zone=zone, **times))
    record(actor, "event.added", event, house=engagement.house, event=str(event), show=engagement.name)
    return event


def change_show_event(
    *,
    actor: Actor,
    event: ShowEvent,
    seen: int,
    kind: str,
    starts: datetime,
    ends: datetime | None = None,
    name: str = "",
    starts_fold: int | None = None,
    ends_fold: int | None = None,
) -> None:
    """Change an event against the version that was shown, in the zone that it was made in.

    Raises StaleVersion, else as `add_show_event`.
    """
    times = _times(event.zone, starts, ends, starts_fold, ends_fold)
    values = {"kind": kind, "name": name, **times}
    change(actor=actor, row=event, house=event.engagement.house, seen=seen, values=values)


def _times(
    zone: str, starts: datetime, ends: datetime | None, starts_fold: int | None, ends_fold: int | None
) -> dict[str, Any]:
    """The columns of an event's start and end."""
    return {
        "starts_date": starts.date(),
        "starts_time": starts.time(),
        "starts_at": the_instant(starts, zone, fold=starts_fold),
        "ends_date": ends.date() if ends else None,
        "ends_time": ends.time() if ends else None,
        "ends_at": the_instant(ends, zone, fold=ends_fold) if ends else None,
    }


@transaction.atomic
def end_show_event(*, actor: Actor, event: ShowEvent, at: datetime, reason: str) -> None:
    """The event is called off. Raises AlreadyEnded, StaleVersion, Invalid."""
    end(event, at=at, reason=reason)
    record(actor, "event.ended", event, house=event.engagement.house, event=str(event), reason=reason)


@transaction.atomic
def add_tour_position(*, actor: Actor, engagement: Engagement, name: str, **facts: Any) -> Position:
    """A position that the show brings and takes away. Raises AlreadyExists, AlreadyEnded, Invalid."""
    _require_standing(engagement)
    owner = {"only_for": engagement.ref}
    position = add_position(actor=actor, house=engagement.house, name=name, **facts, **owner)
    store(EngagementPosition(engagement=engagement, position=position))
    return position


@transaction.atomic
def add_tour_place(*, actor: Actor, engagement: Engagement, position: Position, label: str, **facts: Any) -> Place:
    """A place that the show brings into a position. Raises AlreadyExists, AlreadyEnded, Invalid."""
    _require_standing(engagement)
    place = add_place(actor=actor, position=position, label=label, **facts, only_for=engagement.ref)
    store(EngagementPlace(engagement=engagement, place=place))
    return place


def _require_standing(engagement: Engagement) -> None:
    if engagement.ended_at is not None:
        raise AlreadyEnded(engagement, engagement.ended_at)


@transaction.atomic
def grant_road(*, actor: Actor, engagement: Engagement, user: User, until: datetime) -> RoadAccess:
    """Let a member of the road crew see and change the engagement until the instant. Raises StaleVersion."""
    access = RoadAccess.objects.filter(engagement=engagement, user=user).first()
    access = access or RoadAccess(engagement=engagement, user=user)
    access.until = until
    store(access)
    record(actor, "road.granted", engagement, house=engagement.house, until=until, **_named(user, engagement))
    return access


@transaction.atomic
def end_road(*, actor: Actor, engagement: Engagement, user: User, now: datetime) -> None:
    """The user may not see the engagement any more. Raises NotFound, StaleVersion."""
    access = RoadAccess.objects.in_force_for(user, now).filter(engagement=engagement).first()
    if access is None:
        raise NotFound(_("road access of"), user.name_on_paper)
    access.until = now
    store(access)
    record(actor, "road.ended", engagement, house=engagement.house, **_named(user, engagement))


def _named(user: User, engagement: Engagement) -> dict[str, str]:
    return {"name": user.name_on_paper, "show": engagement.name}
