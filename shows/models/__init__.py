"""Engagements: their events, their show spots, and the places that these are bound to."""

from shows.models.engagements import Engagement, EngagementPlace, EngagementPosition
from shows.models.events import ShowEvent
from shows.models.road import RoadAccess
from shows.models.spots import ShowSpot, SpotPlace

__all__ = [
    "Engagement",
    "EngagementPlace",
    "EngagementPosition",
    "RoadAccess",
    "ShowEvent",
    "ShowSpot",
    "SpotPlace",
]
