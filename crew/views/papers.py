"""A call's other papers, drawn from one issued revision of its sheet: on the phone and as PDF."""

from collections.abc import Callable
from functools import partial
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from crew.access import sheet_for
from crew.core.call_sheet import CallSheet, SheetLine, read_sheet
from crew.core.cards import frames_of, line_at
from crew.core.chart import chart_of
from crew.models import IssuedSheet
from crew.moments import moment
from crew.printing import imprint_of
from crew.sheet_standing import standing_of_sheet
from crew.sheets.call_sheet import Imprint
from crew.sheets.cards import cards_pdf as drawn_cards
from crew.sheets.chart import chart_pdf as drawn_chart
from crew.sheets.frame_list import frames_pdf as drawn_frames
from crew.sheets.pen import HALF, PAPERS, Paper
from crew.sheets.tapes import tapes_pdf as drawn_tapes
from crew.views.answering import pdf_response
from crew.wording import papers as words
from crew.wording import sheet as sheet_words
from crew.wording.standing import standing_sentence

CARD_PAPERS = {**PAPERS, HALF.name: HALF}


@require_safe
def cards(request: HttpRequest, ref: UUID, n: int) -> HttpResponse:
    """The operators of the sheet, each with the way to the own card."""
    issued = sheet_for(request.user, ref, n, timezone.now())
    sheet = read_sheet(issued.content)
    lights = [(at, line, sheet_words.operator(line.operator, sheet)) for at, line in enumerate(sheet.lines, start=1)]
    return render(request, "crew/cards.html", {**_on_page(issued, sheet), "lights": lights})


@require_safe
def card(request: HttpRequest, ref: UUID, n: int, at: int) -> HttpResponse:
    """One light's card for the phone: what counts on one screen, the rest below."""
    issued = sheet_for(request.user, ref, n, timezone.now())
    sheet = read_sheet(issued.content)
    line = _line_at(sheet, at)
    context = {
        "at": at,
        "line": line,
        "operator": sheet_words.operator(line.operator, sheet),
        "where": words.where(line),
        "beside": words.beside_line(line),
        "times": sheet_words.times(sheet),
        "called_off": sheet_words.called_off(sheet),
        "own_call": sheet_words.own_call(line.own_call, sheet),
        "needs": sheet_words.needs(line),
        "late_tell": sheet_words.late_tell(sheet.late_tell),
        "facts": words.facts(line, sheet),
        "cautions": words.cautions(line),
        "frames": [(frame.number, words.frame_words(frame)) for frame in frames_of(line, sheet)],
        "counting": words.counting(line, sheet),
    }
    return render(request, "crew/card.html", {**_on_page(issued, sheet), **context})


@require_safe
def cards_pdf(request: HttpRequest, ref: UUID, n: int, paper: str) -> HttpResponse:
    """The cards of all lights, or of the one that `?light=` names, a page each."""
    wanted = request.GET.get("light", "")

    def draw(sheet: CallSheet, imprint: Imprint, size: Paper) -> bytes:
        lines = [_line_at(sheet, _number(wanted))] if wanted else sheet.lines
        return drawn_cards(sheet, lines, imprint, size)

    return _printed(request, ref, n, "cards", _paper(paper, CARD_PAPERS), draw)


@require_safe
def frames(request: HttpRequest, ref: UUID, n: int) -> HttpResponse:
    """Which color goes into which frame, light by light."""
    issued = sheet_for(request.user, ref, n, timezone.now())
    sheet = read_sheet(issued.content)
    lights = [
        (
            words.light_title(line),
            words.counting(line, sheet),
            [(frame.number, words.frame_words(frame)) for frame in frames_of(line, sheet)],
        )
        for line in sheet.lines
    ]
    return render(
        request, "crew/frames.html", {**_on_page(issued, sheet), "lights": lights, "nothing": words.no_frames()}
    )


@require_safe
def frames_pdf(request: HttpRequest, ref: UUID, n: int, paper: str) -> HttpResponse:
    """The frame loading list, to be ticked."""
    return _printed(request, ref, n, "frames", _paper(paper, PAPERS), drawn_frames)


@require_safe
def tapes(request: HttpRequest, ref: UUID, n: int) -> HttpResponse:
    """What goes on the tape of each light, to be written by hand where no printer is near."""
    issued = sheet_for(request.user, ref, n, timezone.now())
    sheet = read_sheet(issued.content)
    lights = [(line, words.on_tape(line)) for line in sheet.lines]
    return render(request, "crew/tapes.html", {**_on_page(issued, sheet), "lights": lights})


@require_safe
def tapes_pdf(request: HttpRequest, ref: UUID, n: int, paper: str) -> HttpResponse:
    """A tape for each light, to be cut out."""
    return _printed(request, ref, n, "tapes", _paper(paper, PAPERS), drawn_tapes)


@require_safe
def chart(request: HttpRequest, ref: UUID, n: int) -> HttpResponse:
    """The lights where they stand, as the caller sees them; with `?turned=yes` from the stage."""
    issued = sheet_for(request.user, ref, n, timezone.now())
    sheet, is_turned = read_sheet(issued.content), _is_turned(request)
    shown = chart_of(sheet).turned if is_turned else chart_of(sheet)
    context = {
        "chart": shown,
        "nobody": sheet_words.operator("", sheet),
        "view": words.view(is_turned),
        "corners": words.corners(is_turned),
        "above": [(band, words.band_notes(band)) for band in shown.above],
        "below": [(band, words.band_notes(band)) for band in shown.below],
    }
    return render(request, "crew/chart.html", {**_on_page(issued, sheet), **context})


@require_safe
def chart_pdf(request: HttpRequest, ref: UUID, n: int, paper: str) -> HttpResponse:
    """The chart on paper; with `?turned=yes` from the stage."""
    draw = partial(drawn_chart, is_turned=_is_turned(request))
    return _printed(request, ref, n, "chart", _paper(paper, PAPERS), draw)


def _is_turned(request: HttpRequest) -> bool:
    return request.GET.get("turned") == "yes"


def _number(text: str) -> int:
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 7 else 0


def _line_at(sheet: CallSheet, at: int) -> SheetLine:
    line = line_at(sheet, at)
    if line is None:
        raise Http404
    return line


def _paper(name: str, papers: dict[str, Paper]) -> Paper:
    if name not in papers:
        raise Http404
    return papers[name]


def _printed(
    request: HttpRequest,
    ref: UUID,
    n: int,
    name: str,
    paper: Paper,
    draw: Callable[[CallSheet, Imprint, Paper], bytes],
) -> HttpResponse:
    """The issued revision, drawn as a paper."""
    now = timezone.now()
    issued = sheet_for(request.user, ref, n, now)
    sheet = read_sheet(issued.content)
    imprint = imprint_of(issued, sheet, now=now, site=request.build_absolute_uri("/"))
    show = slugify(issued.call.engagement.name) or "call"
    return pdf_response(draw(sheet, imprint, paper), f"{show}-{name}-{n}")


def _on_page(issued: IssuedSheet, sheet: CallSheet) -> dict[str, Any]:
    """What every page of papers says: the sheet, its revision and code, and whether it is still the one to go by."""
    standing = standing_of_sheet(issued)
    return {
        "issued": issued,
        "sheet": sheet,
        "issued_at": moment(issued.issued_at.astimezone(ZoneInfo(sheet.zone))),
        "code": sheet_words.code_in_groups(issued.code.code),
        "day": sheet_words.day(sheet.starts),
        "clocks": sheet_words.clocks(sheet),
        "standing": standing,
        "standing_sentence": standing_sentence(standing),
        "caution": sheet_words.caution(),
    }
