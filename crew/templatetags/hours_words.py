"""Hours of calls as pages write them: {{ tally.paid|as_hours }}, {{ tally.by_rate|as_rates }}."""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from django import template

from crew.wording.hour_values import flags_words, hours_words, rates_words

register = template.Library()


@register.filter
def as_hours(minutes: Decimal | int) -> str:
    """3.50"""
    return hours_words(minutes)


@register.filter
def as_rates(by_rate: Mapping[Decimal, int]) -> str:
    """2.00 × 1.0 + 2.00 × 1.5"""
    return rates_words(by_rate)


@register.filter
def as_flags(flags: Sequence[str]) -> str:
    """late meal, night"""
    return flags_words(flags)
