"""Throws, beams and light in words: findings and what to do about them, angles with their level, lux, sizes."""

from collections.abc import Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.beams import BeamAngle, Percent
from venue.core.lengths import UnitSystem, as_typed, written
from venue.core.light import Span, foot_candles
from venue.core.pick_ups import PickUp, Reach
from venue.core.sightlines import Code, Finding
from venue.models.optics import SizeName

FINDINGS: Mapping[Code, tuple[str | Promise, str | Promise]] = {
    "too-steep": (
        gettext_lazy("Steep: %(value)s, over %(limit)s shadows fall into the eyes."),
        gettext_lazy("Take a lower or more distant place for faces, or let the person play farther upstage."),
    ),
    "too-flat": (
        gettext_lazy("Flat: %(value)s, under %(limit)s the shadow runs far upstage."),
        gettext_lazy("Take a higher place, or tell the show that the light lands on what stands behind."),
    ),
    "too-steep-for-camera": (
        gettext_lazy("Too steep for a camera: %(value)s, %(limit)s is the most."),
        gettext_lazy("Take a lower or more distant place for whoever the camera shows close."),
    ),
    "unlikely-throw": (
        gettext_lazy("Unusual: a throw of %(value)s, past %(limit)s."),
        gettext_lazy("Look at the lens and at the target once more."),
    ),
    "impossible-throw": (
        gettext_lazy("A throw of %(value)s can't be right, past %(limit)s."),
        gettext_lazy("Correct the lens or the target: one of them was mistyped."),
    ),
    "unlikely-height": (
        gettext_lazy("Unusual: a lens at %(value)s, past %(limit)s."),
        gettext_lazy("Look at the lens's height above the deck once more."),
    ),
    "impossible-height": (
        gettext_lazy("A lens at %(value)s can't be right, past %(limit)s."),
        gettext_lazy("Correct the lens's height: it counts from the deck."),
    ),
    "impossible-angle": (
        gettext_lazy("A throw %(value)s can't be right, past %(limit)s."),
        gettext_lazy("Correct the heights of the lens and of the target: they count from the deck."),
    ),
    "differs-from-stated": (
        gettext_lazy("The throw as told and as the measures give it differ by %(value)s; over %(limit)s we ask."),
        gettext_lazy("Measure again, then correct the throw, its end point or the lens."),
    ),
}
"""What is odd, and what to do about it. The limits are common practice, that for a camera broadcast practice."""

REACH_WORDS: Mapping[Reach, str | Promise] = {
    "ok": gettext_lazy("reached"),
    "too-small": gettext_lazy("can't close to it: %(limit)s at its narrowest"),
    "too-large": gettext_lazy("can't open to it: %(limit)s at its widest"),
}


def finding_words(finding: Finding, system: UnitSystem) -> str:
    """What is odd about a line, with the value found and the limit: "Flat: 12.0° below the horizontal, …"."""
    value, limit = (_measure(finding.code, each, system) for each in (finding.value, finding.limit))
    if limit.endswith("°"):
        value = slope_words(finding.value)
    return str(FINDINGS[finding.code][0]) % {"value": value, "limit": limit}


def finding_advice(finding: Finding) -> str:
    """What to do about it."""
    return str(FINDINGS[finding.code][1])


def _measure(code: Code, value: float, system: UnitSystem) -> str:
    if code == "differs-from-stated":
        return percent_words(value)
    if code.endswith(("throw", "height")):
        return height_words(value, system) if code.endswith("height") else written(value, system)
    return degrees_words(value)


def height_words(meters: float, system: UnitSystem) -> str:
    """Above or below the deck: "45' above the deck"."""
    sentence = _("%(height)s below the deck") if meters < 0 else _("%(height)s above the deck")
    return sentence % {"height": written(meters, system)}


def degrees_words(degrees: float) -> str:
    """To the tenth: "17.6°", never "-0.0°"."""
    return f"{round(degrees, 1) + 0.0:.1f}°"


def slope_words(degrees: float) -> str:
    """Of a throw that falls so far: "17.6° below the horizontal", "2.0° above the horizontal" where it rises."""
    sentence = _("%(degrees)s above the horizontal") if degrees < 0 else _("%(degrees)s below the horizontal")
    return sentence % {"degrees": degrees_words(abs(degrees))}


def fine_degrees_words(degrees: float) -> str:
    """To the hundredth, for what a beam needs: "1.15°"."""
    return f"{degrees:.2f}°"


def percent_words(share: float) -> str:
    """A share in percent, without idle zeros: "12.5 %"; to the tenth from one percent on."""
    percent = share * 100
    return _("%(percent)s %%") % {"percent": f"{percent:.3g}" if percent < 1 else f"{percent:.1f}".removesuffix(".0")}


def angle_words(angle: BeamAngle) -> str:
    """A full angle with the level at which it ends: "7° at 50 % of the peak"."""
    values = {"angle": f"{angle.full_deg:.10g}", "level": level_words(angle.percent)}
    return _("%(angle)s° %(level)s") % values


def level_words(percent: Percent | None) -> str:
    """At which share of the peak an angle ends."""
    if percent is None:
        return _("at 50 %% or 10 %% of the peak, not recorded which") % {}
    return _("at %(percent)s %% of the peak") % {"percent": percent}


def lux_words(light: Span | float, system: UnitSystem) -> str:
    """Illuminance in the house's unit, the other one behind: "150 fc (1615 lx)", "120 to 150 fc (1292 to 1615 lx)"."""
    span = light if isinstance(light, Span) else Span(light, light)
    metric = _("%(light)s lx") % {"light": _from_to(span.low, span.high)}
    imperial = _("%(light)s fc") % {"light": _from_to(foot_candles(span.low), foot_candles(span.high))}
    first, second = (imperial, metric) if system == "imperial" else (metric, imperial)
    return _("%(first)s (%(second)s)") % {"first": first, "second": second}


def _from_to(low: float, high: float) -> str:
    least, most = _light_number(low), _light_number(high)
    return least if least == most else _("%(low)s to %(high)s") % {"low": least, "high": most}


def _light_number(value: float) -> str:
    return f"{value:.0f}" if value >= 100 else f"{value:.3g}"


def size_words(name: str) -> str:
    """A usual size by the name that core has for it, in the reader's language."""
    return str(dict(SizeName.choices).get(name, name))


def reach_words(pick_up: PickUp) -> str:
    """Whether the unit reaches the size, and the angle that stands in the way."""
    if pick_up.reach is None:
        return _("not known")
    limit = "" if pick_up.limit_deg is None else f"{pick_up.limit_deg:.10g}°"
    return str(REACH_WORDS[pick_up.reach]) % {"limit": limit}


def both_words(meters: float, system: UnitSystem, text: str = "") -> str:
    """A length in the house's unit, or as it was typed with its unit, the other unit behind: "142' (43.28 m)"."""
    first = as_typed(meters, text, system)
    if first.replace(".", "").replace(",", "").strip().isdecimal():  # a bare number says no unit
        first = written(meters, system)
    second = written(meters, "imperial" if "m" in first.casefold() else "metric")
    return _("%(first)s (%(second)s)") % {"first": first, "second": second}


def pan_words(pan_deg: float) -> str:
    """From straight upstage, the side in words: "12.3° toward stage left"."""
    degrees = degrees_words(abs(pan_deg))
    if degrees == degrees_words(0.0):
        return _("straight upstage")
    sentence = _("%(degrees)s toward stage left") if pan_deg > 0 else _("%(degrees)s toward stage right")
    return sentence % {"degrees": degrees}
