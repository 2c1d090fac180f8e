"""The picture of a unit's light: candela over lamp hours, with its least and its mates' usual."""

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from venue.core.drawing.charts import LightPoint, LightWords, light_chart
from venue.core.drawing.svg import as_svg
from venue.light_book import LightRow, UnitLight
from venue.models import Unit
from venue.wording_care import candela_text, hours_text


def light_picture(unit: Unit, light: UnitLight) -> SafeString:
    """SVG of the readings whose lamp hours are known and that compare; empty with fewer than two."""
    rows = [row for row in light.rows if row.lamp_h is not None and row.share is not None]
    if len(rows) < 2 or light.trend is None:
        return SafeString("")
    drawing = light_chart([_point(row) for row in rows], _words(), line=light.trend.line, mates_cd=light.mates_cd)
    title = _("Light of %(unit)s over lamp hours, %(setting)s") % {"unit": unit.tag, "setting": light.setting}
    svg = as_svg(drawing, title=title, identity=f"light-{unit.ref}", family="chart")
    return mark_safe(svg)  # the writer escapes every word


def _point(row: LightRow) -> LightPoint:
    hours = row.lamp_h or 0.0
    words = f"{hours_text(hours)}: {candela_text(row.reading.candela)}"
    return LightPoint(hours, row.reading.candela, words)


def _words() -> LightWords:
    return LightWords(
        candela=_("candela"),
        hours=_("lamp hours"),
        least=_("70 % of the first"),
        mates=_("its mates"),
        candela_number=candela_text,
        hours_number=lambda hours: f"{hours:g}",
    )
