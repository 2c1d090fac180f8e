"""Who was asked for which line of a call, and where somebody has to be asked next."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Count, Exists, OuterRef, Q, QuerySet, Subquery
from django.db.models.functions import Coalesce

from crew.actions.offer_ends import ASKED
from crew.candidates import Asked
from crew.line_needs import Light, Seat
from crew.models import Call, CallLine, Offer
from crew.proposal import open_seats


@dataclass(frozen=True)
class AskedLine:
    """A line of the call with its offers in the order of asking. `is_open`: somebody is still to be found for it."""

    seat: Seat
    line: CallLine | None
    light: Light | None
    offers: Sequence[Offer]
    is_open: bool

    @property
    def waiting(self) -> int:
        """How many are asked and have not answered, or are to be asked in turn."""
        return sum(not offer.answer for offer in self.offers)

    @property
    def is_to_ask(self) -> bool:
        """Everybody who was asked has answered or did not in time, and nobody is on it."""
        return self.is_open and bool(self.offers) and not self.waiting


def asked_lines(asked: Asked) -> list[AskedLine]:
    """The open lines and those that somebody was asked for, in the call's order. One query."""
    by_line: dict[int, list[Offer]] = defaultdict(list)
    for offer in offers_of(asked.call):
        by_line[offer.line_id].append(offer)
    is_open = frozenset(open_seats(asked))
    return [
        AskedLine(seat, line, asked.lights.get(seat), offers, seat in is_open)
        for seat in asked.wanted
        for line in (asked.standing.get(seat),)
        for offers in (by_line.get(line.pk, []) if line else [],)
        if seat in is_open or offers
    ]


def offers_of(call: Call) -> QuerySet[Offer]:
    """All offers of lines that stand, in the order of asking, each with `is_asked`: the person's turn has come."""
    rows = Offer.objects.filter(line__call=call, line__ended_at__isnull=True).annotate(is_asked=ASKED)
    return rows.select_related("person", "line").order_by("asked_at", "pk")


def lines_to_ask() -> QuerySet[CallLine]:
    """Lines that nobody is on, whose offers have all ended: the next is to be asked."""
    offers = Offer.objects.filter(line=OuterRef("pk"))
    lines = CallLine.objects.standing().filter(person__isnull=True, call__ended_at__isnull=True)
    return lines.filter(Exists(offers)).exclude(Exists(offers.filter(answer="")))


def calls_asking(calls: QuerySet[Call]) -> QuerySet[Call]:
    """Of the calls with `may_fill`: those with `unanswered` questions, or lines `to_ask` the next for. One query."""
    open_offers = Offer.objects.filter(line__call=OuterRef("pk"), answer="", line__ended_at__isnull=True)
    lines = lines_to_ask().filter(call=OuterRef("pk"))
    rows = calls.filter(Q(may_fill=True), ended_at__isnull=True)
    rows = rows.annotate(unanswered=_count(open_offers, "line__call"), to_ask=_count(lines, "call"))
    rows = rows.filter(Q(unanswered__gt=0) | Q(to_ask__gt=0)).select_related("event", "engagement__house")
    return rows.order_by("call_at", "pk")


def _count(rows: QuerySet, by: str) -> Coalesce:
    return Coalesce(Subquery(rows.order_by().values(by).annotate(n=Count("pk")).values("n")), 0)
