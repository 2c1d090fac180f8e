"""The inventory: every unit with its state, where it is, its lamp and its hours."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from django.utils.translation import gettext as _

from venue.condition import Condition, conditions_of
from venue.core.csv_text import Cell
from venue.models import House, LampTally, Placement, Unit, UnitTally
from venue.out.table import AT_ONCE, Column, Table, in_batches
from venue.wording_moves import where_words


def inventory(house: House, now: datetime) -> Table:
    """The units that are not off the books, as they are at the instant."""
    columns = (
        Column(_("unit"), 1.0),
        Column(_("source"), 1.4),
        Column(_("watts"), 0.7),
        Column(_("state"), 0.8),
        Column(_("why"), 2.3),
        Column(_("where"), 1.9),
        Column(_("lamp"), 1.0),
        Column(_("lamp kind"), 1.3),
        Column(_("lamp hours"), 0.8),
        Column(_("hours left"), 0.8),
        Column(_("unit hours"), 0.9),
        Column(_("hired from"), 1.1),
        Column(_("goes back on"), 1.1),
    )
    title, empty = _("Inventory of follow spots"), _("No unit is on file yet.")
    return Table("inventory", title, columns, lambda: _rows(house, now), empty)


def _rows(house: House, now: datetime) -> Iterator[tuple[Cell, ...]]:
    for units in in_batches(house.units.standing().order_by("tag_key", "pk").iterator(chunk_size=AT_ONCE)):
        yield from _some(units, now)


def _some(units: Sequence[Unit], now: datetime) -> Iterator[tuple[Cell, ...]]:
    """The rows of some units; the same number of queries however many."""
    ids = [unit.pk for unit in units]
    conditions, hours = (
        conditions_of(units, now),
        dict(UnitTally.objects.filter(unit__in=ids).values_list("unit", "hours")),
    )
    stays = Placement.objects.real().at(now).filter(unit__in=ids).select_related("place__position")
    where = {stay.unit_id: where_words(stay) for stay in stays}
    lamps = {row.unit_id: row for row in LampTally.objects.filter(unit__in=ids).select_related("lamp__kind")}
    for unit in units:
        lamp = lamps.get(unit.pk)
        yield (
            unit.tag,
            unit.source,
            unit.watts,
            *_state(conditions[unit.pk]),
            where.get(unit.pk, _("nowhere on file")),
            *(_lamp(lamp) if lamp else ("", "", None, None)),
            hours.get(unit.pk),
            unit.hired_from,
            unit.back_on,
        )


def _state(condition: Condition) -> tuple[str, str]:
    words = {"ready": _("ready"), "limited": _("limited"), "out": _("OUT")}
    return words[condition.state], "; ".join((*condition.stops, *condition.limits, *condition.notes))


def _lamp(tally: LampTally) -> tuple[Cell, ...]:
    return str(tally.lamp), str(tally.lamp.kind), tally.hours, tally.left_h
