"""Asking people for a line of a call, and what they answer. Locks go in the order call, then persons by id.

Several may be asked at once, or one after the other; the first whose yes passes the checks of `put_on_line` takes
the line. A yes that fails one leaves the offer open, with the reason on it: dispatch or the person may put that right.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta

from django.db import transaction
from django.utils.translation import gettext as _

from crew.actions.filling import call_touched, lock_call, put_on_line
from crew.actions.offer_ends import ASKED, ask_next, end_offer, open_offers
from crew.actions.outbox import tell
from crew.actions.passing import keep_to_list_asking
from crew.barring import lock_persons
from crew.errors import AnswerTooLate, NobodyAsked, NotToBeAsked, OfferIsOver
from crew.models import Call, CallLine, Offer, Person
from crew.models.offers import Answer, MessageKind
from crew.wording.offers import over_sentence
from venue.core.labels import label_key
from venue.errors import AlreadyExists, DomainError
from venue.history import Actor, record
from venue.storing import store

NOTE = 200
"""Characters of an offer's note."""


@transaction.atomic
def open_line(*, call: Call, number: str, seat: int) -> CallLine:
    """The line of the seat that nobody is on; a show number that has none yet gets one.

    Raises AlreadyEnded where the call is off, AlreadyExists where somebody is on it, Invalid.
    """
    lock_call(call)
    line = call.lines.standing().filter(number_key=label_key(number), seat=seat).first()
    if line is not None and line.person_id is not None:
        raise AlreadyExists(_("Somebody is on this line already. Nobody was asked."))
    if line is None and not number:
        raise AlreadyExists(_("This line is wanted no more. Nobody was asked."))
    return line or put_on_line(CallLine(call=call, number=number, seat=seat))


@transaction.atomic
def ask(
    *,
    actor: Actor,
    line: CallLine,
    people: Sequence[Person],
    answer_by: datetime | None,
    at: datetime,
    in_turn: bool = False,
    reason: str = "",
) -> list[Offer]:
    """Ask the people for the line, all at once, or `in_turn`: the next when the one before said no or nothing.

    `answer_by` is when the answer is wanted, of those in turn the first one's; each of the others has as long.
    `reason` is why others are passed over where the list is strict; a yes then needs none. Raises NobodyAsked,
    NotToBeAsked with the names, PassesOver, AnswerTooLate, AlreadyExists, AlreadyEnded.
    """
    call = line.call
    lock_call(call)
    lock_persons(people)
    line.refresh_from_db(fields=["person", "ended_at", "starts_at", "version"])
    if line.has_ended or line.person_id is not None:
        raise AlreadyExists(_("Somebody is on this line already, or it is wanted no more. Nobody was asked."))
    _require_askable(line, people)
    made = [
        store(Offer(line=line, person=person, asked_at=start, asked_by=actor.name, answer_by=until))
        for person, (start, until) in zip(people, _times(line, len(people), answer_by, at, in_turn), strict=True)
    ]
    keep_to_list_asking(actor=actor, line=line, people=people, at=at, reason=reason)
    if in_turn:
        ask_next(line, at)
    for offer in () if in_turn else made:
        tell(offer.person, call, MessageKind.OFFER, line=line, offer=offer)
    _record(actor, "offer.asked", line, names=", ".join(person.name for person in people))
    return made


def _require_askable(line: CallLine, people: Sequence[Person]) -> None:
    if not people:
        raise NobodyAsked
    refs = [person.pk for person in people]
    standing = set(line.call.roster.persons.standing().filter(pk__in=refs).values_list("pk", flat=True))
    on_call = set(line.call.lines.standing().filter(person__in=refs).values_list("person", flat=True))
    asked = set(line.offers.filter(answer="", person__in=refs).values_list("person", flat=True))
    wrong = [person.name for person in people if person.pk not in standing or person.pk in on_call | asked]
    if wrong:
        raise NotToBeAsked(wrong)


def _times(
    line: CallLine, number: int, answer_by: datetime | None, at: datetime, in_turn: bool
) -> list[tuple[datetime, datetime | None]]:
    """When each is asked and has to answer. Raises AnswerTooLate."""
    if at >= line.starts_at:
        raise AnswerTooLate(at, line.starts_at, line.zone)
    if answer_by is None:
        return [(at + timedelta(seconds=index if in_turn else 0), None) for index in range(number)]
    span = answer_by - at if in_turn else timedelta(0)
    last = answer_by + span * (number - 1)
    if answer_by <= at or last > line.starts_at:
        raise AnswerTooLate(last, line.starts_at, line.zone)
    return [(at + span * index, answer_by + span * index) for index in range(number)]


def accept(*, actor: Actor, offer: Offer, at: datetime, note: str = "") -> CallLine:
    """A yes. Raises OfferIsOver where the offer is not open any more, else what `put_on_line` refuses.

    What a check refuses is written on the offer, which stays open.
    """
    with transaction.atomic():
        offer = _held(offer)
        try:
            return _take(actor, offer, at, note)
        except OfferIsOver:
            raise
        except DomainError as error:
            refusal = error
            offer.refresh_from_db()
            offer.note = (_("Said yes; not taken: %(why)s") % {"why": refusal})[:NOTE]
            offer.save_version(("note",))
            _record(actor, "offer.refused", offer.line, name=offer.person.name, why=str(refusal))
    raise refusal


@transaction.atomic
def _take(actor: Actor, offer: Offer, at: datetime, note: str) -> CallLine:
    line = offer.line
    end_offer(offer, Answer.ACCEPTED, at=at, by=actor.name, note=note)
    line.person = offer.person
    put_on_line(line)
    call_touched(line.call)
    _record(actor, "offer.accepted", line, name=offer.person.name)
    return line


@transaction.atomic
def decline(*, actor: Actor, offer: Offer, at: datetime, note: str = "") -> None:
    """A no; the next in turn is asked. Raises OfferIsOver."""
    _end_and_go_on(actor, _held(offer), Answer.DECLINED, "offer.declined", at, note)


@transaction.atomic
def withdraw(*, actor: Actor, offer: Offer, at: datetime) -> None:
    """The question is taken back; the next in turn is asked. Raises OfferIsOver."""
    _end_and_go_on(actor, _held(offer), Answer.WITHDRAWN, "offer.withdrawn", at, "")


def withdraw_of(*, actor: Actor, person: Person, at: datetime) -> None:
    """All questions to somebody are taken back; the next in turn are asked. Their calls and the person are locked."""
    for offer in open_offers().filter(person=person).order_by("pk"):
        _end_and_go_on(actor, offer, Answer.WITHDRAWN, "offer.withdrawn", at, "")


def expire(*, actor: Actor, now: datetime) -> int:
    """Whoever did not answer by the time did not answer; the next in turn is asked. How many offers ended.

    One transaction a call. What is left without anybody asked stands in `crew.offers.to_ask_again`.
    """
    due = Offer.objects.filter(answer="", answer_by__lte=now)
    calls = due.order_by("line__call").values_list("line__call", flat=True).distinct()
    return sum(_expire_in(actor, Call._base_manager.get(pk=pk), now) for pk in calls)


@transaction.atomic
def _expire_in(actor: Actor, call: Call, now: datetime) -> int:
    Call._base_manager.select_for_update().get(pk=call.pk)
    due = open_offers().filter(ASKED, line__call=call, answer_by__lte=now).order_by("pk")
    ended = list(due)
    for offer in ended:
        _end_and_go_on(actor, offer, Answer.NO_ANSWER, "offer.no_answer", now, "")
    return len(ended)


def _end_and_go_on(actor: Actor, offer: Offer, answer: str, verb: str, at: datetime, note: str) -> None:
    by = "" if answer == Answer.NO_ANSWER else actor.name
    end_offer(offer, answer, at=at, by=by, note=note.strip()[:NOTE])
    _record(actor, verb, offer.line, name=offer.person.name)
    ask_next(offer.line, at)


def _held(offer: Offer) -> Offer:
    """The offer as it is now, its call locked. Raises OfferIsOver if it is not open any more, AlreadyEnded."""
    lock_call(offer.line.call)
    held = open_offers().filter(pk=offer.pk).first()
    if held is None:
        raise OfferIsOver(over_sentence(Offer.objects.get(pk=offer.pk).answer))
    return held


def _record(actor: Actor, verb: str, line: CallLine, **facts: object) -> None:
    engagement = line.call.engagement
    record(actor, verb, line.call, house=engagement.house, show=engagement.name, line=str(line), **facts)
