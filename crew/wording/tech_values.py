"""Single values of a technical sheet in words: every side is named, what is not recorded is said."""

import re

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.core.tech_sheet import SheetPoint, SheetThrow, SheetUnit
from venue.core.beams import BeamAngle
from venue.core.lengths import Length, UnitSystem, as_typed, written
from venue.core.throws import side_of
from venue.models.places import ThrowEnd
from venue.models.units import FrameOneEnd, Magazine
from venue.wording_light import angle_words

COMPUTED = "*"
"""Stands behind every value that nobody recorded but that follows from what was."""
SIDES: dict[str, str | Promise] = {
    "house left": gettext_lazy("%(distance)s house left"),
    "house right": gettext_lazy("%(distance)s house right"),
    "center": gettext_lazy("on the center line"),
}
_BARE = re.compile(r"[\d.,\s]+")


def unknown() -> str:
    return _("not recorded")


def recorded(value: object) -> str:
    """The text or the number, or that it is not recorded."""
    if value is None or value == "":
        return unknown()
    return number(value) if isinstance(value, int | float) else str(value)


def number(value: float) -> str:
    """Thousands are parted, no digit is made up: 6,500,000 or 0.9."""
    return f"{value:,.13g}"


def length_words(length: Length | None, system: UnitSystem) -> str:
    """The length as typed, without a sign; a bare number gets its unit, for a sheet that goes to strangers."""
    if length is None:
        return unknown()
    meters = abs(length.meters)
    text = as_typed(meters, length.text, system)
    return written(meters, system) if _BARE.fullmatch(text) else text


def lens_words(lens: SheetPoint | None, system: UnitSystem) -> tuple[str, str, str]:
    """From the center line, from the plaster line, and above the deck, for a column each."""
    if lens is None:
        return unknown(), unknown(), unknown()
    along = _along(lens.y, system) + (COMPUTED if lens.y_is_computed else "")
    return _across(lens.x, system), along, _up(lens.z, system)


def point_words(point: SheetPoint | None, system: UnitSystem) -> str:
    """The point from the center line, the plaster line and the deck."""
    if point is None:
        return unknown()
    up = _up(point.z, system)
    above = up if point.z.meters < 0 else _("%(height)s above the deck") % {"height": up}
    return ", ".join([_across(point.x, system), along_words(point.y, system), above])


def _across(x: Length, system: UnitSystem) -> str:
    return str(SIDES[side_of(x.meters)]) % {"distance": length_words(x, system)}


def _along(y: Length, system: UnitSystem) -> str:
    if y.meters == 0:
        return _("at it")
    words = _("%(distance)s upstage") if y.meters > 0 else _("%(distance)s downstage")
    return words % {"distance": length_words(y, system)}


def _up(z: Length, system: UnitSystem) -> str:
    height = length_words(z, system)
    return _("%(height)s below the deck") % {"height": height} if z.meters < 0 else height


def along_words(y: Length | None, system: UnitSystem) -> str:
    """How far upstage or downstage of the plaster line."""
    if y is None:
        return unknown()
    if y.meters == 0:
        return _("at the plaster line")
    return _("%(along)s of the plaster line") % {"along": _along(y, system)}


def told_words(throw: SheetThrow, system: UnitSystem) -> str:
    """The throw as told with its end point: "142' 6" to the lip of the stage"."""
    if throw.told is None:
        return unknown()
    end = throw.mark if throw.end == ThrowEnd.MARK else str(ThrowEnd(throw.end).label)
    facts = {"throw": length_words(throw.told, system), "end": end or _("a mark of the house")}
    told = _("%(throw)s to %(end)s") % facts
    return _("%(told)s; computed differs by over 5 %%: ask") % {"told": told} if throw.is_far_off else told


def computed_length(meters: float | None, system: UnitSystem) -> str:
    """A computed length with its mark; a dash where what it follows from is not recorded."""
    return "–" if meters is None else written(meters, system) + COMPUTED


def below_words(angle_deg: float | None) -> str:
    """The angle below the horizontal with its mark; from under the deck a light shines upward."""
    if angle_deg is None:
        return "–"
    words = _("%(angle)s° upward") if angle_deg < 0 else _("%(angle)s°")
    return words % {"angle": f"{abs(angle_deg):.1f}"} + COMPUTED


def beam_words(full_deg: float | None, candela: float | None, unit: SheetUnit) -> str:
    """A full angle with its level, and the candela on the axis."""
    angle = unknown() if full_deg is None else angle_words(BeamAngle(full_deg, unit.percent))
    light = _("candela not recorded") if candela is None else _("%(light)s cd") % {"light": number(candela)}
    return f"{angle}; {light}"


def frames_words(unit: SheetUnit) -> str:
    """How many frames, at which end frame 1 is, where the magazine sits."""
    if unit.frames is None:
        return unknown()
    if unit.frames == 0:
        return _("no frames")
    end = FrameOneEnd(unit.frame_1_end).label if unit.frame_1_end else unknown()
    magazine = Magazine(unit.magazine).label if unit.magazine else unknown()
    facts = {"count": unit.frames, "end": end, "magazine": magazine}
    return _("%(count)s; frame 1: %(end)s; magazine: %(magazine)s") % facts


def pan_words(pans: tuple[float, float] | None) -> str:
    """From one pan clockwise to the other, each with its side."""
    if pans is None:
        return unknown()
    if pans[0] % 360 == pans[1] % 360:
        return _("all the way round")
    facts = {"start": _pan(pans[0]), "end": _pan(pans[1])}
    return _("from %(start)s clockwise to %(end)s, told from straight upstage") % facts


def _pan(pan_deg: float) -> str:
    turned = (pan_deg + 180) % 360 - 180
    if turned in {0, -180}:
        return _("straight upstage") if turned == 0 else _("straight toward the house")
    side = _("%(angle)s° toward house right") if turned > 0 else _("%(angle)s° toward house left")
    return side % {"angle": number(abs(turned))}
