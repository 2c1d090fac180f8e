"""What can be done to an engagement. Each verb is one transaction and adds a line of history."""

from shows.actions.engagements import (
    add_show_event,
    add_tour_place,
    add_tour_position,
    end_engagement,
    end_road,
    end_show_event,
    grant_road,
    make_engagement,
)
from shows.actions.spots import bind_spot, bind_spots, put_spots

__all__ = [
    "add_show_event",
    "add_tour_place",
    "add_tour_position",
    "bind_spot",
    "bind_spots",
    "end_engagement",
    "end_road",
    "end_show_event",
    "grant_road",
    "make_engagement",
    "put_spots",
]
