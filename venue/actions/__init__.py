"""What can be done to a house. Each verb is one transaction, takes keywords only and adds a line of history.

Verbs trust their caller: whether the actor may do this is for `access` to say before.
"""

from venue.actions.areas import add_area, end_area
from venue.actions.blockages import add_blockage, end_blockage
from venue.actions.care import add_care_plan, care_done, change_care_plan, end_care_plan
from venue.actions.circuits import add_circuit, end_circuit
from venue.actions.editing import change
from venue.actions.faults import change_fault, close_fault, report_fault
from venue.actions.filters import add_filter, end_filter
from venue.actions.houses import add_setup, change_setup, grant_membership, make_house, revoke_membership, set_zone
from venue.actions.lamp_kinds import add_lamp_kind, change_lamp_kind, count_spares, end_lamp_kind
from venue.actions.lamps import add_lamp, decide_past_stop, end_lamp, fit_lamp, take_out
from venue.actions.light import measure_light
from venue.actions.links import MadeLink, make_code, make_link, revoke_link, use_link
from venue.actions.log import answer_relamp, attach, change_log, strike_log, write_log
from venue.actions.meters import put_meter, replace_meter
from venue.actions.moves import bring_back, send_away
from venue.actions.positions import add_place, add_position, add_row, end_place, end_position
from venue.actions.reading_files import load_readings
from venue.actions.readings import add_hours, read_meter, strike_hours, strike_reading, undo_entry
from venue.actions.sizes import set_size
from venue.actions.units import add_unit, end_placement, end_unit, move_unit, place_unit, swap_units
from venue.actions.walks import confirm_walk, turn_row

__all__ = [
    "MadeLink",
    "add_area",
    "add_blockage",
    "add_care_plan",
    "add_circuit",
    "add_filter",
    "add_hours",
    "add_lamp",
    "add_lamp_kind",
    "add_place",
    "add_position",
    "add_row",
    "add_setup",
    "add_unit",
    "answer_relamp",
    "attach",
    "bring_back",
    "care_done",
    "change",
    "change_care_plan",
    "change_fault",
    "change_lamp_kind",
    "change_log",
    "change_setup",
    "close_fault",
    "confirm_walk",
    "count_spares",
    "decide_past_stop",
    "end_area",
    "end_blockage",
    "end_care_plan",
    "end_circuit",
    "end_filter",
    "end_lamp",
    "end_lamp_kind",
    "end_place",
    "end_placement",
    "end_position",
    "end_unit",
    "fit_lamp",
    "grant_membership",
    "load_readings",
    "make_code",
    "make_house",
    "make_link",
    "measure_light",
    "move_unit",
    "place_unit",
    "put_meter",
    "read_meter",
    "replace_meter",
    "report_fault",
    "revoke_link",
    "revoke_membership",
    "send_away",
    "set_size",
    "set_zone",
    "strike_hours",
    "strike_log",
    "strike_reading",
    "swap_units",
    "take_out",
    "turn_row",
    "undo_entry",
    "use_link",
    "write_log",
]
