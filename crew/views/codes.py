"""What anybody may ask with the code of a printed sheet."""

from datetime import datetime

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from crew.labels import address_behind, is_label
from crew.sheet_standing import standing_of
from crew.wording.standing import standing_sentence, standing_word
from venue.access import printed_code
from venue.actions.labels import LabelPurpose
from venue.models import PrintedCode
from venue.views.asking import asked_too_often, unlisted


@login_not_required
@require_safe
def code(request: HttpRequest, text: str) -> HttpResponse:
    """Whether the sheet with the code is current, changed since or replaced; nothing else, to nobody in particular.

    The code of a label leads whoever has signed in, and belongs to its house, to the unit.
    """
    now = timezone.now()
    too_often = asked_too_often(request, now, "codes")
    if too_often is not None:
        return too_often
    found = printed_code(text)
    if is_label(found):
        return unlisted(_of_label(request, found, now))
    standing = standing_of(found)
    if standing is None:
        raise Http404
    context = {"state": standing.state, "word": standing_word(standing), "sentence": standing_sentence(standing)}
    return unlisted(render(request, "crew/code.html", context))


def _of_label(request: HttpRequest, found: PrintedCode, now: datetime) -> HttpResponse:
    if request.user.is_authenticated:
        return redirect(address_behind(found, request.user, now))
    return render(request, "crew/code_label.html", {"is_unit": found.purpose == LabelPurpose.UNIT})
