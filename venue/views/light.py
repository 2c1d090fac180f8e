"""Light readings of a unit: how its light held, and a new reading."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, own_unit_in, unit_in
from venue.actions import measure_light
from venue.core.lengths import as_typed
from venue.core.ranges import READING_LX
from venue.forms.lengths import written_back
from venue.forms.light import LightForm
from venue.light_book import LightRow, UnitLight, light_of
from venue.light_picture import light_picture
from venue.models import LightReading, Unit
from venue.views.saving import actor_of, is_saved
from venue.wording_care import candela_text, finding_words, hours_text, light_text


@require_safe
def light_list(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """The unit's light at one setting: a picture over lamp hours, the numbers beneath, what they tell."""
    house, may_write = house_for(request.user, slug)
    unit = unit_in(house, ref)
    light = light_of(unit, timezone.now(), request.GET.get("setting", ""))
    context = {
        "house": house,
        "may_write": may_write,
        "unit": unit,
        "light": light,
        "rows": [_shown(row, house.unit_system) for row in reversed(light.rows)],
        "findings": [finding_words(each) for each in light.findings],
        "picture": light_picture(unit, light),
    }
    return render(request, "venue/light_list.html", context)


def _shown(row: LightRow, system: Any) -> dict[str, Any]:
    reading = row.reading
    return {
        "reading": reading,
        "light": light_text(reading.lux, system),
        "distance": as_typed(reading.distance_m, reading.distance_text, system),
        "candela": candela_text(reading.candela),
        "lamp_h": "" if row.lamp_h is None else hours_text(row.lamp_h),
        "share": None if row.share is None else round(row.share * 100),
    }


@require_http_methods(["GET", "HEAD", "POST"])
def light_new(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Measure the unit's light; setting and distance are those of the last time until others are written."""
    house = house_to_write(request.user, slug)
    unit, actor, now = own_unit_in(house, ref), actor_of(request), timezone.now()
    unit.house = house
    before = _last(light_of(unit, now))
    usual = {"setting": before.setting, "distance": _distance(before, house.unit_system)} if before else {"setting": ""}
    form = LightForm(request.POST or None, unit=unit, now=now, by=actor.name, **usual)
    if is_saved(form, lambda: measure_light(actor=actor, unit=unit, **form.facts())):
        _tell_measured(request, unit, form.facts()["lux"])
        return redirect("venue:light_list", slug, ref)
    return render(request, "venue/light_form.html", {"form": form, "house": house, "unit": unit})


def _last(light: UnitLight) -> LightReading | None:
    return light.rows[-1].reading if light.rows else None


def _distance(reading: LightReading, system: str) -> str:
    return written_back(reading.distance_m, reading.distance_text, system)


def _tell_measured(request: HttpRequest, unit: Unit, lux: float) -> None:
    if READING_LX.judged(lux) == "unlikely":
        told = _("%(light)s is unusual for a follow spot: look at the meter and the distance once more.")
        messages.warning(request, told % {"light": light_text(lux, unit.house.unit_system)})
    else:
        messages.success(request, _("The reading is on file and in the log."))
