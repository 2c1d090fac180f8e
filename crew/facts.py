"""Plain records that the verbs of calls take."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True)
class CallFacts:
    """When and where the crew is to come, by wall times in the house's zone.

    `fold` 0 or 1 picks one where clocks show the time twice. Without `talk` there is no spot talk, without `meal`
    none is planned. Without `ends` everybody is expected to be released half an hour after the event, or four hours
    after the call where its end is not known (common practice, no source).
    """

    call: datetime
    place: str = ""
    talk: datetime | None = None
    talk_place: str = ""
    ends: datetime | None = None
    meal: datetime | None = None
    weather: str = ""
    notes: str = ""
    call_fold: int | None = None
    talk_fold: int | None = None
    ends_fold: int | None = None
    meal_fold: int | None = None
