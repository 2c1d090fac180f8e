"""Log entries, care and light in words, in the house's units."""

from datetime import date
from decimal import Decimal

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from venue.care import is_foretold
from venue.core.care import DueState
from venue.core.light import foot_candles
from venue.core.light_trend import LightFinding
from venue.models import CareItem, CarePlan
from venue.models.upkeep import Covers
from venue.wording_hours import hours_words

STATE_WORDS: dict[DueState, str | Promise] = {
    "overdue": gettext_lazy("overdue"),
    "due": gettext_lazy("due"),
    "soon": gettext_lazy("soon"),
    "later": gettext_lazy("later"),
    "unknown": gettext_lazy("not foretold yet"),
}
SETTING = gettext_lazy("iris open, flat field, no color")
"""At which a unit's light is measured, where the house has no other habit (practice)."""


def hours_text(hours: Decimal | float) -> str:
    """Hours without idle zeros: "846.5 h"."""
    return _("%(hours)s h") % {"hours": hours_words(Decimal(str(hours))).removesuffix(".0")}


def light_text(lux: float, system: str) -> str:
    """Illuminance in the house's unit: "145 fc", "1560 lx"."""
    if system == "imperial":
        return _("%(light)s fc") % {"light": _rounded(foot_candles(lux))}
    return _("%(light)s lx") % {"light": _rounded(lux)}


def candela_text(candela: float) -> str:
    """Intensity to three places, in thousands or millions of candela where it is that strong: "3.38 Mcd"."""
    if candela >= 1e6:
        return _("%(light)s Mcd") % {"light": f"{candela / 1e6:.3g}"}
    if candela >= 1e3:
        return _("%(light)s kcd") % {"light": f"{candela / 1e3:.3g}"}
    return _("%(light)s cd") % {"light": f"{candela:.3g}"}


def _rounded(value: float) -> str:
    return f"{value:.0f}" if value >= 100 else f"{value:.3g}"


def covers_words(plan: CarePlan) -> str:
    """For what the plan is."""
    if plan.covers == Covers.UNIT:
        return str(plan.unit)
    if plan.covers == Covers.SOURCE:
        return _("all units with the source %(source)s") % {"source": plan.source}
    return plan.accessory if plan.covers == Covers.ACCESSORY else str(Covers.ALL.label)


def every_words(plan: CarePlan) -> str:
    """How often the plan wants it done."""
    return span_words(plan.every_h, plan.every_days)


def span_words(every_h: Decimal | None, every_days: int | None) -> str:
    """How often: "every 100 h or 30 days, whichever comes first"."""
    hours = "" if every_h is None else hours_text(every_h)
    days = "" if every_days is None else ngettext("%(count)s day", "%(count)s days", every_days) % {"count": every_days}
    if hours and days:
        return _("every %(hours)s or %(days)s, whichever comes first") % {"hours": hours, "days": days}
    return _("every %(span)s") % {"span": hours or days}


def due_words(item: CareItem, hours: Decimal | None) -> str:
    """When it is due: by date, foretold or fixed, and at which unit hours, with what is left of them."""
    if item.last_done_at is None:
        return _("never recorded as done")
    parts = [_day_words(item)] if item.due_on else []
    if item.due_h is not None:
        parts.append(_hours_words(item.due_h, hours))
    return "; ".join(parts)


def _day_words(item: CareItem) -> str:
    assert item.due_on is not None
    sentence = _("about %(day)s, by its use") if is_foretold(item) else _("on %(day)s")
    return sentence % {"day": day_text(item.due_on)}


def _hours_words(due_h: Decimal, hours: Decimal | None) -> str:
    if hours is None:
        return _("at %(due)s unit hours") % {"due": hours_text(due_h)}
    left = due_h - hours
    if left < 0:
        return _("%(over)s past its hours") % {"over": hours_text(-left)}
    return _("%(left)s left") % {"left": hours_text(left)}


def day_text(day: date) -> str:
    return date_format(day, "M j, Y")


def share_words(share: float) -> str:
    """The last light as a share of the first."""
    return _("It gives %(share)s %% of its first light.") % {"share": f"{share * 100:.0f}"}


def finding_words(finding: LightFinding) -> str:
    """What a light reading tells: "Gives 62 % of its own first light; below 70 % is a finding"."""
    facts = {"share": f"{finding.share * 100:.0f}", "limit": f"{finding.limit * 100:.0f}"}
    if finding.code == "below-first":
        return _("Gives %(share)s %% of its own first light at this setting; below %(limit)s %% is a finding.") % facts
    if finding.code == "under-mates":
        return _("Gives %(share)s %% of what its mates give; more than a quarter under them is a finding.") % facts
    return _("The beam differs by ±%(share)s %% across; more than %(limit)s %% is a finding.") % facts
