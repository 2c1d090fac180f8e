"""Who on a call has confirmed what its latest issued sheet says of them."""

from crew.core.call_sheet import CallSheet, read_sheet
from crew.core.confirming import Confirmed, Key, still_confirmed
from crew.models import Call, IssuedSheet, LineConfirmation


def confirmed_on(call: Call, latest: IssuedSheet) -> dict[Key, Confirmed]:
    """The lines of the latest revision that somebody confirmed, by number and seat. Two queries."""
    rows = LineConfirmation.objects.filter(line__call=call, sheet__kind=latest.kind, line__ended_at__isnull=True)
    rows = rows.filter(sheet__n__lte=latest.n).select_related("line").order_by("at", "pk")
    given = [((row.line.number, row.line.seat), row.sheet_id, row.by) for row in rows]
    sheets = {each.pk: each for each in IssuedSheet.objects.filter(pk__in={key for _, key, _ in given})}
    read = {each.n: read_sheet(each.content) for each in sheets.values()} | {latest.n: read_sheet(latest.content)}
    return still_confirmed(read, [(key, Confirmed(sheets[sheet].n, by)) for key, sheet, by in given], latest.n)


def waiting(sheet: CallSheet, confirmed: dict[Key, Confirmed]) -> list[Key]:
    """The lines with somebody on them that nobody confirmed, in the sheet's order."""
    return [line.key for line in sheet.lines if line.operator and line.key not in confirmed]
