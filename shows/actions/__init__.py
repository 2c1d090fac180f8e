"""What can be done to an engagement. Each verb is one transaction and adds a line of history."""

from shows.actions.answers import apply_reading
from shows.actions.asks import change_show_asks, change_spot_asks
from shows.actions.binding import assign_spots, obey_statement, rebind
from shows.actions.bringing import bring_place, bring_row, keep_show
from shows.actions.choices import choose_way, set_place_use
from shows.actions.colors import add_color, change_color, end_color
from shows.actions.decisions import decide, take_back
from shows.actions.engagements import (
    add_show_event,
    add_tour_place,
    add_tour_position,
    change_engagement,
    change_show_event,
    end_engagement,
    end_road,
    end_show_event,
    grant_road,
    make_engagement,
)
from shows.actions.paperwork import accept_paperwork, apply_statement, receive_paperwork
from shows.actions.spots import bind_spot, bind_spots, put_spots

__all__ = [
    "accept_paperwork",
    "add_color",
    "add_show_event",
    "add_tour_place",
    "add_tour_position",
    "apply_reading",
    "apply_statement",
    "assign_spots",
    "bind_spot",
    "bind_spots",
    "bring_place",
    "bring_row",
    "change_color",
    "change_engagement",
    "change_show_asks",
    "change_show_event",
    "change_spot_asks",
    "choose_way",
    "decide",
    "end_color",
    "end_engagement",
    "end_road",
    "end_show_event",
    "grant_road",
    "keep_show",
    "make_engagement",
    "obey_statement",
    "put_spots",
    "rebind",
    "receive_paperwork",
    "set_place_use",
    "take_back",
]
