"""Sides in whole words, always both: the house's and the stage's."""

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.core.numbering.order import side_of
from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT, House

BOTH: dict[str, str | Promise] = {
    HOUSE_LEFT: gettext_lazy("house left · stage right"),
    HOUSE_RIGHT: gettext_lazy("house right · stage left"),
    "center": gettext_lazy("center"),
}
HOUR_DEG = 30.0


def side_words(slot: int, house: House) -> str:
    """On which side a place lies; in a bowl by the clock too; empty where the house has not measured it."""
    where, index = house.slots[slot], house.position_of[slot]
    is_ring, bearing = house.positions[index].zone == "bowl", house.bearings[slot]
    if is_ring and bearing is None:
        return ""
    row = house.slots_at[index]
    is_known = where.x is not None or bearing is not None or all(house.slots[each].order for each in row)
    side = str(BOTH[side_of(house, slot, row)]) if is_known else ""
    if not is_ring or bearing is None:
        return side
    hour = round((bearing - house.twelve_deg) % 360.0 / HOUR_DEG) or 12
    return _("%(hour)s o'clock, %(side)s") % {"hour": hour, "side": side}
