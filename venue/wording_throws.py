"""What a page says of one place's light: its lines, its beams, what a figure counts in, where the rules come from."""

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.abilities import BeamAtTarget
from venue.core.lengths import UnitSystem, written
from venue.core.light import WHOLE, Span
from venue.core.pools import PersonPool, Pool
from venue.core.sightlines import Sightline
from venue.models import Place, Position
from venue.models.places import ThrowEnd
from venue.throw_book import PlaceLight
from venue.wording_light import angle_words, both_words, degrees_words, lux_words, pan_words, percent_words, slope_words

Fact = tuple[str | Promise, str]
"""A name and what belongs to it; "" where that is not known."""

BEAM_TITLES = {"narrow": gettext_lazy("At its narrowest"), "wide": gettext_lazy("At its widest")}


def line_facts(line: Sightline, system: UnitSystem) -> list[Fact]:
    """The line to a target: its length, seen from above, its rise, its directions."""
    return [
        (gettext_lazy("throw"), _both(line.throw_m, system)),
        (gettext_lazy("seen from above"), _both(line.plan_m, system)),
        (gettext_lazy("the lens is"), rise_words(line.rise_m, system)),
        (gettext_lazy("angle"), slope_words(line.angle_deg)),
        (gettext_lazy("pan, from straight upstage"), pan_words(line.pan_deg)),
        (gettext_lazy("bearing of the lens"), bearing_words(line.bearing_deg)),
    ]


def _both(meters: float, system: UnitSystem, text: str = "") -> str:
    """In both units, a number not parted from its meters in a narrow column."""
    return both_words(meters, system, text).replace(" m", "\u00a0m")


def rise_words(rise_m: float, system: UnitSystem) -> str:
    """How much higher the lens is: "45' (13.72 m) higher"."""
    if rise_m == 0:
        return _("as high as the target")
    sentence = _("%(rise)s lower") if rise_m < 0 else _("%(rise)s higher")
    return sentence % {"rise": _both(abs(rise_m), system)}


def bearing_words(bearing_deg: float) -> str:
    """Of the lens about the target."""
    return _("%(degrees)s clockwise from the stage end") % {"degrees": degrees_words(bearing_deg)}


def end_words(place: Place) -> str:
    """The end point of the throw as told: "center stage", the mark in its own words."""
    return place.throw_mark if place.throw_end == ThrowEnd.MARK else str(place.get_throw_end_display())


def told_words(place: Place, system: UnitSystem) -> str:
    """The throw as told with its end point: "142 ft (43.28 m) to center stage"; "" where nobody told it."""
    if place.throw_m is None:
        return ""
    told = {"throw": _both(place.throw_m, system, place.throw_text), "end": end_words(place)}
    return _("%(throw)s to %(end)s") % told


def computed_words(light: PlaceLight, system: UnitSystem) -> str:
    """The throw to the same end point as the measures give it."""
    return "" if light.end_line is None else _both(light.end_line.throw_m, system)


def beam_facts(beam: BeamAtTarget, system: UnitSystem) -> list[Fact]:
    """One end of the unit's range at the target; "" where the data give nothing."""
    return [
        (gettext_lazy("full angle"), "" if beam.angle is None else angle_words(beam.angle)),
        (gettext_lazy("across the beam"), "" if beam.diameter_m is None else _both(beam.diameter_m, system)),
        (gettext_lazy("pool on the deck"), _deck_words(beam, system)),
        (gettext_lazy("on a standing person"), _person_words(beam, system)),
        (gettext_lazy("light on the axis, clear air"), "" if beam.lux is None else lux_words(beam.lux, system)),
    ]


def _deck_words(beam: BeamAtTarget, system: UnitSystem) -> str:
    if beam.angle is None:
        return ""
    return _("none: the beam passes the horizon") if beam.deck is None else pool_words(beam.deck, system)


def pool_words(pool: Pool, system: UnitSystem) -> str:
    """Length by width, then where it begins and ends along the throw, counted from under the lens."""
    lengths = {
        "length": written(pool.length_m, system),
        "width": written(pool.width_m, system),
        "near": written(pool.near_m, system),
        "far": written(pool.far_m, system),
    }
    if pool.near_m < 0:
        return _("%(length)s by %(width)s, from %(near)s behind to %(far)s before the point under the lens") % lengths
    return _("%(length)s by %(width)s, from %(near)s to %(far)s away from under the lens") % lengths


def _person_words(beam: BeamAtTarget, system: UnitSystem) -> str:
    if beam.angle is None:
        return ""
    if beam.person is None:
        return _("no figure: the beam comes from straight above or passes the horizon")
    return person_words(beam.person, system)


def person_words(pool: PersonPool, system: UnitSystem) -> str:
    """From where to where above the deck it covers somebody in the target."""
    lengths = {"top": written(pool.top_z_m, system), "bottom": written(pool.bottom_z_m, system)}
    lengths["width"] = written(pool.width_m, system)
    if pool.top_z_m <= 0:
        return _("nothing: it stays below the deck")
    if pool.bottom_z_m <= 0:
        return _("from the feet to %(top)s above the deck, %(width)s wide") % lengths
    return _("from %(bottom)s to %(top)s above the deck, %(width)s wide") % lengths


def takes_away(light: PlaceLight) -> list[str]:
    """What the light at each size counts in, besides filters."""
    found = [_glass_words(light.entry.position, light.glass)]
    if light.age is not None:
        found.append(
            _("The lamp's age: the unit's last reading gives %(share)s of its first.")
            % {"share": percent_words(light.age)}
        )
    elif light.unit is not None:
        found.append(_("No age of the lamp: there are no two light readings that compare."))
    return found


def _glass_words(position: Position, glass: Span) -> str:
    if not position.glass:
        return _("No glass is counted: what is in front of the position is not recorded.")
    if glass == WHOLE:
        return _("Nothing is taken off for glass.")
    if glass.low == glass.high:
        return _("The pane keeps back %(loss)s, as the house measured it.") % {"loss": percent_words(1 - glass.low)}
    losses = {"low": f"{100 * (1 - glass.high):.3g}", "high": f"{100 * (1 - glass.low):.3g}"}
    return _("A closed pane keeps back %(low)s to %(high)s %%; nobody measured this one.") % losses


def why_from_to(light: PlaceLight) -> list[str]:
    """Why the light at a size is from one figure to another; nothing where it is one figure."""
    optics, reasons = light.optics, []
    both = optics.narrow_cd is not None and optics.wide_cd is not None and optics.narrow_cd != optics.wide_cd
    if both and light.sized_by == "":
        reasons.append(_("Nobody recorded whether a zoom or an iris makes the beam smaller."))
    if both and light.sized_by == "zoom" and (optics.narrow_deg is None or optics.wide_deg is None):
        reasons.append(_("The zoom's narrowest and widest angles are not both recorded."))
    if light.glass.low != light.glass.high:
        reasons.append(_("The pane's loss was not measured."))
    return reasons


def rules() -> list[str]:
    """What the figures assume, and where each rule comes from."""
    return [
        _("Throw, rise and angle are a right triangle from the lens. Usual angles are 15° to 45° (common practice)."),
        _("On camera the lens is at most half as high as it is far (broadcast practice): 26.6°."),
        _(
            "A beam angle ends at 50 % of the peak, a field angle at 10 % (CIE S 017, 17-27-077; ANSI E1.9). "
            "Across the beam: 2 × throw × tan(angle ÷ 2)."
        ),
        _(
            "Light: candela × cos(incidence) ÷ throw² (inverse square and cosine law, IES definitions 9.1.2), on "
            "somebody who faces the lens, through clear air. Nearer than the unit's far-field distance it is a "
            "rough guide."
        ),
        _(
            "Between the ends of a zoom the light follows the solid angle; an iris leaves the middle as it is. "
            "Both are models of the data sheet."
        ),
        _("A closed pane keeps back 12 to 15 % where nobody measured it (published technical information of houses)."),
        _(
            "Filters: the product of what each lets through; the color temperature by mired (10⁶ ÷ kelvin). "
            "Sizes are common practice unless the house set its own."
        ),
    ]
