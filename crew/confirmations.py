"""Who on a call has confirmed what its latest issued sheet says of them."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from crew.core.call_sheet import CallSheet, read_sheet
from crew.core.confirming import Confirmed, Key, Named, keys_of, still_confirmed
from crew.models import Call, CallLine, IssuedSheet, LineConfirmation


def confirmed_on(call: Call, latest: IssuedSheet) -> dict[Key, Confirmed]:
    """Who of the latest revision has confirmed it, by number and seat, or by name. Two queries."""
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
    for row in rows.select_related("line__person", "sheet").defer("sheet__content").order_by("at", "pk"):
        if row.sheet.n <= newest.get((row.line.call_id, row.sheet.kind), 0):
            found[row.line.call_id].append(row)
    return found


def _held(
    latest: IssuedSheet, rows: Iterable[LineConfirmation], sheets: dict[int, IssuedSheet]
) -> dict[Key, Confirmed]:
    given = [(key_of(row.line), Confirmed(sheets[row.sheet_id].n, row.by, row.line_id)) for row in rows]
    used = {row.sheet_id for row in rows}
    read = {sheets[key].n: read_sheet(sheets[key].content) for key in used}
    read[latest.n] = read_sheet(latest.content)
    return still_confirmed(read, given, latest.n)


def key_of(line: CallLine) -> Key:
    """The line as its sheet knows it; of one without a number the person is read."""
    if line.number_key:
        return line.number, line.seat
    return Named(line.person.name if line.person else "")


def waiting(sheet: CallSheet, confirmed: dict[Key, Confirmed]) -> list[Key]:
    """Everybody on the sheet who has not confirmed it, in its order; two of one name are there twice."""
    return [key for key in keys_of(sheet) if key not in confirmed]


def lines_by_key(call: Call) -> dict[Key, list[CallLine]]:
    """The lines as they stand, each with its person; of one name there may be several. One query."""
    found: dict[Key, list[CallLine]] = defaultdict(list)
    lines = call.lines.standing().filter(person__isnull=False).select_related("person")
    for line in lines.order_by("sort_key", "seat", "pk"):
        found[key_of(line)].append(line)
    return found
