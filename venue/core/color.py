"""Color temperature on the mired scale, on which a filter's shift is the same for every source.

mired = 10^6 / kelvin; behind a filter the source has its own mired value plus the filter's shift. A positive shift
makes it warmer.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from venue.core.filters import Filter, Stack, stacked

MIRED_KELVIN = 1e6


@dataclass(frozen=True)
class Correction:
    """One filter or several, the shift they add up to, how far off the wanted shift that is, what passes.

    `off_mired` is the shift less the wanted one.
    """

    filters: tuple[Filter, ...]
    shift_mired: float
    off_mired: float
    stack: Stack


NOTHING_IN = Stack(1.0, False)


def mired(kelvin: float) -> float:
    """The color temperature in mired; kelvin above 0."""
    return MIRED_KELVIN / kelvin


def kelvin(mired_value: float) -> float:
    """The color temperature in kelvin; mired above 0."""
    return MIRED_KELVIN / mired_value


def shift_mired(from_k: float, to_k: float) -> float:
    """The shift that turns a source of the first color temperature [K] into one of the second [mired]."""
    return mired(to_k) - mired(from_k)


def behind(source_k: float, shift: float) -> float | None:
    """The color temperature behind a filter of the shift [K]; None where the shift leaves nothing above 0 mired."""
    shifted = mired(source_k) + shift
    return kelvin(shifted) if shifted > 0 else None


def nearest_single(wanted_mired: float, filters: Sequence[Filter]) -> Correction | None:
    """The filter of the list that comes nearest to the shift, of equal ones the clearest; None without any."""
    return _nearest(wanted_mired, ((each,) for each in _corrections(filters)))


def nearest_pair(wanted_mired: float, filters: Sequence[Filter]) -> Correction | None:
    """The two filters, perhaps twice the same, that come nearest to the shift together; None without any.

    Both turn the way that is wanted: a filter that another one takes back only costs light.
    """
    useful = [each for each in _corrections(filters) if (each.shift_mired or 0.0) * wanted_mired > 0]
    return _nearest(wanted_mired, _pairs_near(wanted_mired, _clearest_by_shift(useful)))


def _clearest_by_shift(filters: Sequence[Filter]) -> list[Filter]:
    """Of filters of one shift the clearest, by rising shift: no other can be in the nearest pair."""
    found: dict[float, Filter] = {}
    for each in sorted(filters, key=lambda each: each.transmission):
        found[each.shift_mired or 0.0] = each
    return [found[shift] for shift in sorted(found)]


def _pairs_near(wanted_mired: float, by_shift: Sequence[Filter]) -> Iterator[tuple[Filter, ...]]:
    """Each filter with those next below and above what it lacks: a pair as near as any is among them."""
    shifts = [each.shift_mired or 0.0 for each in by_shift]
    for each, shift in zip(by_shift, shifts, strict=True):
        above = bisect_left(shifts, wanted_mired - shift)
        yield from ((each, other) for other in by_shift[max(0, above - 1) : above + 1])


def nearest_correction(wanted_mired: float, filters: Sequence[Filter], tolerance_mired: float) -> Correction:
    """The least that brings the shift within the tolerance: nothing, one filter, two; else what comes nearest.

    The tolerance is in mired and not negative.
    """
    nothing = Correction((), 0.0, -wanted_mired, NOTHING_IN)
    found = [nothing, nearest_single(wanted_mired, filters), nearest_pair(wanted_mired, filters)]
    choices = [each for each in found if each is not None]
    within = (each for each in choices if abs(each.off_mired) <= tolerance_mired)
    return next(within, None) or min(choices, key=lambda each: abs(each.off_mired))


def _corrections(filters: Sequence[Filter]) -> list[Filter]:
    return [each for each in filters if each.shift_mired is not None]


def _nearest(wanted_mired: float, choices: Iterator[tuple[Filter, ...]]) -> Correction | None:
    found = [_correction(wanted_mired, chosen) for chosen in choices]
    return min(found, key=lambda each: (abs(each.off_mired), -each.stack.transmission), default=None)


def _correction(wanted_mired: float, chosen: tuple[Filter, ...]) -> Correction:
    shift = sum(each.shift_mired or 0.0 for each in chosen)
    return Correction(chosen, shift, shift - wanted_mired, stacked(chosen))
