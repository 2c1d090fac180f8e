"""Inventory, hours and log leave the house, as CSV or on paper."""

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from crew.forms.out import OutForm
from crew.out import TooLongForPaper, list_named, printed_list
from crew.sheets.pen import PAPERS
from crew.views.answering import csv_response, pdf_response
from venue.access import house_for
from venue.models import House
from venue.out.table import csv_lines


@require_safe
def out(request: HttpRequest, slug: str) -> HttpResponse:
    """Choose a list and its form."""
    house, _may_write = house_for(request.user, slug)
    return _page(request, house, OutForm(house=house, now=timezone.now()))


@require_safe
def out_file(request: HttpRequest, slug: str) -> HttpResponseBase:
    """The list as a file; the page again where the choice was wrong."""
    house, _may_write = house_for(request.user, slug)
    now = timezone.now()
    form = OutForm(request.GET, house=house, now=now)
    if not form.is_valid():
        return _page(request, house, form)
    chosen = form.cleaned_data
    table = list_named(chosen["what"], house, now, chosen["first"], chosen["last"])
    name = f"{slug}-{table.name}"
    if chosen["form"] == "csv":
        return csv_response(csv_lines(table), name)
    try:
        return pdf_response(printed_list(table, house, now, PAPERS[chosen["form"]]), name)
    except TooLongForPaper as refusal:
        form.refuse(refusal)
        return _page(request, house, form)


def _page(request: HttpRequest, house: House, form: OutForm) -> HttpResponse:
    return render(request, "crew/out.html", {"house": house, "form": form})
