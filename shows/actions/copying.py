"""A show comes again: copied to its next visit, in the same house or in another one."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, TypeVar

from django.db import models, transaction

from shows.access import places_for
from shows.models import PUT_BY_PEOPLE, Engagement, ShowColor, ShowEvent, ShowSpot, Source, SpotPlace
from shows.tonight import compared, numbers_of, places_tonight, show_instant
from venue.core.labels import label_key
from venue.errors import LocalTimeMissing, LocalTimeTwice
from venue.history import Actor, record
from venue.instants import the_instant
from venue.models import House
from venue.storing import store

AnyRow = TypeVar("AnyRow", bound=models.Model)
ITS_OWN = frozenset({"id", "ref", "version", "ended_at", "ended_reason"})
"""What each row has for itself, and no copy takes."""
FACTS = ("name", "statement", "on_camera", "frame_1_end", "caller")


@dataclass(frozen=True)
class Copied:
    """The next visit; `left_out` are events whose times can't be moved there, `freed` counts numbers put by hand
    whose place the next visit has not.
    """

    engagement: Engagement
    left_out: tuple[ShowEvent, ...] = ()
    freed: int = 0


@transaction.atomic
def copy_show(
    *,
    actor: Actor,
    engagement: Engagement,
    house: House,
    starts_on: date,
    ends_on: date,
    with_events: bool = False,
) -> Copied:
    """The show's next visit, from one day to another: its facts, colors and numbers with all that they ask.

    In the same house with the set-up, and numbers put by hand stay on places that still stand; in another house in
    its usual set-up, without the labels of this one. All other numbers go where they unambiguously belong there. What
    was decided, checked or answered holds only for the visit that it was found at. `with_events` takes the events
    along, moved by whole days by the house's clocks. Raises AlreadyExists, Invalid.
    """
    old = Engagement.objects.select_for_update(of=("self",)).select_related("house", "setup").get(pk=engagement.pk)
    made = _engagement(old, house, starts_on, ends_on)
    ShowColor.objects.bulk_create(_copy(color, engagement_id=made.pk) for color in old.colors.standing())
    spots = _copy_spots(old, made)
    freed = _copy_hands(old, made, spots)
    left_out = _copy_events(old, made) if with_events else ()
    _put_the_rest(made)
    _tell(actor, old, made)
    return Copied(made, tuple(left_out), freed)


def _engagement(old: Engagement, house: House, starts_on: date, ends_on: date) -> Engagement:
    is_same = house.pk == old.house_id
    setup = old.setup if is_same else house.setups.get(is_default=True)
    facts = {name: getattr(old, name) for name in FACTS}
    days = {"starts_on": starts_on, "ends_on": ends_on}
    return store(Engagement(house=house, setup=setup, earlier=old, **days, **facts))


def _copy(row: AnyRow, **changes: Any) -> AnyRow:
    """The row again, not stored yet, with other values for some columns."""
    columns = [field.attname for field in row._meta.concrete_fields if field.name not in ITS_OWN]
    return type(row)(**{**{name: getattr(row, name) for name in columns}, **changes})


def _copy_spots(old: Engagement, made: Engagement) -> dict[int, ShowSpot]:
    """The show's numbers by the primary key of the number that each was copied from."""
    changes: dict[str, Any] = {"engagement_id": made.pk}
    if made.house_id != old.house_id:
        changes["house_label"] = ""
    before = list(old.spots.standing())
    copies = ShowSpot.objects.bulk_create(_copy(spot, **changes) for spot in before)
    return {spot.pk: copy for spot, copy in zip(before, copies, strict=True)}


def _copy_hands(old: Engagement, made: Engagement, spots: dict[int, ShowSpot]) -> int:
    """Put what stood by hand back where it stood; how many numbers lost all their places."""
    by_people = old.spot_places.standing().filter(source__in=PUT_BY_PEOPLE, spot__in=spots)
    wanted = list(by_people.order_by("spot", "team_order").values_list("spot", "place"))
    there = set(places_for(made).values_list("pk", flat=True)) if made.house_id == old.house_id else set()
    kept = [(spots[spot], place) for spot, place in wanted if place in there]
    _bind(made, kept, {})
    return len({spot for spot, _place in wanted}) - len({spot.pk for spot, _place in kept})


def _bind(made: Engagement, pairs: Iterable[tuple[ShowSpot, int]], sources: Mapping[int, str]) -> None:
    """Put each number on its places (primary keys), teams in the order given; without a source it was a hand."""
    teams: dict[int, int] = {}
    rows = []
    for spot, place in pairs:
        order = teams[spot.pk] = teams.get(spot.pk, 0) + 1
        source = sources.get(spot.pk, Source.HAND)
        rows.append(SpotPlace(engagement=made, spot=spot, place_id=place, team_order=order, source=source))
    SpotPlace.objects.bulk_create(rows)


def _put_the_rest(made: Engagement) -> None:
    """Put each number that no hand put where it unambiguously belongs in this house."""
    tonight, numbers = places_tonight(made, show_instant(made)), numbers_of(made)
    held = {spot for spot, _place, _source in numbers.bindings}
    free = {spot.number_key: spot for spot in numbers.spots if spot.pk not in held}
    pairs = [pair for pair in compared(made, tonight, numbers).pairs if label_key(pair.number) in free]
    found = [(free[label_key(pair.number)], pair) for pair in pairs]
    sources = {spot.pk: pair.source for spot, pair in reversed(found)}
    _bind(made, [(spot, tonight.places[pair.slot].pk) for spot, pair in found], sources)


def _copy_events(old: Engagement, made: Engagement) -> Sequence[ShowEvent]:
    """Move the events by whole days; those whose times do not exist there once, or lie after the last day, stay out."""
    by = made.starts_on - old.starts_on
    moved: list[ShowEvent] = []
    left_out: list[ShowEvent] = []
    for event in old.events.standing():
        try:
            copy = _moved(event, made, by)
        except (LocalTimeMissing, LocalTimeTwice, OverflowError):
            left_out.append(event)
            continue
        if copy.starts_date > made.ends_on:
            left_out.append(event)
        else:
            moved.append(copy)
    ShowEvent.objects.bulk_create(moved)
    return left_out


def _moved(event: ShowEvent, made: Engagement, by: timedelta) -> ShowEvent:
    """The event at the same times of the clocks of that house. Raises LocalTimeMissing, LocalTimeTwice."""
    zone, starts, ends = made.house.time_zone, event.starts_wall + by, event.ends_wall
    ends = None if ends is None else ends + by
    ends_at = None if ends is None else the_instant(ends, zone)
    return _copy(
        event,
        engagement_id=made.pk,
        zone=zone,
        starts_date=starts.date(),
        starts_at=the_instant(starts, zone),
        ends_date=None if ends is None else ends.date(),
        ends_at=ends_at,
    )


def _tell(actor: Actor, old: Engagement, made: Engagement) -> None:
    """A line of history on both."""
    days = {"name": made.name, "starts_on": made.starts_on, "ends_on": made.ends_on}
    record(actor, "engagement.copied", made, house=made.house, origin=_named(old), **days)
    record(actor, "engagement.copied_on", old, house=old.house, target=made.house.name, **days)


def _named(engagement: Engagement) -> str:
    return f"{engagement.house.name}, {engagement.starts_on}"
