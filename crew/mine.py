"""What somebody on a roster sees on the own page: what is new for them, what is asked, the calls to come.

As many queries however many calls of one show.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import QuerySet

from crew.actions.offer_ends import ASKED, open_offers
from crew.core.call_sheet import read_sheet
from crew.core.telling import concerned
from crew.models import CallLine, LineConfirmation, Message, Offer, Person
from crew.models.offers import MessageKind
from crew.outbox import latest_of_each, unseen
from crew.told_lines import RELATED, ToldLine, told_lines
from crew.wording.messages import released_words
from venue.core.labels import label_key

MOST = 60
"""Calls and questions shown; nobody has more to come that are known."""


@dataclass(frozen=True)
class Coming:
    """A call to come. `to_see` is the revision that the person has not said to have seen, 0 for none."""

    told: ToldLine
    to_see: int


@dataclass(frozen=True)
class Released:
    """A line that the person had: who has it now, when that was, why."""

    line: CallLine
    words: str


@dataclass(frozen=True)
class News:
    """What the person has not said to have seen: a line lost, else the line as it is now."""

    message: Message
    about: Released | ToldLine


@dataclass(frozen=True)
class Mine:
    """All of the page. `until` is the last message that `news` tell of; lines in `released` are known to be lost."""

    news: Sequence[News]
    until: Message | None
    offers: Sequence[tuple[Offer, ToldLine]]
    coming: Sequence[Coming]
    released: Sequence[Released]


def mine_of(person: Person, now: datetime) -> Mine:
    """All of it, of calls that are not over."""
    offers = list(offers_to(person, now)[:MOST])
    lines = list(coming_of(person, now).order_by("starts_at", "pk")[:MOST])
    gone = _gone(person, now, {line.call_id for line in lines})
    wanted = {line.pk: line for line in _lines([offer.line_id for offer in offers])}
    told = told_lines([*lines, *(wanted[offer.line_id] for offer in offers)])
    coming, asked = told[: len(lines)], told[len(lines) :]
    unread = _unread(person, now)
    news = _news(unread, gone, coming)
    known = [each for each in gone if each.line.call_id not in {new.message.call_id for new in news}]
    until = unread[-1] if news else None
    return Mine(news, until, list(zip(offers, asked, strict=True)), _with_unseen(coming), known)


def _unread(person: Person, now: datetime) -> list[Message]:
    """What the person has not said to have seen, the oldest first. One query."""
    return list(unseen(Message.objects.filter(person=person, call__ends_at__gt=now)))


def _news(unread: Sequence[Message], gone: Sequence[Released], coming: Sequence[ToldLine]) -> list[News]:
    lost = {each.line.call_id: each for each in gone}
    now = {each.line.call_id: each for each in coming}
    found = [
        (each, lost.get(each.call_id) if each.kind == MessageKind.RELEASED else now.get(each.call_id))
        for each in latest_of_each(unread)
    ]
    return [News(message, about) for message, about in found if about is not None]


def offers_to(person: Person, now: datetime) -> QuerySet[Offer]:
    """The questions to the person that are open, whose turn has come."""
    rows = open_offers().filter(ASKED, person=person, line__call__ends_at__gt=now)
    return rows.order_by("line__starts_at", "pk")


def coming_of(person: Person, now: datetime) -> QuerySet[CallLine]:
    """The person's lines of calls that are not over, also of those that were called off."""
    rows = CallLine.objects.standing().filter(person=person, call__ends_at__gt=now)
    return rows.select_related(*RELATED)


def _lines(keys: Iterable[int]) -> Iterable[CallLine]:
    return CallLine.objects.filter(pk__in=list(keys)).select_related(*RELATED)


def _gone(person: Person, now: datetime, on_calls: set[int]) -> list[Released]:
    """Lines that the person had on calls to come which they are on no more; of each call the last."""
    ended = CallLine.objects.filter(person=person, ended_at__isnull=False, call__ends_at__gt=now)
    ended = ended.filter(call__ended_at__isnull=True).exclude(call__in=on_calls).select_related(*RELATED)
    last = {line.call_id: line for line in ended.order_by("ended_at", "pk")[:MOST]}
    standing = list(CallLine.objects.standing().filter(call__in=last).select_related("person"))
    return [Released(line, released_words(line, standing)) for line in last.values()]


def _with_unseen(told: Sequence[ToldLine]) -> list[Coming]:
    confirmed: dict[int, list[LineConfirmation]] = {}
    rows = LineConfirmation.objects.filter(line__in=[each.line.pk for each in told]).select_related("sheet")
    for row in rows.order_by("at", "pk"):
        confirmed.setdefault(row.line_id, []).append(row)
    return [Coming(each, _to_see(each, confirmed)) for each in told]


def _to_see(told: ToldLine, confirmed: Mapping[int, Sequence[LineConfirmation]]) -> int:
    """The revision that is to be looked at; 0 where an earlier one was seen that says the same of the line."""
    if told.issued is None or told.call.has_ended:
        return 0
    seen = confirmed.get(told.line.pk, ())
    if any(row.sheet_id == told.issued.pk for row in seen):
        return 0
    return 0 if seen and not _concerns(told, seen[-1]) else told.issued.n


def _concerns(told: ToldLine, row: LineConfirmation) -> bool:
    whom = concerned(read_sheet(row.sheet.content), told.sheet)
    if not told.line.number_key:
        return told.line.person is not None and told.line.person.name in whom.names
    own = (told.line.number_key, told.line.seat)
    return any((label_key(number), seat) == own for number, seat in whom.keys)
