"""Putting show numbers on places: as the paperwork says, as the show's own rule says, or by hand."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from django.db import transaction
from django.db.models import F

from shows.actions.spots import bind_spots, lock_engagement
from shows.core.numbering.records import Pair
from shows.models import PUT_BY_PEOPLE, Engagement, ShowSpot, Source
from shows.tonight import Tonight, compared, numbers_of, obeying, places_tonight, show_instant
from venue.core.labels import label_key
from venue.history import Actor
from venue.models import Place


@transaction.atomic
def rebind(*, actor: Actor, engagement: Engagement, at: datetime) -> None:
    """Put each number where it unambiguously belongs; what was bound by hand stays. Nothing is done if nothing moves.

    A number that belongs nowhere for sure is taken from where it stood.
    """
    lock_engagement(engagement)
    tonight = places_tonight(engagement, show_instant(engagement))
    by_hand = engagement.spot_places.standing().filter(source__in=PUT_BY_PEOPLE)
    held = set(by_hand.values_list("spot", flat=True))
    pairs = compared(engagement, tonight, numbers_of(engagement), only_by_hand=True).pairs
    _bind(actor, engagement, tonight, pairs, at, held)


@transaction.atomic
def obey_statement(*, actor: Actor, engagement: Engagement, at: datetime) -> None:
    """Put each number where the show's own statement puts it, whatever labels or hands said before."""
    lock_engagement(engagement)
    tonight = places_tonight(engagement, show_instant(engagement))
    pairs = obeying(engagement, tonight, numbers_of(engagement)).pairs
    _bind(actor, engagement, tonight, pairs, at, set())


@transaction.atomic
def assign_spots(
    *,
    actor: Actor,
    engagement: Engagement,
    places: Mapping[ShowSpot, Sequence[Place]],
    seen: Mapping[ShowSpot, int],
    at: datetime,
) -> None:
    """Put numbers on places by hand, each against the version that was shown.

    Raises StaleVersion, AlreadyExists if a place has another number, WrongHouse, Invalid.
    """
    lock_engagement(engagement)
    for spot in places:
        spot.save_version(fields=[], seen=seen[spot])
    bind_spots(actor=actor, engagement=engagement, places=places, at=at)


def _bind(
    actor: Actor, engagement: Engagement, tonight: Tonight, pairs: Sequence[Pair], at: datetime, held: set[int]
) -> None:
    """Bind what differs from what stands, and let whoever has one of these spots on a screen know by its version."""
    wanted: dict[str, list[Pair]] = {}
    for pair in pairs:
        wanted.setdefault(label_key(pair.number), []).append(pair)
    before = _bound(engagement)
    places: dict[ShowSpot, list[Place]] = {}
    sources: dict[ShowSpot, str] = {}
    for spot in engagement.spots.standing():
        own = wanted.get(spot.number_key, [])
        found = [tonight.places[pair.slot] for pair in own]
        source = own[0].source if own else Source.STATEMENT
        if spot.pk not in held and before.get(spot.pk, []) != [(place.pk, source) for place in found]:
            places[spot], sources[spot] = found, source
    if places:
        bind_spots(actor=actor, engagement=engagement, places=places, at=at, sources=sources)
        ShowSpot.objects.filter(pk__in=[spot.pk for spot in places]).update(version=F("version") + 1)


def _bound(engagement: Engagement) -> dict[int, list[tuple[int, str]]]:
    found: dict[int, list[tuple[int, str]]] = {}
    rows = engagement.spot_places.standing().order_by("spot", "team_order")
    for spot, place, source in rows.values_list("spot", "place", "source"):
        found.setdefault(spot, []).append((place, source))
    return found
