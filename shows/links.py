"""The links that open a show to people without an account."""

from datetime import datetime

from django.db.models import QuerySet

from shows.models import Engagement
from venue.models import Link

ARRIVAL = "arrival"


def arrival_links(engagement: Engagement, now: datetime) -> QuerySet[Link]:
    """The links to the engagement's arrival check that work."""
    return Link.objects.working(now).filter(purpose=ARRIVAL, subject_ref=engagement.ref)
