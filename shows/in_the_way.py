"""What is in the way of a show's lights: what the house noted, and what was noted for this show alone."""

from collections.abc import Iterable

from shows.models import Engagement
from venue.models import Blockage


def blockages_at(engagement: Engagement, positions: Iterable[int]) -> dict[int, list[Blockage]]:
    """What stands in the way there, by the position's primary key. One query."""
    found: dict[int, list[Blockage]] = {}
    for each in Blockage.objects.standing().open_to(engagement.ref).filter(position__in=set(positions)):
        found.setdefault(each.position_id, []).append(each)
    return found
