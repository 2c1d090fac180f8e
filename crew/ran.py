"""Who has been on which number of a show before: whoever ran it last stands first for it."""

from collections import defaultdict
from collections.abc import Mapping
from datetime import datetime

from django.db.models import Q

from crew.core.filling.records import Ran
from crew.line_needs import Seat
from crew.models import Call, CallLine
from crew.models.day import Absence
from shows.models import Engagement

LOOKED_BACK = 300
"""The latest calls of a show that tell who has run what."""
MOST_COPIES = 50
"""So many visits back a show is followed."""
NOTHING_RUN = Ran()


def ran_before(call: Call, before: datetime) -> dict[int, Ran]:
    """Who has been on which number of the show, wherever it played. Three queries.

    Lines of other rosters count for nobody here: their people are others.
    """
    visits = _visits(call.engagement)
    calls = Call.objects.standing().filter(engagement__in=visits, call_at__lt=before).exclude(pk=call.pk)
    times = dict(calls.order_by("-call_at")[:LOOKED_BACK].values_list("pk", "call_at"))
    lines = CallLine.objects.standing().filter(call__in=list(times), person__isnull=False).order_by()
    lines = lines.exclude(attendance__absence=Absence.NO_SHOW)
    seats: dict[int, dict[Seat, list[datetime]]] = defaultdict(lambda: defaultdict(list))
    for person, number, seat, on in lines.values_list("person_id", "number_key", "seat", "call_id"):
        seats[person][number, seat].append(times[on])
    return {person: _run(by_seat) for person, by_seat in seats.items()}


def _visits(engagement: Engagement) -> set[int]:
    """The same show: visits of its name, and those from which this one was copied, whatever their names. One query."""
    rows = Engagement.objects.filter(Q(name=engagement.name) | Q(earlier__isnull=False)).order_by()
    known = {key: (name, earlier) for key, name, earlier in rows.values_list("pk", "name", "earlier_id")}
    visits = {key for key, (name, _earlier) in known.items() if name == engagement.name}
    at = engagement.earlier_id
    for _step in range(MOST_COPIES):
        if at is None:
            break
        visits.add(at)
        _name, at = known.get(at, ("", None))
    return visits


def _run(by_seat: Mapping[Seat, list[datetime]]) -> Ran:
    numbered = {seat: starts for seat, starts in by_seat.items() if seat[0]}
    return Ran(
        calls=sum(map(len, by_seat.values())),
        on_seat={seat: len(starts) for seat, starts in numbered.items()},
        last_on_seat={seat: max(starts) for seat, starts in numbered.items()},
    )
