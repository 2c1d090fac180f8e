"""How a question to somebody ends, and who is asked next. The call of the line is locked by whoever comes here.

Somebody whose turn has not come has an offer, and no message with the question yet.
"""

from collections.abc import Iterable
from datetime import datetime

from django.db.models import Exists, OuterRef, Q, QuerySet
from django.utils import timezone

from crew.actions.outbox import drop_untold, tell, untold_of
from crew.models import Call, CallLine, Message, Offer
from crew.models.offers import Answer, MessageKind

ASKED = Exists(Message.objects.filter(offer=OuterRef("pk"), kind=MessageKind.OFFER))
TOLD_OF_IT = frozenset({Answer.FILLED, Answer.WITHDRAWN})
"""Ends that the person did not bring about, and hears of."""


def open_offers() -> QuerySet[Offer]:
    """Those without an answer, each with `is_asked`: the person's turn has come. With what a message needs."""
    rows = Offer.objects.filter(answer="").annotate(is_asked=ASKED)
    return rows.select_related("person", "line__call", "line__person")


def end_offer(offer: Offer, answer: str, *, at: datetime, by: str = "", note: str = "") -> None:
    """The offer has its answer; a question that nobody was sent yet is not sent. Raises StaleVersion."""
    offer.answer, offer.answered_at, offer.answered_by = answer, at, by
    offer.note = note or offer.note
    offer.save_version(("answer", "answered_at", "answered_by", "note"))
    was_sent = not drop_untold(untold_of(offer))
    if answer in TOLD_OF_IT and was_sent and offer.is_asked:  # type: ignore[attr-defined]
        tell(offer.person, offer.line.call, MessageKind.FILLED, line=offer.line, offer=offer)


def fill_offers(line: CallLine) -> None:
    """Somebody is on the line: whoever else was asked hears so, and what else that one was asked of this call ends."""
    if line.person_id is None:
        return
    at = timezone.now()
    for offer in open_offers().filter(Q(line=line) | Q(line__call=line.call_id, person=line.person_id)):
        if offer.line_id != line.pk:
            end_offer(offer, Answer.WITHDRAWN, at=at)
            ask_next(offer.line, at)
        else:
            is_own = offer.person_id == line.person_id
            end_offer(offer, Answer.ACCEPTED if is_own else Answer.FILLED, at=at)


def withdraw_offers(lines: Iterable[CallLine]) -> None:
    """Nobody is wanted on the lines any more."""
    at = timezone.now()
    for offer in open_offers().filter(line__in=lines):
        end_offer(offer, Answer.WITHDRAWN, at=at)


def withdraw_all(call: Call) -> None:
    """The call is off, and all its questions with it."""
    withdraw_offers(call.lines.all())


def ask_next(line: CallLine, at: datetime) -> Offer | None:
    """Whose turn it is now is asked, if nobody is being asked; None where nobody is left.

    Each has as long to answer as was planned, but not longer than until the call.
    """
    rows = list(open_offers().filter(line=line).order_by("asked_at", "pk"))
    if not rows or line.has_ended or line.person_id or any(offer.is_asked for offer in rows):  # type: ignore[attr-defined]
        return None
    if at >= line.starts_at:
        withdraw_offers([line])
        return None
    following = rows[0]
    if following.answer_by is not None:
        following.answer_by = min(at + (following.answer_by - following.asked_at), line.starts_at)
    following.asked_at = at
    following.save_version(("asked_at", "answer_by"))
    tell(following.person, line.call, MessageKind.OFFER, line=line, offer=following)
    return following
