"""Words of a rule set: its keys with their units, its choices, where presets come from, for which days it holds."""

from collections.abc import Mapping, Sequence
from datetime import timedelta

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.core.hours.presets import Preset
from crew.core.hours.problems import Problem
from crew.models import HourRules
from crew.models.hour_rules import FROM_THE_START
from crew.moments import day_words
from crew.wording.hours import problem_sentence

PRESET_WORDS: Mapping[str, Promise] = {
    "four-hour-calls": gettext_lazy("Four-hour calls in whole hours"),
    "half-hours-and-recalls": gettext_lazy("Half hours, recalls, an hour for a late meal"),
    "since-the-last-rest": gettext_lazy("Overtime since the last rest and by the week"),
}
CHOICE_WORDS: Mapping[str, Promise] = {
    "none": gettext_lazy("nothing"),
    "double-until-meal": gettext_lazy("double until the meal"),
    "one-hour": gettext_lazy("one hour more"),
    "highest": gettext_lazy("only the highest counts"),
    "multiply": gettext_lazy("they multiply"),
    "straight": gettext_lazy("straight"),
    "last": gettext_lazy("as the last minute worked"),
    "worked": gettext_lazy("hours worked"),
    "paid": gettext_lazy("hours paid, minimums with them"),
    "calendar": gettext_lazy("the calendar day"),
    "since-turnaround": gettext_lazy("since the last full rest"),
    "monday": gettext_lazy("Monday"),
    "tuesday": gettext_lazy("Tuesday"),
    "wednesday": gettext_lazy("Wednesday"),
    "thursday": gettext_lazy("Thursday"),
    "friday": gettext_lazy("Friday"),
    "saturday": gettext_lazy("Saturday"),
    "sunday": gettext_lazy("Sunday"),
}
KEY_WORDS: Mapping[str, Promise] = {
    "minimum_h": gettext_lazy("Minimum of a call, hours"),
    "show_minimum_h": gettext_lazy("Minimum of a show, hours"),
    "increment_min": gettext_lazy("Beyond the minimum in steps of, minutes"),
    "pad_rate": gettext_lazy("The part of a minimum that nobody works goes at"),
    "counted": gettext_lazy("What counts toward overtime"),
    "recall_h": gettext_lazy("Minimum of a recall, hours"),
    "recall_gap_h": gettext_lazy("It is a recall up to, hours after the call before"),
    "reporting_share": gettext_lazy("Sent home early: at least this share of the scheduled time, 0 to 1"),
    "reporting_least_h": gettext_lazy("but no less than, hours"),
    "reporting_most_h": gettext_lazy("and no more than, hours"),
    "meal_by_h": gettext_lazy("A meal is due after, hours"),
    "meal_penalty": gettext_lazy("For a late meal"),
    "after_h": gettext_lazy("Step %(nth)s: beyond, hours"),
    "rate": gettext_lazy("Step %(nth)s: rate, in straight hours"),
    "day": gettext_lazy("Step %(nth)s: counted over"),
    "week_starts": gettext_lazy("The week begins on"),
    "night_from": gettext_lazy("Night from, time of day"),
    "night_to": gettext_lazy("Night until, time of day"),
    "night_rate": gettext_lazy("Rate at night, in straight hours"),
    "holidays": gettext_lazy("Holidays, a day a line"),
    "holiday_rate": gettext_lazy("Rate on holidays, in straight hours"),
    "seventh_day_rate": gettext_lazy("Rate from the seventh day in a row on, in straight hours"),
    "combine": gettext_lazy("Where several rates apply"),
    "rest_h": gettext_lazy("Rest between two working days, hours"),
    "day_turns": gettext_lazy("The working day turns at, time of day"),
    "long_day_h": gettext_lazy("A day is long beyond, hours"),
    "start_grid_min": gettext_lazy("Calls begin on steps of, minutes"),
    "round_min": gettext_lazy("Times are rounded to, minutes"),
    "cancel_notice_h": gettext_lazy("A call is canceled late within, hours before it"),
    "cancel_pay_h": gettext_lazy("A late cancellation pays, hours"),
}
"""Each field of the form, with its unit."""


def key_words(key: str, nth: int = 0) -> str:
    return str(KEY_WORDS[key]) % {"nth": nth}


def preset_words(preset: Preset) -> str:
    """What a preset is, and where its numbers come from."""
    return _("%(what)s (common practice, no source)") % {"what": PRESET_WORDS[preset.name]}


def choices(names: Sequence[str]) -> list[tuple[str, str | Promise]]:
    """The choices of a key; where nothing is said the first holds."""
    unsaid = _("not said: %(usual)s") % {"usual": CHOICE_WORDS[names[0]]}
    return [("", unsaid), *((name, CHOICE_WORDS[name]) for name in names)]


def rule_problem(problem: Problem) -> str:
    """What is wrong, as a sentence to stand at its field."""
    text = problem_sentence(problem)
    return text[:1].upper() + text[1:] + "."


def days_of_rules(row: HourRules, after: HourRules | None) -> str:
    """ "always", "from Jun 1, 2026", "through May 31, 2026", both: until the set that comes after."""
    told = {"first": day_words(row.first_day), "last": day_words(after.first_day - timedelta(days=1)) if after else ""}
    if row.first_day == FROM_THE_START:
        return (_("through %(last)s") if after else _("always")) % told
    return (_("from %(first)s through %(last)s") if after else _("from %(first)s on")) % told


def ending_words(row: HourRules, before: HourRules | None, after: HourRules | None) -> list[str]:
    """What holds once the set has ended, for which days."""
    told = {"days": days_of_rules(row, after), "name": before.name if before else ""}
    if before is not None:
        then = _("“%(name)s”, the rules before these, hold again.")
    elif row.house is not None:
        then = _("Hours in this house then go by the rules for all houses.")
    else:
        then = _("Hours in houses without rules of their own are then paid as worked.")
    return [_("These hold %(days)s.") % told, then % told, _("Past days among those are counted anew.")]


def correcting_words(row: HourRules, after: HourRules | None) -> str:
    """Which days are counted anew where the set is corrected."""
    told = {"days": days_of_rules(row, after)}
    return _("These hold %(days)s. What you correct here recounts the past days among those.") % told
