"""The links that open a show to people without an account."""

from datetime import datetime

from django.db.models import QuerySet

from shows.models import Engagement
from venue.models import Link

ARRIVAL = "arrival"
"""To the arrival check, for the road crew."""
ADVANCE = "advance"
"""To the house's answer, for the tour's head."""


def show_links(engagement: Engagement, purpose: str, now: datetime) -> QuerySet[Link]:
    """The links for one purpose to the engagement that work."""
    return Link.objects.working(now).filter(purpose=purpose, subject_ref=engagement.ref)
