"""What every role's answer consists of."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Card:
    """A role's question, its answer in a sentence, what else to know, and where to go."""

    role: str
    question: str
    sentence: str
    url: str
    label: str
    more: tuple[str, ...] = ()
