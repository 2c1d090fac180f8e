"""Confirming what a sheet says of one line."""

from datetime import datetime

from django.db import transaction

from crew.errors import NotTheLatest
from crew.models import CallLine, IssuedSheet, LineConfirmation
from crew.sheet_content import latest_sheet
from venue.history import Actor, record
from venue.storing import store


@transaction.atomic
def confirm_line(*, actor: Actor, line: CallLine, sheet: IssuedSheet, by: str, at: datetime) -> LineConfirmation:
    """The person on the line has seen the sheet and agrees. Twice is once.

    Raises NotTheLatest where a newer revision was issued meanwhile.
    """
    latest = latest_sheet(sheet.call)
    if latest is None or latest.pk != sheet.pk:
        raise NotTheLatest(latest.n if latest else sheet.n)
    before = LineConfirmation.objects.filter(line=line, sheet=sheet).first()
    if before is not None:
        return before
    made = store(LineConfirmation(line=line, sheet=sheet, by=by.strip() or actor.name, at=at))
    call = sheet.call
    facts = {"show": call.engagement.name, "line": str(line), "n": sheet.n, "by": made.by}
    record(actor, "line.confirmed", call, house=call.engagement.house, **facts)
    return made
