"""Labels of units and places, to be printed and cut out."""

from typing import Any

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from crew.forms.labels import LabelsForm, subjects_of
from crew.labels import printed_labels
from crew.sheets.pen import PAPERS
from crew.views.answering import pdf_response
from venue.access import house_to_write
from venue.actions.labels import LabelPurpose, make_label_codes
from venue.views.saving import actor_of

LABELS_A_PAGE = 100


@require_http_methods(["GET", "HEAD", "POST"])
def labels(request: HttpRequest, slug: str) -> HttpResponse:
    """Choose labels; sent, it answers with the sheet of them, and makes the codes that are missing."""
    house = house_to_write(request.user, slug)
    purpose = _purpose(request)
    rows = subjects_of(house, purpose)
    page = Paginator(rows, LABELS_A_PAGE).get_page(request.GET.get("page"))
    form = LabelsForm(request.POST or None, house=house, rows=rows, shown=list(page))
    if form.is_bound and form.is_valid():
        subjects = form.subjects()
        codes = make_label_codes(actor=actor_of(request), house=house, purpose=purpose, subjects=subjects)
        site, paper = request.build_absolute_uri("/"), PAPERS[form.cleaned_data["paper"]]
        kind = _("follow spot") if purpose == LabelPurpose.UNIT else _("place")
        content = printed_labels(house, purpose, subjects, codes, kind=kind, site=site, paper=paper)
        return pdf_response(content, f"{slug}-{purpose}s")
    context: dict[str, Any] = {"house": house, "form": form, "page": page, "purpose": purpose}
    return render(request, "crew/labels.html", {**context, "query": f"what={purpose}&", "purposes": LabelPurpose})


def _purpose(request: HttpRequest) -> LabelPurpose:
    wanted = request.GET.get("what", "")
    return LabelPurpose(wanted) if wanted in LabelPurpose.values else LabelPurpose.UNIT
