"""Engagements: their events, paperwork, show spots, the places that these are bound to, what was decided."""

from shows.models.choices import Choice, PlaceUse, Way
from shows.models.engagements import Engagement, EngagementPlace, EngagementPosition
from shows.models.events import ShowEvent
from shows.models.paperwork import Media, Paperwork
from shows.models.road import RoadAccess
from shows.models.spots import ShowSpot, Source, SpotPlace

__all__ = [
    "Choice",
    "Engagement",
    "EngagementPlace",
    "EngagementPosition",
    "Media",
    "Paperwork",
    "PlaceUse",
    "RoadAccess",
    "ShowEvent",
    "ShowSpot",
    "Source",
    "SpotPlace",
    "Way",
]
