"""What the page of one place's light shows: the point that it is about, filters in front, beams and sizes there."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from django.utils.translation import gettext as _

from venue.book import book_of_positions
from venue.core.color import behind
from venue.core.drawing.records import FACE
from venue.core.filters import Stack, stacked
from venue.core.lengths import UnitSystem
from venue.core.light import Span, is_too_near
from venue.core.pick_ups import PickUp
from venue.core.throws import Point
from venue.models import ColorFilter, House, Place, Setup
from venue.models.places import ThrowEnd
from venue.throw_book import PlaceLight, lights_in
from venue.throw_ends import end_y_in
from venue.wording_light import both_words, fine_degrees_words, lux_words, reach_words, size_words
from venue.wording_throws import Fact, beam_facts, end_words

MOST_FILTERS = 2


@dataclass(frozen=True)
class Aim:
    """A point that the figures may be about; `point` None is the set-up's target."""

    key: str
    words: str
    point: Point | None = None


@dataclass(frozen=True)
class InFront:
    """The filters chosen. `stack` is None where nobody recorded what one of them lets through.

    `color_k` is the color temperature behind them, None where the unit's or a shift is not recorded.
    """

    filters: tuple[ColorFilter, ...] = ()
    stack: Stack | None = None
    source_k: float | None = None
    color_k: float | None = None

    @property
    def unknown(self) -> list[ColorFilter]:
        """Those of which nobody recorded what they let through."""
        return [each for each in self.filters if each.as_filter is None]


@dataclass(frozen=True)
class SizeRow:
    """One size at the aim, in words; "" where it is not known."""

    name: str
    diameter: str
    needs: str
    reach: str
    is_out_of_reach: bool
    light: str


def aims(setup: Setup, place: Place) -> list[Aim]:
    """The set-up's target, then the points on the center line that a throw may end at, at the height of a face."""
    ends = {end: end_y_in(setup, end) for end in (ThrowEnd.LIP, ThrowEnd.PLASTER, ThrowEnd.CENTER)}
    found = [Aim("target", _("the set-up's target"))]
    found += [Aim(str(end), str(end.label), _face_at(y)) for end, y in ends.items() if y is not None]
    if place.throw_end in (ThrowEnd.CURTAIN, ThrowEnd.MARK) and place.throw_end_y_m is not None:
        found.append(Aim(place.throw_end, end_words(place), _face_at(place.throw_end_y_m)))
    return found


def _face_at(y_m: float) -> Point:
    return Point(0.0, y_m, FACE.z_m)


def light_at(place: Place, setup: Setup, now: datetime, target: Point | None = None) -> PlaceLight:
    """The light of one place that has not ended, about the target."""
    entries = book_of_positions(setup, [place.position], now)
    return next(light for light in lights_in(entries, setup, now, target) if light.place.pk == place.pk)


def filters_named(house: House, refs: Sequence[str]) -> tuple[list[ColorFilter], int]:
    """The house's filters of these references in their order, at most two, and how many had to be left out."""
    asked = [ref for ref in refs if ref]
    known = {each.ref: each for each in house.color_filters.standing().filter(ref__in=[*_uuids(asked)])}
    found = [known[ref] for ref in _uuids(asked) if ref in known][:MOST_FILTERS]
    return found, len(asked) - len(found)


def _uuids(texts: Sequence[str]) -> Iterator[UUID]:
    for text in texts:
        try:
            yield UUID(text)
        except ValueError:
            continue


def in_front(filters: Sequence[ColorFilter], source_k: float | None) -> InFront:
    """What passes the filters, and the color temperature behind them."""
    parts = [part for each in filters if (part := each.as_filter) is not None]
    stack = stacked(parts) if len(parts) == len(filters) else None
    shifts = [each.shift_mired for each in filters if each.shift_mired is not None]
    is_known = bool(filters) and source_k is not None and len(shifts) == len(filters)
    color = behind(source_k, sum(shifts)) if is_known and source_k is not None else None
    return InFront(tuple(filters), stack, source_k, color)


def size_rows(light: PlaceLight, front: InFront, system: UnitSystem) -> list[SizeRow]:
    """The sizes from the smallest to the largest by default, with the light that arrives behind everything."""
    return [_size_row(light, pick_up, front, system) for pick_up in light.ability.pick_ups]


def _size_row(light: PlaceLight, pick_up: PickUp, front: InFront, system: UnitSystem) -> SizeRow:
    lux = arriving(light, pick_up, front)
    return SizeRow(
        name=size_words(pick_up.size.name),
        diameter=both_words(pick_up.size.diameter_m, system),
        needs="" if pick_up.beam_deg is None else fine_degrees_words(pick_up.beam_deg),
        reach=reach_words(pick_up),
        is_out_of_reach=pick_up.reach in ("too-small", "too-large"),
        light="" if lux is None else lux_words(lux, system),
    )


def arriving(light: PlaceLight, pick_up: PickUp, front: InFront) -> Span | None:
    """Lux at the size behind glass, age and filters; None where the data, or a filter's, say nothing."""
    lux = light.lux_on(pick_up.size)
    if lux is None or front.stack is None:
        return None
    return lux.times(Span(front.stack.transmission, front.stack.transmission))


def beams(light: PlaceLight, system: UnitSystem) -> dict[str, list[Fact]]:
    """The unit's beam at its narrowest and at its widest, where anything is recorded of it."""
    ends: dict[str, Any] = {"narrow": light.ability.narrow, "wide": light.ability.wide}
    return {name: beam_facts(beam, system) for name, beam in ends.items() if beam is not None}


def is_near(light: PlaceLight) -> bool | None:
    """Whether the inverse square is only a rough guide here; None where nobody recorded from where on it holds."""
    if light.line is None or light.unit is None:
        return None
    return is_too_near(light.line.throw_m, light.unit.far_field_m)
