"""Hours, rates and flags in a word or two, the same on pages and on paper."""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from django.utils.translation import gettext as _

from crew.core.hours.rounding import hours_in, rate_words, two_places
from crew.wording.hours import FLAG_WORDS


def hours_words(minutes: Decimal | int) -> str:
    """ "3.50": hours to two places, half up."""
    return str(two_places(hours_in(minutes)))


def rates_words(by_rate: Mapping[Decimal, int]) -> str:
    """ "2.00 × 1.0 + 2.00 × 1.5"."""
    return " + ".join(f"{hours_words(minutes)} × {rate_words(rate)}" for rate, minutes in by_rate.items())


def flags_words(flags: Sequence[str]) -> str:
    return ", ".join(str(FLAG_WORDS[flag]) for flag in flags)


def plain_hours(minutes: int) -> str:
    """ "3.5 h", "4 h": as a rule has it."""
    text = f"{two_places(hours_in(minutes)).normalize():f}"
    return _("%(hours)s h") % {"hours": text}
