"""Who is passed over on the roster's list, where it is strict, and why."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from crew.candidates import Offers, asked_of
from crew.core.filling.bars import has_stop
from crew.core.filling.ranking import passed_over
from crew.core.filling.records import Bar
from crew.line_errors import PassesOver
from crew.models import Call, CallLine, PassedOver, Person
from venue.history import Actor, record


@dataclass(frozen=True)
class Passing:
    """A line, and who comes earlier on the list than its person and could have come."""

    line: CallLine
    names: tuple[str, ...]
    keys: tuple[int, ...]


def _passing(offers: Offers, line: CallLine, chosen: int, besides: Collection[int] = ()) -> Passing:
    """Who is passed over by the person chosen for the line, but for those besides."""
    wanted, off = offers.asked.wanted[line.number_key, line.seat], {*offers.asked.on_call, *besides}
    can_come = [who.key for who, bars in offers.bars(wanted) if who.key not in off and not _is_out(bars)]
    keys = passed_over(chosen, can_come, offers.roll)
    names = {who.key: who.name for who in offers.roll.people}
    return Passing(line, tuple(names[key] for key in keys), tuple(keys))


def _is_out(bars: Sequence[Bar]) -> bool:
    """Whether somebody can't come, or said no to the call: neither is passed over."""
    return has_stop(bars) or any(bar.code == "declined" for bar in bars)


def keep_to_list(*, actor: Actor, call: Call, lines: Iterable[CallLine], at: datetime, reason: str) -> None:
    """Where the list is strict, store who is passed over by the lines, which stand already, and why.

    Raises PassesOver without a reason.
    """
    if not call.roster.is_strict:
        return
    offers = Offers(asked_of(call))
    passed = [_passing(offers, line, line.person_id) for line in lines if line.person_id is not None]
    _keep(actor, call, passed, at, reason)


def keep_to_list_asking(*, actor: Actor, line: CallLine, people: Sequence[Person], at: datetime, reason: str) -> None:
    """Where the list is strict, store who is passed over by asking the people for the line; their offers stand already.

    Passed over is who comes on the list before the last of them, can come, is on no line of the call and was never
    asked for this one; each once for the line. Raises PassesOver without a reason.
    """
    if not line.call.roster.is_strict:
        return
    offers = Offers(asked_of(line.call))
    last = max((person.pk for person in people), key=offers.roll.listed.__getitem__)
    asked, kept = (rows.values_list("person", flat=True) for rows in (line.offers, line.passed_over))
    _keep(actor, line.call, [_passing(offers, line, last, {*asked, *kept})], at, reason)


def _keep(actor: Actor, call: Call, passed: Iterable[Passing], at: datetime, reason: str) -> None:
    found = [passing for passing in passed if passing.keys]
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
