"""manage.py throws: what every light of a house file can do from where it stands."""

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from django.core.management.base import CommandParser
from django.utils import timezone
from django.utils.translation import gettext as _

from venue.core.abilities import NOTHING_KNOWN, Ability, BeamAtTarget, Optics, ability
from venue.core.beams import Percent
from venue.core.lengths import UnitSystem, written
from venue.core.light import PANES, foot_candles, is_too_near
from venue.core.names import name_key
from venue.core.pick_ups import SIZES, PickUp, Size
from venue.core.throws import Point
from venue.house_file.records import HouseFile, PlacementRecord, PlaceName, PositionRecord, SlotRecord, UnitRecord
from venue.management.command import Answer, AnswerCommand, CommandRefused, Options
from venue.management.house_source import house_file_at, warning_lines
from venue.wording_light import angle_words, percent_words

_NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?"
_THREE_NUMBERS = re.compile(rf"\s*({_NUMBER})\s*,\s*({_NUMBER})\s*,\s*({_NUMBER})\s*", re.ASCII)
_FARTHEST_M = 1000.0


@dataclass(frozen=True)
class Entry:
    """A slot, the unit that stands there, what it can do, and the slot's bearing [degrees]."""

    position: PositionRecord
    slot: SlotRecord
    unit: UnitRecord | None
    ability: Ability
    bearing_deg: float | None


class Command(AnswerCommand):
    help = _("Compute throw, angles, sizes, beams and light of every slot of a house file.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        # What starts like a negative number is a value and no option: --target -3,4,1.5
        parser._negative_number_matcher = re.compile(r"-\.?\d")
        parser.add_argument("house", metavar="HOUSE.json", help=_("house file, or - for standard input"))
        parser.add_argument(
            "--target",
            metavar="X,Y,Z",
            help=_("in meters, from center toward stage left, upstage of the plaster line, above the deck"),
        )

    def answer(self, options: Options) -> Answer:
        house_file = house_file_at(options["house"])
        target = _target(options["target"], house_file)
        entries = list(_entries(house_file, target, timezone.now()))
        text = "\n".join(_text(entries, target, "metric" if house_file.house.units == "metric" else "imperial"))
        return Answer([_document(entry) for entry in entries], text, warning_lines(options["house"], house_file))


def _target(text: str | None, house_file: HouseFile) -> Point:
    """The point named, else the target of the house's usual set-up. Raises CommandRefused."""
    if text is None:
        return Point(*house_file.house.setup.target)
    found = _THREE_NUMBERS.fullmatch(text)
    values = [float(number) for number in found.groups()] if found else []
    if not values or max(map(abs, values)) > _FARTHEST_M:
        line = _("--target: can't read “%(text)s”; write three lengths in meters, none over 1000: --target=0,2.5,1.5")
        raise CommandRefused([line % {"text": text}])
    return Point(*(value + 0.0 for value in values))


def _entries(house_file: HouseFile, target: Point, now: datetime) -> Iterator[Entry]:
    """Each slot in the order of the file."""
    units, sizes = {unit.key: unit for unit in house_file.units}, _sizes(house_file)
    standing = _standing(house_file.placements, now)
    for position in house_file.positions:
        for slot in position.slots:
            tag = slot.unit or standing.get(PlaceName(position.name, slot.label).key)
            unit = None if tag is None else units.get(name_key(tag))
            lens = None if slot.lens is None else Point(*slot.lens)
            can = ability(lens, target, NOTHING_KNOWN if unit is None else _optics(unit), sizes)
            yield Entry(position, slot, unit, can, slot.bearing((target.x_m, target.y_m, target.z_m)))


def _standing(placements: Iterable[PlacementRecord], now: datetime) -> Mapping[tuple[str, str], str]:
    """The unit's tag by place: who stands there now, else who comes next."""
    ahead = (stay for stay in placements if stay.ends_at is None or stay.ends_at > now)
    return {stay.place.key: stay.unit for stay in sorted(ahead, key=lambda stay: stay.starts_at, reverse=True)}


def _optics(unit: UnitRecord) -> Optics:
    percent: Percent | None = unit.angle_percent  # type: ignore[assignment]  # the format has no others
    return Optics(unit.narrow_deg, unit.wide_deg, unit.narrow_cd, unit.wide_cd, percent)


def _sizes(house_file: HouseFile) -> tuple[Size, ...]:
    """The usual sizes with the house's own diameters."""
    own = {size.size: size.diameter_m for size in house_file.sizes}
    return tuple(Size(size.name, own.get(size.name, size.diameter_m)) for size in SIZES)


# -- as JSON -------------------------------------------------------------------------------------------


def _document(entry: Entry) -> dict[str, Any]:
    """The slot's entry; null where the lens or the unit's data are not known, or geometry gives nothing."""
    line, can = entry.ability.line, entry.ability
    return {
        "position": entry.position.name,
        "label": entry.slot.label,
        "throw_m": line and line.throw_m,
        "plan_m": line and line.plan_m,
        "rise_m": line and line.rise_m,
        "angle_deg": line and line.angle_deg,
        "pan_deg": line and line.pan_deg,
        "bearing_deg": entry.bearing_deg,
        "pick_ups": [_pick_up_document(each) for each in can.pick_ups],
        "narrow": can.narrow and _beam_document(can.narrow),
        "wide": can.wide and _beam_document(can.wide),
    }


def _pick_up_document(pick_up: PickUp) -> dict[str, Any]:
    size = {"size": pick_up.size.name, "diameter_m": pick_up.size.diameter_m}
    return {**size, "beam_deg": pick_up.beam_deg, "reach": pick_up.reach}


def _beam_document(beam: BeamAtTarget) -> dict[str, Any]:
    return {"diameter_m": beam.diameter_m, "lux": beam.lux, "footprint": beam.deck and asdict(beam.deck)}


# -- as text -------------------------------------------------------------------------------------------


def _text(entries: Iterable[Entry], target: Point, system: UnitSystem) -> Iterator[str]:
    values = {"x": _signed(target.x_m, system), "y": _signed(target.y_m, system), "z": _signed(target.z_m, system)}
    yield _("Target: x %(x)s, y %(y)s, z %(z)s.") % values
    for entry in entries:
        tag = entry.unit.tag if entry.unit else _("no unit")
        place = {"position": entry.position.name, "label": entry.slot.label, "unit": tag}
        yield _("%(position)s, place %(label)s (%(unit)s)") % place
        yield from (f"  {line}" for line in _lines(entry, system))
    yield _("Angles are full angles, as the units' data give them.")
    yield _("Light: lux on the axis, facing the lens, without glass, color or age of the lamp; computed, not measured.")


def _lines(entry: Entry, system: UnitSystem) -> Iterator[str]:
    line, can = entry.ability.line, entry.ability
    if line is None:
        yield _("no throw: x, y and z of the lens are not recorded")
        return
    lengths = {"throw": written(line.throw_m, system), "plan": written(line.plan_m, system)}
    angles = {"angle": line.angle_deg, "pan": line.pan_deg, "bearing": entry.bearing_deg}
    values = {**lengths, "rise": _signed(line.rise_m, system), **angles}
    yield (
        _(
            "throw %(throw)s, plan %(plan)s, rise %(rise)s; %(angle).1f° below horizontal, pan %(pan).1f°, "
            "bearing %(bearing).1f°"
        )
        % values
    )
    if can.narrow:
        yield _("narrow: %(beam)s") % {"beam": _beam_text(can.narrow, system)}
    if can.wide:
        yield _("wide: %(beam)s") % {"beam": _beam_text(can.wide, system)}
    yield "; ".join(map(_pick_up_text, can.pick_ups))
    if entry.position.glass in PANES:
        yield _glass_text(entry.position.glass_loss_pct)
    if entry.unit and is_too_near(line.throw_m, entry.unit.far_field_m):
        nearest = written(entry.unit.far_field_m or 0.0, system)
        yield _("the light is a rough guide: nearer than %(nearest)s the inverse square does not hold") % {
            "nearest": nearest
        }


def _glass_text(loss_pct: float | None) -> str:
    if loss_pct is None:
        return _("behind a pane: 12 to 15 % less light while it is closed")
    loss = percent_words(loss_pct / 100)
    return _("behind a pane: %(loss)s less light while it is closed, as measured") % {"loss": loss}


def _beam_text(beam: BeamAtTarget, system: UnitSystem) -> str:
    parts = []
    if beam.angle is not None and beam.diameter_m is not None:
        across = {"angle": angle_words(beam.angle), "diameter": written(beam.diameter_m, system)}
        parts.append(_("%(angle)s, %(diameter)s across") % across)
    if beam.lux is not None:
        both = {"lux": math.floor(beam.lux + 0.5), "fc": math.floor(foot_candles(beam.lux) + 0.5)}
        parts.append(_("%(lux)d lx (%(fc)d fc)") % both)
    if beam.deck is not None:
        pool = {"length": written(beam.deck.length_m, system), "width": written(beam.deck.width_m, system)}
        parts.append(_("pool on the deck %(length)s by %(width)s") % pool)
    return ", ".join(parts)


def _pick_up_text(pick_up: PickUp) -> str:
    reaches = {"ok": _("reached"), "too-small": _("can't close to it"), "too-large": _("can't open to it")}
    reach = reaches[pick_up.reach] if pick_up.reach else _("not known")
    return _("%(size)s %(angle).2f° %(reach)s") % {"size": pick_up.size.name, "angle": pick_up.beam_deg, "reach": reach}


def _signed(meters: float, system: UnitSystem) -> str:
    """The length with its sign, none where it is written as nothing."""
    text = written(meters, system)
    return f"-{text}" if meters < 0 and text != written(0.0, system) else text
