"""What can be done to a house. Each verb is one transaction, takes keywords only and adds a line of history.

Verbs trust their caller: whether the actor may do this is for `access` to say before.
"""

from venue.actions.editing import change
from venue.actions.houses import add_setup, change_setup, grant_membership, make_house, revoke_membership, set_zone
from venue.actions.links import MadeLink, make_code, make_link, revoke_link, use_link
from venue.actions.positions import add_place, add_position, add_row, end_place, end_position
from venue.actions.units import add_unit, end_placement, end_unit, move_unit, place_unit, swap_units
from venue.actions.walks import confirm_walk, turn_row

__all__ = [
    "MadeLink",
    "add_place",
    "add_position",
    "add_row",
    "add_setup",
    "add_unit",
    "change",
    "change_setup",
    "confirm_walk",
    "end_place",
    "end_placement",
    "end_position",
    "end_unit",
    "grant_membership",
    "make_code",
    "make_house",
    "make_link",
    "move_unit",
    "place_unit",
    "revoke_link",
    "revoke_membership",
    "set_zone",
    "swap_units",
    "turn_row",
    "use_link",
]
