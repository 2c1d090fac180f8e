"""Engagements: their events, paperwork, show spots, the places that these are bound to, what was decided."""

from shows.models.advance import AdvanceItem
from shows.models.arrival import CheckMark, CheckSignature
from shows.models.choices import Choice, PlaceUse, Way
from shows.models.colors import ShowColor
from shows.models.decisions import Decision
from shows.models.engagements import Engagement, EngagementPlace, EngagementPosition
from shows.models.events import ShowEvent
from shows.models.paperwork import Media, Paperwork
from shows.models.road import RoadAccess
from shows.models.spots import PUT_BY_PEOPLE, ShowSpot, Source, SpotPlace

__all__ = [
    "PUT_BY_PEOPLE",
    "AdvanceItem",
    "CheckMark",
    "CheckSignature",
    "Choice",
    "Decision",
    "Engagement",
    "EngagementPlace",
    "EngagementPosition",
    "Media",
    "Paperwork",
    "PlaceUse",
    "RoadAccess",
    "ShowColor",
    "ShowEvent",
    "ShowSpot",
    "Source",
    "SpotPlace",
    "Way",
]
