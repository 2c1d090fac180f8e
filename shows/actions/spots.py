"""Taking in a show's spots, and binding them to places.

Both lock the engagement first: two people who accept paperwork or assign at once come one after the other.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from shows.facts import SpotFacts
from shows.models import Engagement, ShowSpot, Source, SpotPlace
from venue.core.labels import label_key
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, WrongHouse
from venue.history import Actor, record
from venue.models import Place
from venue.storing import check_columns, end, store


@transaction.atomic
def put_spots(*, actor: Actor, engagement: Engagement, spots: Iterable[SpotFacts], at: datetime) -> list[ShowSpot]:
    """Make the show's spots those given, matched by number: new ones added, others changed or ended.

    Returns them in the order given. Raises AlreadyExists if a number comes twice, Invalid; then nothing is
    stored.
    """
    lock_engagement(engagement)
    wanted = _by_number(spots)
    stored = {spot.number_key: spot for spot in engagement.spots.standing()}
    gone = [spot for key, spot in stored.items() if key not in wanted]
    _end_spots(gone, at)
    changed = [stored[key] for key, facts in wanted.items() if key in stored and _differs(stored[key], facts)]
    for spot in changed:
        _take(spot, wanted[spot.number_key]).save()
    added = [_take(ShowSpot(engagement=engagement), wanted[key]) for key in wanted if key not in stored]
    ShowSpot.objects.bulk_create(added)
    lists = {"added": _numbers(added), "changed": _numbers(changed), "ended": _numbers(gone)}
    record(actor, "spots.put", engagement, house=engagement.house, show=engagement.name, **lists)
    kept = {**stored, **{spot.number_key: spot for spot in added}}
    return [kept[key] for key in wanted]


def _by_number(spots: Iterable[SpotFacts]) -> dict[str, SpotFacts]:
    found: dict[str, SpotFacts] = {}
    for facts in spots:
        key = label_key(facts.number)
        if key in found:
            raise AlreadyExists(_("Show number %(number)s is given twice.") % {"number": facts.number})
        found[key] = facts
    return found


def _columns(facts: SpotFacts) -> dict[str, Any]:
    return {**asdict(facts), "frames": list(facts.frames)}


def _differs(spot: ShowSpot, facts: SpotFacts) -> bool:
    return any(getattr(spot, column) != value for column, value in _columns(facts).items())


def _take(spot: ShowSpot, facts: SpotFacts) -> ShowSpot:
    """The spot with the facts, checked but not stored. Raises Invalid."""
    for column, value in _columns(facts).items():
        setattr(spot, column, value)
    check_columns(spot, exclude={"engagement"})
    if not spot.number_key:
        raise Invalid({"number": [_("Write a show number.")]})
    return spot


def _end_spots(spots: Sequence[ShowSpot], at: datetime) -> None:
    reason = _("not in the paperwork any more")
    for bound in SpotPlace.objects.standing().filter(spot__in=spots):
        end(bound, at=at, reason=reason)
    for spot in spots:
        end(spot, at=at, reason=reason)


def _numbers(spots: Iterable[ShowSpot]) -> list[str]:
    return [spot.number for spot in spots]


@transaction.atomic
def bind_spots(
    *,
    actor: Actor,
    engagement: Engagement,
    places: Mapping[ShowSpot, Sequence[Place]],
    at: datetime,
    sources: Mapping[ShowSpot, str] = {},
    verb: str = "spots.bound",
) -> None:
    """Bind each spot to its places, the first standing for the team; no places frees the spot.

    `sources` says what puts a spot there; without it, somebody's hand. `verb` is the line of history.

    All leave their places before any takes one, so that spots can swap. Raises AlreadyExists if a place has
    another number, WrongHouse, Invalid; then nothing is stored.
    """
    lock_engagement(engagement)
    ids = [spot.pk for spot in places]
    before = engagement.spot_places.standing().filter(spot__in=ids).select_related("place__position", "spot")
    for bound in before:
        end(bound, at=at, reason=_("bound anew"))
    for spot, wanted in places.items():
        _bind(engagement, spot, wanted, sources.get(spot, Source.HAND))
    facts = {"places": {spot.number: [str(place) for place in wanted] for spot, wanted in places.items()}}
    record(actor, verb, engagement, house=engagement.house, show=engagement.name, **facts)


def bind_spot(*, actor: Actor, spot: ShowSpot, places: Sequence[Place], at: datetime, seen: int) -> None:
    """Bind one spot that the user was shown in version `seen`. Raises StaleVersion, else as `bind_spots`."""
    with transaction.atomic():
        lock_engagement(spot.engagement)
        spot.save_version(fields=[], seen=seen)
        bind_spots(actor=actor, engagement=spot.engagement, places={spot: places}, at=at)


def _bind(engagement: Engagement, spot: ShowSpot, places: Sequence[Place], source: str) -> None:
    if spot.engagement_id != engagement.pk:
        raise WrongHouse(spot, engagement)
    for order, place in enumerate(places, start=1):
        store(SpotPlace(engagement=engagement, spot=spot, place=place, team_order=order, source=source))


def lock_engagement(engagement: Engagement) -> None:
    """Hold the engagement until the transaction ends. Raises AlreadyEnded."""
    held = Engagement.objects.select_for_update().get(pk=engagement.pk)
    if held.ended_at is not None:
        raise AlreadyEnded(held, held.ended_at)
