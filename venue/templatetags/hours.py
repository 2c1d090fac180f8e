"""Hours as pages write them: {{ tally.hours|hours }}."""

from decimal import Decimal

from django import template

from venue.wording_hours import hours_words

register = template.Library()


@register.filter
def hours(value: Decimal | None) -> str:
    """849.7, or 0.25 where the second decimal counts; nothing where there is none."""
    return "" if value is None or value == "" else hours_words(value)
