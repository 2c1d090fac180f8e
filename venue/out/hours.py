"""The hours: every lamp with what it burned, its limits and what is left."""

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal

from django.utils.translation import gettext as _

from venue.core.csv_text import Cell
from venue.models import House, Lamp, LampTally
from venue.out.table import AT_ONCE, Column, Table, in_batches
from venue.wording_moves import moment_words


def lamp_hours(house: House, now: datetime) -> Table:
    """The lamps that are fitted or on the shelf; hours as their last readings have them."""
    columns = (
        Column(_("lamp"), 1.2),
        Column(_("lamp kind"), 1.8),
        Column(_("in unit"), 1.2),
        Column(_("hours"), 0.9),
        Column(_("strikes"), 0.8),
        Column(_("rated hours"), 0.9),
        Column(_("warns at"), 0.9),
        Column(_("stops at"), 0.9),
        Column(_("hours left"), 0.9),
        Column(_("state"), 1.3),
        Column(_("counted to"), 1.7),
    )
    title, empty = _("Lamp hours"), _("No lamp is on file yet.")
    return Table("lamp-hours", title, columns, lambda: _rows(house), empty)


def _rows(house: House) -> Iterator[tuple[Cell, ...]]:
    lamps = house.lamps.standing().select_related("kind").order_by("serial_key", "pk")
    for some in in_batches(lamps.iterator(chunk_size=AT_ONCE)):
        tallies = LampTally.objects.filter(lamp__in=[lamp.pk for lamp in some]).select_related("unit")
        by_lamp = {tally.lamp_id: tally for tally in tallies}
        for lamp in some:
            yield _row(lamp, by_lamp.get(lamp.pk), house.time_zone)


def _row(lamp: Lamp, tally: LampTally | None, zone: str) -> tuple[Cell, ...]:
    kind, hours = lamp.kind, tally.hours if tally else None
    return (
        lamp.serial,
        kind.name,
        str(tally.unit) if tally and tally.unit else _("on the shelf"),
        hours,
        tally.strikes if tally else None,
        kind.rated_h,
        kind.warn_h,
        kind.stop_h,
        tally.left_h if tally else None,
        _state(hours, kind.warn_h, kind.stop_h),
        moment_words(tally.counted_to, zone) if tally and tally.counted_to else "",
    )


def _state(hours: Decimal | None, warn_h: Decimal | None, stop_h: Decimal | None) -> str:
    if hours is None or warn_h is None or stop_h is None:
        return _("limit unknown")
    if hours >= stop_h:
        return _("PAST ITS STOP")
    return _("near its stop") if hours >= warn_h else _("in order")
