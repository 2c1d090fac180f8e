"""The calls of the next days at a glance: who is missing, whether the sheet is current, who has not seen what.

Made with the same number of queries however many calls there are, so it does not compare the numbering anew: what a
sheet says of places and units is only known to stand while no row was touched.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from django.conf import settings
from django.db.models import Count, OuterRef, Q, QuerySet, Subquery
from django.utils import timezone, translation

from crew.confirmations import confirmed_for, waiting
from crew.core.call_sheet import CallSheet, Change, SheetLine, changes, read_sheet
from crew.models import Call, CallLine, IssuedSheet, Message
from crew.outbox import latest_of_each, unseen
from crew.sheet_basis import bases_of
from crew.sheet_content import crew_of, on_line
from shows.models import ShowSpot

State = Literal["none-issued", "current", "changed-not-issued", "touched"]
OF_CALL = frozenset(
    {
        *(
            "house",
            "show",
            "event",
            "zone",
            "starts",
            "ends",
            "call",
            "place",
            "talk",
            "talk_place",
            "notes",
            "weather",
            "late_tell",
        ),
        *("called_off", "released", "meal", "caller", "at_spot_talk", "head", "spare", "runner", "own_call"),
    }
)
OF_LINES = frozenset({"own_call", "role", "operator", "added", "gone"})
"""Differences that the rows of calls and shows tell by themselves, of a call as a whole and of a show number."""


@dataclass(frozen=True)
class BoardCall:
    """A call with what is open on it. `changes` since the latest sheet are those of the crew and the times.

    `state` is "touched" where something else that the sheet reads was touched, and maybe changed. `waiting` counts who
    has not confirmed the latest revision, `unseen` are messages of what somebody lost or what changed for them.
    """

    call: Call
    filled: int
    wanted: int
    state: State
    latest: IssuedSheet | None = None
    changes: tuple[Change, ...] = ()
    waiting: int = 0
    unseen: tuple[Message, ...] = ()

    @property
    def to_fill(self) -> int:
        return 0 if self.call.has_ended else self.wanted - self.filled


def board_of(calls: QuerySet[Call]) -> list[BoardCall]:
    """The calls in their order. Nine queries, however many."""
    rows = list(calls.select_related("event", "engagement__house", "engagement__setup", "roster"))
    latest, lines, spots, bases = _latest(rows), _lines(rows), _spots(rows), bases_of(rows)
    held, unseen_on = confirmed_for(list(latest.values())), _unseen(rows)
    with translation.override(settings.LANGUAGE_CODE):  # as the sheets, against which they are held
        now = {call.pk: _sheet(call, lines[call.pk], spots[call.engagement_id]) for call in rows}
    found = [
        _board_call(call, now[call.pk], latest.get(call.pk), bases[call.pk], held.get(call.pk, {})) for call in rows
    ]
    return [replace(each, unseen=tuple(unseen_on[each.call.pk])) for each in found]


def _board_call(call: Call, now: CallSheet, latest: IssuedSheet | None, basis: str, held: dict) -> BoardCall:
    if latest is None:
        return BoardCall(call, now.filled, now.wanted, "none-issued")
    said = read_sheet(latest.content)
    late = len(waiting(said, held))
    if latest.basis == basis:
        return BoardCall(call, said.filled, said.wanted, "current", latest, waiting=late)
    found = tuple(change for change in changes(said, now) if _is_known(change))
    state: State = "changed-not-issued" if found else "touched"
    return BoardCall(call, now.filled, now.wanted, state, latest, found, late)


def _is_known(change: Change) -> bool:
    return change.what in (OF_LINES if change.number else OF_CALL)


def _latest(calls: Iterable[Call]) -> dict[int, IssuedSheet]:
    newest = IssuedSheet.objects.filter(call=OuterRef("call"), kind="call-sheet").order_by("-n").values("pk")[:1]
    found = IssuedSheet.objects.filter(call__in=[call.pk for call in calls], pk=Subquery(newest))
    return {sheet.call_id: sheet for sheet in found}


def _lines(calls: Iterable[Call]) -> Mapping[int, list[CallLine]]:
    rows = CallLine.objects.standing().filter(call__in=[call.pk for call in calls]).select_related("person")
    found: dict[int, list[CallLine]] = defaultdict(list)
    for line in rows.order_by("sort_key", "seat", "pk"):
        found[line.call_id].append(line)
    return found


def _unseen(calls: Iterable[Call]) -> Mapping[int, list[Message]]:
    """What was not seen, to each person the last message alone; of a call that is over nobody asks."""
    now = timezone.now()
    messages = Message.objects.filter(call__in=[call.pk for call in calls if call.ends_at > now])
    found: dict[int, list[Message]] = defaultdict(list)
    for message in latest_of_each(unseen(messages.select_related("person", "line__call"))):
        found[message.call_id].append(message)
    return found


def _spots(calls: Iterable[Call]) -> Mapping[int, list[ShowSpot]]:
    """The show numbers by engagement, each with the places that it is bound to counted: a team has several."""
    rows = ShowSpot.objects.standing().filter(engagement__in={call.engagement_id for call in calls})
    places = Count("spot_places", filter=Q(spot_places__ended_at__isnull=True))
    found: dict[int, list[ShowSpot]] = defaultdict(list)
    for spot in rows.annotate(places=places).order_by("sort_key", "pk"):
        found[spot.engagement_id].append(spot)
    return found


def _sheet(call: Call, standing: Sequence[CallLine], spots: Iterable[ShowSpot]) -> CallSheet:
    """The sheet as far as calls and shows tell it by themselves: no places, no units, no notice."""
    return CallSheet(**crew_of(call, standing), lines=tuple(_sheet_lines(call, standing, spots)))


def _sheet_lines(call: Call, standing: Iterable[CallLine], spots: Iterable[ShowSpot]) -> Iterator[SheetLine]:
    people = {(line.number_key, line.seat): line for line in standing if line.number_key}
    seats: dict[str, int] = defaultdict(int)
    for spot in spots:
        for _light in range(max(1, spot.places)):  # type: ignore[attr-defined]
            seats[spot.number_key] += 1
            seat = seats[spot.number_key]
            yield SheetLine(spot.number, seat, **on_line(people.pop((spot.number_key, seat), None), call.zone))
    yield from (SheetLine(line.number, line.seat, **on_line(line, call.zone)) for line in people.values())
