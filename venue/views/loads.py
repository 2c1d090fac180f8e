"""Supply and load: what the units draw and weigh where they stand, against what is recorded."""

from datetime import date, datetime, time
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from venue.access import house_for
from venue.core.local_time import house_day_starts
from venue.forms.loads import LoadDayForm
from venue.gaps import Gap, place_gap, position_gap
from venue.load_book import Stand, circuit_sums, circuits_at, position_sums, positions_at, stands_of
from venue.models import House
from venue.wording_loads import circuit_row, lead_words, position_row, stand_words

FIRST_DAY, LAST_DAY = date(1900, 1, 1), date(9998, 12, 31)
NOON = time(12)


@require_safe
def load_list(request: HttpRequest, slug: str) -> HttpResponse:
    """Amperes on every circuit and kilograms on every position, now or at noon of a day."""
    house, may_write = house_for(request.user, slug)
    form = LoadDayForm(request.GET if "on" in request.GET else None)
    day = _day_asked(form)
    at = timezone.now() if day is None else house_day_starts(day, house.time_zone, NOON)
    context = {"house": house, "may_write": may_write, "form": form, "day": day, **_loads(house, at)}
    return render(request, "venue/load_list.html", context)


def _day_asked(form: LoadDayForm) -> date | None:
    """The day asked for, within what calendars bear; None: now."""
    day = form.cleaned_data["on"] if form.is_valid() else None
    return None if day is None else min(max(day, FIRST_DAY), LAST_DAY)


def _loads(house: House, at: datetime) -> dict[str, Any]:
    stands = stands_of(house, at)
    circuits = circuit_sums(stands, circuits_at(house, at))
    positions = position_sums(stands, positions_at(house, stands, at))
    limited = [each for each in positions if each.sum.limit is not None]
    return {
        "lead": lead_words([*(each.sum for each in circuits), *(each.sum for each in limited)]),
        "circuits": [circuit_row(each) for each in circuits],
        "positions": [position_row(each) for each in limited],
        "unlimited": [position_gap(str(each.position), each.position) for each in positions if each.sum.limit is None],
        "off_circuit": _off_circuit(stands, {each.circuit.pk for each in circuits}),
    }


def _off_circuit(stands: list[Stand], circuits: set[int]) -> list[Gap]:
    """The places on none of the circuits, each with the unit that stands there."""
    return [place_gap(stand_words(each), each.place) for each in stands if each.place.circuit_id not in circuits]
