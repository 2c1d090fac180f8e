"""A rule set as the flat fields of a form, and back: one field a key.

    {"minimum_h": 4, "overtime": [{"after_h": 8, "rate": 1.5}], "night": {"from": "00:00", …}}
    {"minimum_h": "4", "overtime_1_after_h": "8", "overtime_1_rate": "1.5", "night_from": "00:00", …}

What is empty is left out: a rule that does not apply. A text where a number belongs stays a text, so that reading the
rules names it.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from crew.core.hours.problems import Problem

NUMBERS = (
    *("minimum_h", "show_minimum_h", "increment_min", "recall_h", "recall_gap_h", "meal_by_h", "holiday_rate"),
    *("seventh_day_rate", "rest_h", "long_day_h", "start_grid_min", "round_min", "cancel_notice_h", "cancel_pay_h"),
)
TEXTS = ("pad_rate", "counted", "meal_penalty", "week_starts", "combine", "day_turns")
GROUPS: Mapping[str, Sequence[str]] = {
    "reporting": ("share", "least_h", "most_h"),
    "night": ("from", "to", "rate"),
}
"""Keys whose values are objects, each with the keys in it."""
STEPS: Mapping[str, Sequence[str]] = {"overtime": ("after_h", "rate", "day"), "weekly": ("after_h", "rate")}
"""Keys whose values are lists of such objects."""
TEXT_KEYS = {"from", "to", "day"}
LEAST_STEPS = 3
_NUMBER = re.compile(r"[+-]?\d{1,12}(?:[.,]\d{0,12})?", re.ASCII)
_STEP = re.compile(r"\$\.(\w+)\[(\d+)\](?:\.(\w+))?", re.ASCII)
_DEEPER = re.compile(r"\$\.(\w+)\.(\w+)", re.ASCII)


def step_count(rules: Mapping[str, Any], key: str) -> int:
    """How many steps a form offers: three, or one more than there are."""
    return max(LEAST_STEPS, len(_listed(rules.get(key))) + 1)


def fields_of(rules: Mapping[str, Any]) -> dict[str, str]:
    """The texts of the fields that have one."""
    found = {key: rules.get(key) for key in (*NUMBERS, *TEXTS)}
    found["holidays"] = "\n".join(map(str, _listed(rules.get("holidays"))))
    for key, names in GROUPS.items():
        found |= {f"{key}_{name}": (rules.get(key) or {}).get(name) for name in names}
    for key, names in STEPS.items():
        for nth, step in enumerate(_listed(rules.get(key)), start=1):
            found |= {f"{key}_{nth}_{name}": step.get(name) for name in names}
    for nth in range(1, len(_listed(rules.get("overtime"))) + 1):
        found[f"overtime_{nth}_day"] = found.get(f"overtime_{nth}_day") or rules.get("day")
    return {name: str(value) for name, value in found.items() if value not in (None, "")}


def rules_of(fields: Mapping[str, str]) -> dict[str, Any]:
    """The rule set that the fields say; all of a step or a group that is empty is left out."""
    rules: dict[str, Any] = {key: _number(fields.get(key, "")) for key in NUMBERS}
    rules |= {key: fields.get(key, "").strip() for key in TEXTS}
    rules["holidays"] = [day.strip() for day in fields.get("holidays", "").splitlines() if day.strip()]
    rules |= {key: _object(fields, key, names) for key, names in GROUPS.items()}
    rules |= {key: [_object(fields, f"{key}_{nth}", STEPS[key]) for nth in _filled(fields, key)] for key in STEPS}
    return {key: value for key, value in rules.items() if value not in ("", {}, [])}


def field_of(problem: Problem, fields: Mapping[str, str]) -> str:
    """The field to which a problem of `rules_of(fields)` belongs; empty for the set as a whole."""
    if step := _STEP.fullmatch(problem.path):
        key, index, name = step.groups()
        if key not in STEPS:
            return key
        filled = _filled(fields, key)
        return f"{key}_{filled[int(index)]}_{name or 'after_h'}" if int(index) < len(filled) else ""
    if deeper := _DEEPER.fullmatch(problem.path):
        return "_".join(deeper.groups())
    key = problem.path.removeprefix("$.")
    return f"{key}_{GROUPS[key][0]}" if key in GROUPS else key


def _filled(fields: Mapping[str, str], key: str) -> list[int]:
    """The numbers of the steps in which something is written; a choice of the day alone is nothing."""
    numbers = {int(name.split("_")[1]) for name in fields if name.startswith(f"{key}_")}
    told = (nth for nth in sorted(numbers) if any(fields.get(f"{key}_{nth}_{name}", "").strip() for name in _TOLD))
    return list(told)


_TOLD = ("after_h", "rate")


def _object(fields: Mapping[str, str], prefix: str, names: Sequence[str]) -> dict[str, Any]:
    texts = {name: fields.get(f"{prefix}_{name}", "").strip() for name in names}
    return {name: text if name in TEXT_KEYS else _number(text) for name, text in texts.items() if text}


def _number(text: str) -> int | float | str:
    """The number that is written, exactly where a double can; else the text itself."""
    text = text.strip()
    if not _NUMBER.fullmatch(text):
        return text
    number = Decimal(text.replace(",", "."))
    return int(number) if number == number.to_integral_value() else float(number)


def _listed(value: Any) -> list[Any]:
    """A list as it is, one by itself as a list of one."""
    if isinstance(value, Mapping):
        return [value]
    return list(value) if isinstance(value, list | tuple) else []
