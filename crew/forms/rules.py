"""A rule set for hours: begun from a preset, then every number a field."""

from collections.abc import Iterator, Sequence
from typing import Any

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.core.hours.presets import PRESETS
from crew.core.hours.reading_rules import DAYS, ROUNDING_MIN, STEPS_MIN, WEEKDAYS
from crew.core.rule_fields import field_of, fields_of, rules_of, step_count
from crew.errors import RulesFromThen, RulesRefused
from crew.forms.people import DayField
from crew.models import HourRules
from crew.models.hour_rules import FROM_THE_START
from crew.wording.rules import choices, key_words, preset_words, rule_problem
from venue.errors import DomainError
from venue.forms.base import RefusedForm, VersionedForm
from venue.forms.picks import Pick

EMPTY = "empty"
CHOICES: dict[str, Sequence[str]] = {
    "pad_rate": ("straight", "last"),
    "counted": ("worked", "paid"),
    "meal_penalty": ("none", "double-until-meal", "one-hour"),
    "week_starts": WEEKDAYS,
    "combine": ("highest", "multiply"),
}
STEPS_OF = {"start_grid_min": STEPS_MIN, "round_min": ROUNDING_MIN}
CLOCKS = {"night_from": "00:00", "night_to": "08:00", "day_turns": "05:00"}
"""Times of day, each with one as it is written."""
SECTIONS: Sequence[tuple[str | Promise, Sequence[str]]] = (
    (gettext_lazy("Minimums"), ("minimum_h", "show_minimum_h", "increment_min", "pad_rate", "counted")),
    (gettext_lazy("Recalls"), ("recall_h", "recall_gap_h")),
    (gettext_lazy("Sent home early"), ("reporting_share", "reporting_least_h", "reporting_most_h")),
    (gettext_lazy("Meals"), ("meal_by_h", "meal_penalty")),
    (gettext_lazy("Overtime by the day"), ("overtime",)),
    (gettext_lazy("Overtime by the week"), ("weekly", "week_starts")),
    (gettext_lazy("Night"), ("night_from", "night_to", "night_rate")),
    (gettext_lazy("Holidays and days in a row"), ("holidays", "holiday_rate", "seventh_day_rate")),
    (gettext_lazy("Several rates at once"), ("combine",)),
    (gettext_lazy("Rest and long days"), ("rest_h", "day_turns", "long_day_h")),
    (gettext_lazy("Clock"), ("start_grid_min", "round_min")),
    (gettext_lazy("Cancellation"), ("cancel_notice_h", "cancel_pay_h")),
)
"""Fields under their headings; `overtime` and `weekly` stand for all their steps."""


class FromForm(RefusedForm):
    """From which day a rule set holds."""

    first_day = DayField(
        label=gettext_lazy("Hold from"),
        help_text=gettext_lazy("The first working day. One that is past is allowed: days since then are counted anew."),
    )

    def refuse(self, refusal: DomainError) -> None:
        """A day that is taken is told at its field."""
        if isinstance(refusal, RulesFromThen):
            self.add_error("first_day", str(refusal))
        else:
            super().refuse(refusal)


class StartForm(FromForm):
    """With which numbers a rule set begins, and from which day."""

    preset = forms.ChoiceField(label=gettext_lazy("Begin with"), widget=Pick)
    first_day = DayField(
        label=gettext_lazy("Hold from"),
        required=False,
        help_text=gettext_lazy("The first working day. Left empty: always, so that all past days are counted by them."),
    )
    field_order = ("preset", "first_day")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        offered = [(preset.name, preset_words(preset)) for preset in PRESETS]
        self.fields["preset"].choices = [*offered, (EMPTY, _("Nothing: write every number yourself"))]  # type: ignore[attr-defined]

    @property
    def facts(self) -> dict[str, Any]:
        """Name, rules and first day of the new set."""
        chosen = next((preset for preset in PRESETS if preset.name == self.cleaned_data["preset"]), None)
        first_day = self.cleaned_data["first_day"] or FROM_THE_START
        if chosen is None:
            return {"name": _("our own rules"), "rules": {}, "first_day": first_day}
        return {"name": preset_words(chosen)[:80], "rules": chosen.rules, "first_day": first_day}


class RulesForm(VersionedForm):
    """Every number of a rule set. What stays empty is a rule that does not apply."""

    name = forms.CharField(
        label=gettext_lazy("Where these rules come from"),
        max_length=80,
        help_text=gettext_lazy("The agreement and its date, or that it is common practice."),
    )

    def __init__(self, *args: Any, row: HourRules, **options: Any) -> None:
        rules = row.rules if isinstance(row.rules, dict) else {}
        options["initial"] = {"name": row.name, **fields_of(rules)}
        super().__init__(*args, row=row, **options)
        steps = {key: step_count(rules, key) for key in ("overtime", "weekly")}
        self.sections = [(title, list(self._add(names, steps))) for title, names in SECTIONS]  # type: ignore[misc]
        self.asked = tuple(self.fields)  # type: ignore[misc]

    def _add(self, names: Sequence[str], steps: dict[str, int]) -> Iterator[str]:
        """The fields of one section, added as their names are drawn."""
        for name in names:
            for field, label in _expanded(name, steps):
                self.fields[field] = _field(field, label)
                yield field

    @property
    def rules(self) -> dict[str, Any]:
        """The rule set as the cleaned form says it."""
        return rules_of(self._texts)

    @property
    def _texts(self) -> dict[str, str]:
        return {name: value for name, value in self.cleaned_data.items() if isinstance(value, str) and name != "name"}

    def refuse(self, refusal: DomainError) -> None:
        """Each problem at its field."""
        if not isinstance(refusal, RulesRefused):
            super().refuse(refusal)
            return
        self.add_error(None, str(refusal))
        texts = self._texts
        for problem in refusal.problems:
            field = field_of(problem, texts)
            self.add_error(field if field in self.fields else None, rule_problem(problem))


def _expanded(name: str, steps: dict[str, int]) -> Iterator[tuple[str, str]]:
    """A field with its label, or the fields of every step."""
    if name not in steps:
        yield name, key_words(name)
        return
    keys = ("after_h", "rate", "day") if name == "overtime" else ("after_h", "rate")
    for nth in range(1, steps[name] + 1):
        for key in keys:
            yield f"{name}_{nth}_{key}", key_words(key, nth)


def _field(name: str, label: str) -> forms.Field:
    if name in CHOICES:
        return forms.ChoiceField(label=label, choices=choices(CHOICES[name]), required=False)
    if name.endswith("_day"):
        return forms.ChoiceField(label=label, choices=choices(DAYS), required=False)
    if name in STEPS_OF:
        numbers = [("", _("not said")), *((str(number), str(number)) for number in STEPS_OF[name])]
        return forms.ChoiceField(label=label, choices=numbers, required=False)
    if name in CLOCKS:
        widget = forms.TextInput({"inputmode": "numeric", "placeholder": CLOCKS[name], "autocomplete": "off"})
        return forms.CharField(label=label, max_length=8, required=False, widget=widget)
    if name == "holidays":
        rows = forms.Textarea({"rows": 4, "placeholder": "2026-12-25"})
        return forms.CharField(label=label, max_length=4000, required=False, widget=rows)
    number = forms.TextInput({"inputmode": "decimal", "autocomplete": "off"})
    return forms.CharField(label=label, max_length=20, required=False, widget=number)
