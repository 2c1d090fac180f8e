"""Files as answers; none is kept on the way."""

from collections.abc import Iterable

from django.http import HttpResponse, StreamingHttpResponse

from crew.calendar_file import MEDIA_TYPE


def pdf_response(content: bytes, name: str) -> HttpResponse:
    """The PDF, to be looked at."""
    return HttpResponse(content, content_type="application/pdf", headers=_headers("inline", f"{name}.pdf"))


def csv_response(lines: Iterable[str], name: str) -> StreamingHttpResponse:
    """The lines as a file to keep, sent as they come."""
    headers = _headers("attachment", f"{name}.csv")
    return StreamingHttpResponse(lines, content_type="text/csv; charset=utf-8", headers=headers)


def calendar_response(content: bytes, name: str) -> HttpResponse:
    """The calendar as a file, for a calendar program to take in."""
    return HttpResponse(content, content_type=MEDIA_TYPE, headers=_headers("attachment", f"{name}.ics"))


def _headers(how: str, name: str) -> dict[str, str]:
    return {"Content-Disposition": f'{how}; filename="{name}"', "Cache-Control": "private, no-store"}
