"""Checks of single values, with messages that say what would be right."""

import math
from functools import cache
from zoneinfo import available_timezones

from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _


@cache
def _time_zones() -> set[str]:
    """Read once: finding them opens hundreds of files."""
    return available_timezones()


def validate_time_zone(name: str) -> None:
    """The name is one of the IANA time zone database, such as America/Chicago."""
    if name not in _time_zones():
        raise ValidationError(
            _("“%(name)s” is not a time zone. Write one such as America/Chicago."),
            code="time_zone",
            params={"name": name},
        )


def validate_finite(value: float) -> None:
    """The value is a number, not infinite and not "not a number"."""
    if not math.isfinite(value):
        raise ValidationError(_("Write a number."), code="finite")
