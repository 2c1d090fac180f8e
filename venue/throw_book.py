"""The house as light: each place with its lens, its lines, what its unit can do from there, what takes light away.

The number of queries does not depend on how many positions and places there are.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from venue.book import BookPosition, book_of
from venue.core.abilities import NOTHING_KNOWN, Ability, Optics, ability
from venue.core.coverage import Limits, PanRange, Zone
from venue.core.intensity import SizedBy, lux_on
from venue.core.light import WHOLE, Span, through_glass
from venue.core.pick_ups import SIZES, Size
from venue.core.sightlines import Finding, Sightline, findings, sightline
from venue.core.throws import Point
from venue.light_book import shares_of
from venue.models import Blockage, House, Place, Position, Setup, Unit


@dataclass(frozen=True)
class PlaceLight:
    """One place and its light. None and "" are not known.

    `target` is the performer's face; `end` is where the throw as told ends, on the deck, and `end_line` the line there.
    `ability` is about the target. `glass` is the share of the light that passes the glass in front, `age` the unit's
    last light reading as a share of its first.
    """

    entry: BookPosition
    place: Place
    unit: Unit | None
    optics: Optics
    lens: Point | None
    target: Point
    ability: Ability
    end: Point | None
    end_line: Sightline | None
    glass: Span
    age: float | None

    @property
    def line(self) -> Sightline | None:
        """To the target."""
        return self.ability.line

    @property
    def sized_by(self) -> SizedBy:
        return self.unit.sized_by if self.unit else ""  # type: ignore[return-value]

    @property
    def shares(self) -> tuple[Span, ...]:
        """Everything that is known to take light away: glass and age."""
        return (self.glass,) if self.age is None else (self.glass, Span(self.age, self.age))

    def findings(self, *, is_on_camera: bool = False) -> tuple[Finding, ...]:
        """What is odd about the line to the target, and about the throw as somebody told it."""
        if self.line is None or self.lens is None:
            return ()
        found = findings(self.line, self.lens.z_m, is_on_camera=is_on_camera)
        if self.end_line is None or self.place.throw_m is None:
            return found
        told = findings(self.end_line, self.lens.z_m, stated_m=self.place.throw_m)
        return (*found, *(each for each in told if each.code == "differs-from-stated"))

    def lux_on(self, size: Size) -> Span | None:
        """What arrives on somebody at the target who faces the lens, at the size, behind glass and with age."""
        if self.line is None:
            return None
        return lux_on(size.diameter_m, self.line.throw_m, self.optics, self.sized_by, *self.shares)


def lights_of(setup: Setup, now: datetime, target: Point | None = None) -> list[PlaceLight]:
    """Every place of the house in its order, with who stands there now; about the set-up's target by default."""
    return list(lights_in(book_of(setup, now), setup, now, target))


def lights_in(
    entries: Sequence[BookPosition], setup: Setup, now: datetime, target: Point | None = None
) -> Iterable[PlaceLight]:
    """The places of some positions."""
    aim, sizes = target or target_of(setup), sizes_of(setup.house)
    ages = shares_of([stay.unit for entry in entries for stay in entry.placements.values()], now)
    for entry in entries:
        glass = glass_of(entry.position)
        for place, stay in entry.stands:
            unit = None if stay is None else stay.unit
            optics = NOTHING_KNOWN if unit is None else optics_of(unit)
            lens, end = lens_of(place), end_of(place)
            yield PlaceLight(
                entry=entry,
                place=place,
                unit=unit,
                optics=optics,
                lens=lens,
                target=aim,
                ability=ability(lens, aim, optics, sizes),
                end=end,
                end_line=None if lens is None or end is None else sightline(lens, end),
                glass=glass,
                age=None if unit is None else ages.get(unit.pk),
            )


def target_of(setup: Setup) -> Point:
    """Where the set-up's lights point by default."""
    return Point(setup.target_x_m, setup.target_y_m, setup.target_z_m)


def lens_of(place: Place) -> Point | None:
    """The lens, where its three coordinates are recorded."""
    if place.x_m is None or place.y_m is None or place.z_m is None:
        return None
    return Point(place.x_m, place.y_m, place.z_m)


def end_of(place: Place) -> Point | None:
    """Where the throw as told ends: on the center line, on the deck."""
    return None if place.throw_end_y_m is None else Point(0.0, place.throw_end_y_m, 0.0)


def optics_of(unit: Unit) -> Optics:
    """What the unit's data sheet says."""
    percent = unit.angle_percent
    known = percent if percent in (50, 10) else None
    return Optics(unit.narrow_deg, unit.wide_deg, unit.narrow_cd, unit.wide_cd, known)  # type: ignore[arg-type]


def glass_of(position: Position) -> Span:
    """The share of the light that passes what is in front of the position; a pane counts as closed."""
    loss = position.glass_loss_pct
    return through_glass(position.glass, None if loss is None else loss / 100) if position.glass else WHOLE


def sizes_of(house: House) -> tuple[Size, ...]:
    """The usual sizes with the house's own diameters, from the smallest to the largest by default."""
    own = dict(house.pick_up_sizes.values_list("size", "diameter_m"))
    return tuple(Size(size.name, own.get(size.name, size.diameter_m)) for size in SIZES)


def limits_of(position: Position, blockages: Iterable[Blockage], place: Place | None = None) -> Limits:
    """What is recorded of the position's view, and of what is in its way; `blockages` are the position's.

    Those that stand in the way of one place count for that place alone.
    """
    here = [each for each in blockages if each.place_id is None or (place is not None and each.place_id == place.pk)]
    return Limits(
        farthest_downstage_m=position.farthest_downstage_m,
        farthest_upstage_m=position.farthest_upstage_m,
        pan=_pans(position.pan_from_deg, position.pan_to_deg),
        blocked_zones=tuple(Zone(each.name, each.polygon) for each in here if each.corners),
        blocked_pans=tuple(pans for each in here if (pans := _pans(each.pan_from_deg, each.pan_to_deg)) is not None),
    )


def _pans(start: float | None, end: float | None) -> PanRange | None:
    return None if start is None or end is None else PanRange(start, end)
