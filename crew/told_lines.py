"""What a person is told of a line: times of the call, and where the light is, as the latest sheet says.

Where no sheet is issued yet it is what one would say now. The queries stay as many however many lines of one show.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Exists, OuterRef

from crew.core.call_sheet import CallSheet, SheetLine, read_sheet
from crew.models import Call, CallLine, IssuedSheet
from crew.sheet_content import draft_of
from venue.core.labels import label_key


@dataclass(frozen=True)
class ToldLine:
    """A line with its light, if it has one; `issued` is the sheet that says so, None as long as nobody issued any."""

    line: CallLine
    sheet: CallSheet
    issued: IssuedSheet | None
    light: SheetLine | None

    @property
    def call(self) -> Call:
        return self.line.call

    @property
    def wall(self) -> datetime:
        """When this one is to come, by the clocks of the house."""
        return self.line.own_wall or self.call.call_wall

    @property
    def others(self) -> list[tuple[str, str]]:
        """Show number and name of who else is on the call, the number empty where none is known."""
        own = self.line.person.name if self.line.person else ""
        lines = [(light.number, light.operator) for light in self.sheet.lines]
        bare = [("", name) for name in (*self.sheet.at_spot_talk, *(hand.name for hand in self.sheet.hands))]
        return [(number, name) for number, name in (*lines, *bare) if name and name != own]


RELATED = ("person", "call__event", "call__engagement__house", "call__engagement__setup", "call__roster")
"""What the lines come with."""


def told_lines(lines: Iterable[CallLine]) -> list[ToldLine]:
    """Each line as its person is told of it, in the order given."""
    rows = list(lines)
    issued = latest_sheets({line.call_id for line in rows})
    read = {key: read_sheet(sheet.content) for key, sheet in issued.items()}
    drafts = _drafts([line.call for line in rows if line.call_id not in issued])
    return [_told(line, read.get(line.call_id) or drafts[line.call.engagement_id], issued) for line in rows]


def told_line(line: CallLine) -> ToldLine:
    """One line, as `told_lines`; of one that is not stored, what is known of its call."""
    return told_lines([CallLine.objects.select_related(*RELATED).get(pk=line.pk) if line.pk else line])[0]


def latest_sheets(calls: Iterable[int]) -> dict[int, IssuedSheet]:
    """The latest issued sheet by the key of its call. One query."""
    newer = IssuedSheet.objects.filter(call=OuterRef("call"), kind=OuterRef("kind"), n__gt=OuterRef("n"))
    rows = IssuedSheet.objects.filter(call__in=list(calls), kind="call-sheet").exclude(Exists(newer))
    return {sheet.call_id: sheet for sheet in rows}


def _drafts(calls: Sequence[Call]) -> dict[int, CallSheet]:
    """What a sheet would say of the lights, by the key of the show: of one call a show, for all of its calls."""
    return {key: draft_of(call).sheet for key, call in {call.engagement_id: call for call in reversed(calls)}.items()}


def _told(line: CallLine, sheet: CallSheet, issued: dict[int, IssuedSheet]) -> ToldLine:
    return ToldLine(line, sheet, issued.get(line.call_id), _light(line, sheet))


def _light(line: CallLine, sheet: CallSheet) -> SheetLine | None:
    if not line.number_key:
        return None
    key = (line.number_key, line.seat)
    return next((light for light in sheet.lines if (label_key(light.number), light.seat) == key), None)
