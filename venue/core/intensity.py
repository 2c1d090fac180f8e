"""How strong a beam is at the angle that a size needs: between what a data sheet says of its two ends."""

from typing import Literal

from venue.core.abilities import Optics
from venue.core.beams import full_angle_deg
from venue.core.light import Span, candela_at, illuminance_lx

SizedBy = Literal["zoom", "iris", ""]


def intensity_at(full_deg: float, optics: Optics, sized_by: SizedBy = "") -> Span | None:
    """The candela on the axis of a beam closed or opened to the full angle; None where the data say nothing.

    A zoom that is known at both ends follows `candela_at`, and has no beam outside of them. An iris cuts the edge off
    and leaves the middle as it is: what the sheet says of the widest beam. Where nobody recorded which of both makes
    it smaller, the two ends are all that is known, and the answer is from the lower to the higher.
    """
    known = [value for value in (optics.narrow_cd, optics.wide_cd) if value is not None]
    if not known:
        return None
    if sized_by == "zoom":
        return _zoomed(full_deg, optics) or _between(known)
    if sized_by == "iris":
        middle = optics.narrow_cd if optics.wide_cd is None else optics.wide_cd
        return None if middle is None else Span(middle, middle)
    return _between(known)


def _zoomed(full_deg: float, optics: Optics) -> Span | None:
    narrow, wide = (optics.narrow_deg, optics.narrow_cd), (optics.wide_deg, optics.wide_cd)
    if narrow[0] is None or narrow[1] is None or wide[0] is None or wide[1] is None:
        return None
    within = min(max(full_deg, narrow[0]), wide[0])
    found = candela_at(within, (narrow[0], narrow[1]), (wide[0], wide[1]))
    return None if found is None else Span(found, found)


def _between(known: list[float]) -> Span:
    return Span(min(known), max(known))


def lux_on(diameter_m: float, throw_m: float, optics: Optics, sized_by: SizedBy, *shares: Span) -> Span | None:
    """Lux on somebody who faces the lens, in a beam of the diameter at the throw, behind everything in `shares`.

    None where the data say nothing, or where there is no throw.
    """
    candela = intensity_at(full_angle_deg(diameter_m, throw_m), optics, sized_by)
    if candela is None:
        return None
    low, high = illuminance_lx(candela.low, throw_m), illuminance_lx(candela.high, throw_m)
    if low is None or high is None:
        return None
    arriving = Span(low, high)
    for share in shares:
        arriving = arriving.times(share)
    return arriving
