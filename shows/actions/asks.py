"""What a show asks, said by hand: of one number, and of all of them."""

from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from shows.actions.spots import lock_engagement
from shows.models import Engagement, ShowSpot
from venue.actions import change
from venue.core.labels import label_key
from venue.errors import AlreadyEnded, Invalid
from venue.history import Actor


@transaction.atomic
def change_spot_asks(*, actor: Actor, spot: ShowSpot, seen: int, values: Mapping[str, Any]) -> None:
    """Change what one number asks, against the version that was shown.

    Raises AlreadyEnded for a number or a show that ended, StaleVersion, Invalid, also where the number would match
    itself or numbers would match each other in a circle.
    """
    engagement = spot.engagement
    lock_engagement(engagement)
    if spot.ended_at is not None:
        raise AlreadyEnded(spot, spot.ended_at)
    _require_no_circle(spot, values.get("matches", spot.matches))
    change(actor=actor, row=spot, house=engagement.house, seen=seen, values=values)


def _require_no_circle(spot: ShowSpot, matches: str) -> None:
    if label_key(matches) == spot.number_key:
        raise Invalid({"matches": [_("A number does not match itself. Choose another one, or none.")]})
    others = {other.number_key: other for other in spot.engagement.spots.standing().exclude(pk=spot.pk)}
    chain, at = [spot.number], others.pop(label_key(matches), None)
    while at is not None:
        chain.append(at.number)
        if label_key(at.matches) == spot.number_key:
            raise Invalid({"matches": [_circle_words([*chain, spot.number])]})
        at = others.pop(label_key(at.matches), None)


def _circle_words(chain: list[str]) -> str:
    said = ", ".join(_("%(one)s matches %(other)s") % {"one": one, "other": other} for one, other in pairwise(chain))
    return _("That runs in a circle: %(said)s. Choose none here: without this one it says the same.") % {"said": said}


@transaction.atomic
def change_show_asks(*, actor: Actor, engagement: Engagement, seen: int, values: Mapping[str, Any]) -> None:
    """Change what the show says of all its numbers. Raises AlreadyEnded, StaleVersion, Invalid."""
    lock_engagement(engagement)
    change(actor=actor, row=engagement, house=engagement.house, seen=seen, values=values)
