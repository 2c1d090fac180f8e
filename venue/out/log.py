"""The maintenance log between two dates."""

from collections.abc import Iterator
from datetime import date

from django.db.models import QuerySet
from django.utils.translation import gettext as _

from venue.core.csv_text import Cell
from venue.core.light import foot_candles
from venue.models import House, LogEntry
from venue.out.table import AT_ONCE, Column, Table
from venue.stays import house_day_span
from venue.wording_moves import moment_words

ANSWERS = ("is_isolated", "is_cooled", "is_protected", "is_aligned")


def entries_between(house: House, first: date, last: date) -> QuerySet[LogEntry]:
    """What was done from the first house day to the last, both included; struck entries too."""
    since, until = house_day_span(house, first)[0], house_day_span(house, last)[1]
    return LogEntry.objects.filter(house=house, at__gte=since, at__lt=until)


def log(house: House, first: date, last: date) -> Table:
    """The log of these days, the oldest entry first."""
    light = _("lx") if house.unit_system == "metric" else _("fc")
    columns = (
        Column(_("done"), 1.5),
        Column(_("unit"), 1.1),
        Column(_("what"), 1.1),
        Column(_("by"), 1.3),
        Column(_("in words"), 2.8),
        Column(_("parts"), 1.4),
        Column(_("meter showed"), 0.9),
        Column(_("before, %(light)s") % {"light": light}, 0.9),
        Column(_("after, %(light)s") % {"light": light}, 0.9),
        Column(_("to know"), 2.6),
    )
    told = {"first": first.isoformat(), "last": last.isoformat()}
    title = _("Maintenance log, %(first)s to %(last)s") % told
    return Table(
        f"log-{first}-{last}", title, columns, lambda: _rows(house, first, last), _("Nothing was logged then.")
    )


def _rows(house: House, first: date, last: date) -> Iterator[tuple[Cell, ...]]:
    entries = entries_between(house, first, last).select_related("unit").order_by("at", "pk")
    for entry in entries.iterator(chunk_size=AT_ONCE):
        yield (
            moment_words(entry.at, house.time_zone),
            str(entry.unit) if entry.unit else entry.accessory,
            str(entry.get_kind_display()),
            entry.by,
            entry.text,
            entry.parts,
            entry.meter_h,
            _light(entry.before_lux, house),
            _light(entry.after_lux, house),
            _to_know(entry),
        )


def _light(lux: float | None, house: House) -> float | None:
    if lux is None:
        return None
    return round(lux if house.unit_system == "metric" else foot_candles(lux), 1)


def _to_know(entry: LogEntry) -> str:
    """Struck out, or what a relamp was not answered."""
    if entry.is_struck:
        return _("STRUCK OUT: %(reason)s") % {"reason": entry.struck_reason}
    if not entry.is_open:
        return ""
    fields = {field.name: str(field.verbose_name) for field in LogEntry._meta.fields}
    return _("OPEN, not answered: %(questions)s") % {
        "questions": "; ".join(fields[name] for name in ANSWERS if getattr(entry, name) is None)
    }
