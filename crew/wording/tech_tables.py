"""The two tables of a technical sheet: every place with its throw, and what stands there."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import repeat

from django.utils.translation import gettext as _

from crew.core.tech_sheet import SheetCircuit, SheetPlace, SheetUnit, TechSheet, clock_of
from crew.wording import tech_values as words
from crew.wording.tech_positions import run_words

NOTHING = "–"

Cells = tuple[str, ...]


@dataclass(frozen=True)
class TableGroup:
    """The rows of one position under its name; `note` says how its labels run."""

    heading: str
    note: str
    rows: tuple[Cells, ...]


@dataclass(frozen=True)
class SheetTable:
    """`columns` are name and share of the width; every row has a text for each."""

    title: str
    columns: tuple[tuple[str, float], ...]
    groups: tuple[TableGroup, ...]


def place_table(sheet: TechSheet) -> SheetTable:
    """Where each place is and how far it throws; with bearings where a position stands round the target."""
    columns = [
        (_("place"), 0.7),
        (_("lens from center"), 1.35),
        (_("from the plaster line"), 1.45),
        (_("above the deck"), 0.95),
        (_("throw, as told"), 1.8),
        (_("to that point"), 1.0),
        (_("to the target"), 1.0),
        (_("below horizontal"), 1.15),
    ]
    if sheet.has_bowl:
        columns.append((_("bearing, clock"), 1.2))
    columns.append((_("circuit"), 1.4))
    notes = (run_words(position.numbering, sheet.stage) for position in sheet.positions)
    return SheetTable(_("Places"), tuple(columns), _groups(sheet, _place_cells, notes))


def unit_table(sheet: TechSheet) -> SheetTable:
    """What stands at each place, by the maker's data."""
    columns = (
        (_("place"), 0.8),
        (_("unit"), 1.1),
        (_("source, watts"), 1.2),
        (_("frames"), 1.8),
        (_("narrowest"), 1.7),
        (_("widest"), 1.7),
        (_("color temperature"), 1.3),
        (_("now"), 1.6),
    )
    return SheetTable(_("What stands there"), columns, _groups(sheet, _unit_cells, repeat("")))


def _groups(
    sheet: TechSheet, cells: Callable[[SheetPlace, TechSheet], Cells], notes: Iterable[str]
) -> tuple[TableGroup, ...]:
    return tuple(
        TableGroup(position.name, note, tuple(cells(place, sheet) for place in position.places))
        for position, note in zip(sheet.positions, notes, strict=False)
        if position.places
    )


def _place_cells(place: SheetPlace, sheet: TechSheet) -> Cells:
    system, throw = sheet.system, place.throw
    cells = [
        place.label,
        *words.lens_words(place.lens, system),
        words.told_words(throw, system),
        words.computed_length(throw.same_end_m, system),
        words.computed_length(throw.target_m, system),
        words.below_words(place.angle_deg),
    ]
    if sheet.has_bowl:
        cells.append(_bearing(place, sheet))
    return (*cells, _circuit(place.circuit))


def _bearing(place: SheetPlace, sheet: TechSheet) -> str:
    """Clockwise from the stage end, and where that is on the dial of the set-up."""
    if place.bearing_deg is None:
        return NOTHING
    hour, minute = clock_of(place.bearing_deg, sheet.stage.twelve_deg)
    facts = {"bearing": words.number(round(place.bearing_deg, 1)), "clock": f"{hour}:{minute:02}" if minute else hour}
    said = _("%(bearing)s°, %(clock)s o'clock") % facts
    return said + words.COMPUTED if place.bearing_is_computed else said


def _circuit(circuit: SheetCircuit | None) -> str:
    if circuit is None:
        return words.unknown()
    volts = (
        _("volts not recorded") if circuit.volts is None else _("%(volts)s V") % {"volts": words.number(circuit.volts)}
    )
    rating = _("rating not recorded")
    if circuit.rating_a is not None:
        rating = _("%(amperes)s A") % {"amperes": words.number(circuit.rating_a)}
    return f"{circuit.name}: {volts}, {rating}"


def _unit_cells(place: SheetPlace, _sheet: TechSheet) -> Cells:
    unit = place.unit
    if unit is None:
        return (place.label, _("empty: takes a hired unit"), *(NOTHING,) * 6)
    watts = _("watts not recorded") if unit.watts is None else _("%(watts)s W") % {"watts": words.number(unit.watts)}
    source = unit.source or _("source not recorded")
    kelvins = words.unknown() if unit.cct_k is None else _("%(kelvins)s K") % {"kelvins": words.number(unit.cct_k)}
    return (
        place.label,
        _("%(unit)s, run from %(place)s") % {"unit": unit.tag, "place": place.run_from} if place.run_from else unit.tag,
        f"{source}, {watts}",
        words.frames_words(unit),
        words.beam_words(unit.narrow_deg, unit.narrow_cd, unit),
        words.beam_words(unit.wide_deg, unit.wide_cd, unit),
        kelvins,
        now_words(unit),
    )


def now_words(unit: SheetUnit) -> str:
    """What the unit can't do now, in one line; why it is out of service is the house's to tell."""
    if unit.is_out:
        return _("OUT OF SERVICE")
    limits = "; ".join(unit.limits)
    return _("LIMIT: %(limits)s") % {"limits": limits} if limits else _("no limit on file")
