"""How long the lamps last: by what is booked, and beyond that by the usual use."""

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from shows.outlook import LampCount, outlooks_of, spare_needs
from shows.wording.outlook import lamp_lines, spare_line
from venue.access import house_for
from venue.models import LampTally

LAMPS_A_PAGE = 30


@require_safe
def outlook(request: HttpRequest, slug: str) -> HttpResponse:
    """The lamps with the fewest hours left first, and the spares to order."""
    house, _may_write = house_for(request.user, slug)
    now = timezone.now()
    fitted = LampTally.objects.filter(house=house, unit__isnull=False, unit__ended_at__isnull=True)
    least_first = fitted.select_related("lamp__kind", "unit").order_by("left_h", "unit__tag_key")
    page = Paginator(least_first, LAMPS_A_PAGE).get_page(request.GET.get("page"))
    found = outlooks_of(house, map(LampCount.of, page), now)
    tags = {tally.unit.pk: (tally.unit.tag, str(tally.unit.ref)) for tally in page if tally.unit is not None}
    lines = lamp_lines(house, [found[tally.lamp_id] for tally in page], tags)
    spares = [spare_line(need) for need in spare_needs(house, now)]
    context = {"house": house, "page": page, "lines": lines, "spares": spares}
    return render(request, "shows/outlook.html", context)
