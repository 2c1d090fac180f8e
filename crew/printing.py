"""An issued sheet or a draft as PDF: what its print adds to the content."""

from collections.abc import Sequence
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext

from crew.core.call_sheet import CallSheet, read_sheet
from crew.models import Call, IssuedSheet, Person
from crew.sheet_content import Draft
from crew.sheets.call_sheet import Imprint, call_sheet_pdf
from crew.sheets.pen import Paper


def issued_pdf(sheet: IssuedSheet, *, paper: Paper, now: datetime, site: str, contacts: Sequence[str] = ()) -> bytes:
    """The issued sheet; `site` is where its code can be asked about, such as https://house.example."""
    content = read_sheet(sheet.content)
    return call_sheet_pdf(content, imprint_of(sheet, content, now=now, site=site), paper, contacts)


def contacts_of(call: Call) -> list[str]:
    """How to reach those on the call as it stands, a line each, for dispatch. One query."""
    lines = call.lines.standing().filter(person__isnull=False).select_related("person")
    people = {line.person.pk: line.person for line in lines if line.person is not None}
    return [_contact(person) for person in sorted(people.values(), key=lambda person: (person.name, person.pk))]


def _contact(person: Person) -> str:
    reached = " · ".join(filter(None, (person.phone, person.email)))
    return f"{person.name}: {reached or gettext('no way to reach them on file')}"


def imprint_of(sheet: IssuedSheet, content: CallSheet, *, now: datetime, site: str) -> Imprint:
    """What every paper drawn from the issued sheet carries: its revision and its code."""
    zone = ZoneInfo(content.zone)
    return Imprint(
        printed_at=now.astimezone(zone),
        revision=sheet.n,
        issued_at=sheet.issued_at.astimezone(zone),
        issued_by=sheet.issued_by,
        code=sheet.code.code,
        address=code_address(sheet.code.code, site),
    )


def draft_pdf(draft: Draft, *, paper: Paper, now: datetime) -> bytes:
    """What would be issued now, marked as a draft and without a code."""
    return call_sheet_pdf(draft.sheet, Imprint(printed_at=now.astimezone(ZoneInfo(draft.sheet.zone))), paper)


def code_address(code: str, site: str) -> str:
    """The absolute address that says whether the sheet is current."""
    return site.rstrip("/") + reverse("crew:code", args=[code])
