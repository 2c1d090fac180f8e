"""The start page's cards: for each role one question, one sentence, one button."""

from datetime import datetime

from crew.landing.card import Card
from crew.landing.dispatch import dispatch_card
from crew.landing.head import head_card
from crew.landing.reader import reader_card
from crew.landing.road import road_card
from venue.access import Visitor

__all__ = ["Card", "cards"]

CARDS = (head_card, road_card, dispatch_card, reader_card)


def cards(user: Visitor, now: datetime) -> list[Card]:
    """The cards of every role that the user has; the same number of queries however much is on file."""
    found = (card(user, now) for card in CARDS)
    return [card for card in found if card is not None]
