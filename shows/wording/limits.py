"""What a unit can't do, said where a show relies on it."""

from collections.abc import Iterable

from django.utils.translation import gettext as _


def unit_sentences(unit: str, stops: Iterable[str], limits: Iterable[str]) -> list[str]:
    """ "FS-03 is out of service: …", then "FS-03: frame 4 is out"; nothing for a unit that can do everything."""
    out = [_("%(unit)s is out of service: %(why)s") % {"unit": unit, "why": why} for why in stops]
    return [*out, *(_("%(unit)s: %(limit)s") % {"unit": unit, "limit": _within(limit)} for limit in limits)]


def stands_on_out(number: str, unit: str) -> str:
    """A show number whose unit is out of service."""
    return _("show %(number)s stands on %(unit)s, out of service") % {"number": number, "unit": unit}


def _within(sentence: str) -> str:
    """A sentence as it goes on after a colon."""
    return sentence[:1].lower() + sentence[1:]
