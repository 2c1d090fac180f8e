"""A unit's pictures: its lamps' hours over the last year with the limits across, and a strip of its use."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from itertools import groupby

from django.utils.formats import date_format
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from venue.core.drawing.charts import HoursPoint, HoursWords, StripWords, hours_chart, year_strip
from venue.core.drawing.svg import as_svg
from venue.core.hours import hours_by_day
from venue.core.local_time import house_day
from venue.models import LampKind, Unit
from venue.unit_ledger import YearOfUse, year_of_use
from venue.wording_hours import hours_words, when_words

MOST_POINTS = 120


@dataclass(frozen=True)
class Pictures:
    """Two drawings as SVG, empty where nothing is on file, and the hours of each month as numbers [h]."""

    hours: SafeString
    strip: SafeString
    months: tuple[tuple[date, float], ...]


def pictures_of(unit: Unit, kind: LampKind | None, now: datetime) -> Pictures:
    """The unit's pictures; the limits are those of the kind of lamp that is in."""
    year, zone = year_of_use(unit, now), unit.house.time_zone
    points = _points(year, zone)
    by_day = hours_by_day(year.runs, year.added, now, lambda at: house_day(at, zone, unit.house.day_turns_at))
    hours = _hours_picture(unit, points, kind) if points else SafeString("")
    strip = _strip_picture(unit, by_day, now) if by_day else SafeString("")
    return Pictures(hours, strip, _months(by_day))


def _points(year: YearOfUse, zone: str) -> list[HoursPoint]:
    rows = [row for row in year.rows if row.lamp_h is not None and row.lamp is not None]
    thinned = _thinned(rows, MOST_POINTS)
    return [
        HoursPoint(row.at, float(row.lamp_h), row.lamp, f"{hours_words(row.lamp_h)} h, {when_words(row.at, zone)}")
        for row in thinned
        if row.lamp_h is not None
    ]


def _thinned(rows: Sequence, most: int) -> Sequence:
    """Some of the rows, evenly, with the first and the last of every lamp."""
    step = -(-len(rows) // most)
    if step <= 1:
        return rows
    lamps = [list(group) for _lamp, group in groupby(rows, key=lambda row: row.lamp)]
    return [row for lamp in lamps for row in ([*lamp[:-1:step], lamp[-1]])]


def _hours_picture(unit: Unit, points: Sequence[HoursPoint], kind: LampKind | None) -> SafeString:
    warn_h, stop_h = (None, None) if kind is None else (kind.warn_h, kind.stop_h)
    words = HoursWords(
        hours=_("Lamp hours"),
        warn=_("warn at %(hours)s h") % {"hours": _whole(warn_h)},
        stop=_("stop at %(hours)s h") % {"hours": _whole(stop_h)},
        date=lambda day: date_format(day, "M Y"),
        number=lambda value: f"{value:,.0f}",
    )
    limits = [None if limit is None else float(limit) for limit in (warn_h, stop_h)]
    drawing = hours_chart(points, limits[0], limits[1], words, unit.house.time_zone)
    title = _("Lamp hours of %(tag)s over the last year") % {"tag": unit.tag}
    return mark_safe(as_svg(drawing, title=title, identity="lamp-hours", family="chart"))  # text is escaped in it


def _strip_picture(unit: Unit, by_day: dict[date, float], now: datetime) -> SafeString:
    words = StripWords(
        caption=_("Use by week"),
        fullest=lambda hours: _("fullest week %(hours)s h") % {"hours": f"{hours:.1f}"},
        month=lambda day: date_format(day, "M"),
    )
    today = house_day(now, unit.house.time_zone, unit.house.day_turns_at)
    title = _("Hours of use of %(tag)s by week over the last year") % {"tag": unit.tag}
    return mark_safe(as_svg(year_strip(by_day, today, words), title=title, identity="use", family="chart"))


def _months(by_day: dict[date, float]) -> tuple[tuple[date, float], ...]:
    """Hours by month, the last first."""
    found: dict[date, float] = {}
    for day, hours in by_day.items():
        month = day - timedelta(days=day.day - 1)
        found[month] = found.get(month, 0.0) + hours
    return tuple(sorted(found.items(), reverse=True))


def _whole(hours: Decimal | None) -> str:
    return "" if hours is None else f"{hours.normalize():f}"
