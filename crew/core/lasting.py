"""How long a certification lasts, and whom the words of a search find."""

import unicodedata
from datetime import date, timedelta
from typing import Literal

from venue.core.names import name_key

Lasting = Literal["for-good", "lasts", "ends-soon", "expired"]

SOON = timedelta(days=30)
"""How long before its last day a certification is pointed out: common practice, no source."""


def lasting_of(expires_on: date | None, today: date) -> Lasting:
    """How a certification stands on the day; its last day counts."""
    if expires_on is None:
        return "for-good"
    if expires_on < today:
        return "expired"
    return "ends-soon" if expires_on - today <= SOON else "lasts"


def plain_key(text: str) -> str:
    """The text without case and accents, as people type it in a hurry: "Wiśniak" gives "wisniak"."""
    parts = unicodedata.normalize("NFKD", name_key(text))
    return "".join(mark for mark in parts if not unicodedata.combining(mark))


def is_found(query: str, *texts: str) -> bool:
    """Whether each word of the query stands in one of the texts; an empty query finds all."""
    keys = [plain_key(text) for text in texts]
    return all(any(word in key for key in keys) for word in plain_key(query).split())
