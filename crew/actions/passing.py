"""Who is passed over on the roster's list, where it is strict, and why."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from crew.candidates import Offers, asked_of
from crew.core.filling.bars import has_stop
from crew.core.filling.ranking import passed_over
from crew.errors import PassesOver
from crew.models import Call, CallLine, PassedOver
from venue.history import Actor, record


@dataclass(frozen=True)
class Passing:
    """A line, and who comes earlier on the list than its person and could have come."""

    line: CallLine
    names: tuple[str, ...]
    keys: tuple[int, ...]


def passings(call: Call, lines: Iterable[CallLine]) -> list[Passing]:
    """Who is passed over by each line as the call stands now; nobody where the list is not strict."""
    if not call.roster.is_strict:
        return []
    offers = Offers(asked_of(call))
    return [found for line in lines if line.person_id is not None and (found := _passing(offers, line)).keys]


def _passing(offers: Offers, line: CallLine) -> Passing:
    wanted, on = offers.asked.wanted[line.number_key, line.seat], offers.asked.on_call
    can_come = [who.key for who, bars in offers.bars(wanted) if who.key not in on and not has_stop(bars)]
    keys = passed_over(line.person_id or 0, can_come, offers.roll)
    names = {who.key: who.name for who in offers.roll.people}
    return Passing(line, tuple(names[key] for key in keys), tuple(keys))


def keep_to_list(*, actor: Actor, call: Call, lines: Iterable[CallLine], at: datetime, reason: str) -> None:
    """Store who is passed over by the lines, which stand already, and why. Raises PassesOver without a reason."""
    found = passings(call, lines)
    if not found:
        return
    if not reason.strip():
        raise PassesOver(list(dict.fromkeys(name for passing in found for name in passing.names)))
    rows = [
        PassedOver(line=passing.line, person_id=key, reason=reason.strip(), at=at, by=actor.name)
        for passing in found
        for key in passing.keys
    ]
    PassedOver.objects.bulk_create(rows, batch_size=500)
    engagement = call.engagement
    for passing in found:
        told = {"line": str(passing.line), "count": len(passing.keys), "reason": reason.strip()}
        record(actor, "call.passed_over", call, house=engagement.house, show=engagement.name, **told)
