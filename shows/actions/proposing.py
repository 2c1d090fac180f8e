"""Taking a proposal: all numbers that nobody fixed go to their proposed places at once."""

from datetime import datetime

from django.db import transaction
from django.db.models import F

from shows.actions.spots import bind_spots, lock_engagement
from shows.errors import ProposalChanged
from shows.models import Engagement, ShowSpot
from shows.proposal import Proposed, proposed_for
from shows.tonight import show_instant
from venue.history import Actor


@transaction.atomic
def take_proposal(*, actor: Actor, engagement: Engagement, seen: str, at: datetime) -> Proposed:
    """Put each number on its proposed place; what a person fixed stays, and so does what stands there already.

    `seen` is the fingerprint of the proposal that the person saw. Raises ProposalChanged if the proposal is another
    one by now, AlreadyEnded, and as `bind_spots`; then nothing is stored.
    """
    lock_engagement(engagement)
    proposed = proposed_for(engagement, show_instant(engagement), at)
    if proposed.fingerprint != seen:
        raise ProposalChanged
    places = proposed.changes
    if places:
        sources = {spot: proposed.source_of(spot) for spot in places}
        verb = "proposal.taken"
        bind_spots(actor=actor, engagement=engagement, places=places, at=at, sources=sources, verb=verb)
        ShowSpot.objects.filter(pk__in=[spot.pk for spot in places]).update(version=F("version") + 1)
    return proposed
