"""Who on a call has confirmed what its latest issued sheet says of them."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from crew.core.call_sheet import CallSheet, read_sheet
from crew.core.confirming import Confirmed, Key, still_confirmed
from crew.models import Call, IssuedSheet, LineConfirmation


def confirmed_on(call: Call, latest: IssuedSheet) -> dict[Key, Confirmed]:
    """The lines of the latest revision that somebody confirmed, by number and seat. Two queries."""
    return confirmed_for([latest])[call.pk]


def confirmed_for(latest: Sequence[IssuedSheet]) -> dict[int, dict[Key, Confirmed]]:
    """The same of several calls by their latest sheets, by the call's primary key. Two queries, however many."""
    given = _given(latest)
    used = {row.sheet_id for rows in given.values() for row in rows}
    sheets = {each.pk: each for each in IssuedSheet.objects.filter(pk__in=used)}
    return {each.call_id: _held(each, given[each.call_id], sheets) for each in latest}


def _given(latest: Iterable[IssuedSheet]) -> dict[int, list[LineConfirmation]]:
    """What was confirmed of each call's lines that stand, the oldest first."""
    newest = {(each.call_id, each.kind): each.n for each in latest}
    rows = LineConfirmation.objects.filter(line__call__in={call for call, _kind in newest}, line__ended_at__isnull=True)
    found: dict[int, list[LineConfirmation]] = defaultdict(list)
    for row in rows.select_related("line", "sheet").defer("sheet__content").order_by("at", "pk"):
        if row.sheet.n <= newest.get((row.line.call_id, row.sheet.kind), 0):
            found[row.line.call_id].append(row)
    return found


def _held(
    latest: IssuedSheet, rows: Iterable[LineConfirmation], sheets: dict[int, IssuedSheet]
) -> dict[Key, Confirmed]:
    given = [((row.line.number, row.line.seat), sheets[row.sheet_id].n, row.by) for row in rows]
    used = {row.sheet_id for row in rows}
    read = {sheets[key].n: read_sheet(sheets[key].content) for key in used}
    read[latest.n] = read_sheet(latest.content)
    return still_confirmed(read, [(key, Confirmed(n, by)) for key, n, by in given], latest.n)


def waiting(sheet: CallSheet, confirmed: dict[Key, Confirmed]) -> list[Key]:
    """The lines with somebody on them that nobody confirmed, in the sheet's order."""
    return [line.key for line in sheet.lines if line.operator and line.key not in confirmed]
