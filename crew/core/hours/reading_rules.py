"""A house's rules, as a JSON document, into records; every problem by its path.

    {"minimum_h": 4, "increment_min": 60, "overtime": [{"after_h": 8, "rate": 1.5}], "night":
     {"from": "00:00", "to": "08:00", "rate": 1.5}, "show_minimum_h": 3.5, "rest_h": 8}

A key left out, or null, is a rule that does not apply. `day` beside `overtime` is for entries that say none of their
own. Keys beyond those above: recall_h and recall_gap_h, cancel_notice_h and cancel_pay_h, holidays and holiday_rate,
seventh_day_rate, long_day_h, start_grid_min, round_min, week_starts, day_turns, reporting (share, least_h, most_h) and
counted (worked, paid).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from crew.core.hours.problems import Problem
from crew.core.hours.records import Day, DayLimit, Limit, Night, Reporting, Rules
from crew.core.hours.rule_values import (
    Problems,
    Read,
    choice,
    clock,
    day,
    hours,
    key_path,
    listed,
    minutes_of,
    rate,
    share,
    values_in,
    whole,
)
from crew.core.hours.rules_text import rules_document

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
STEPS_MIN = (5, 6, 10, 12, 15, 20, 30, 60)
ROUNDING_MIN = (5, 6, 15)
"""29 CFR 785.48(b): 5 minutes, a tenth, a quarter of an hour."""
DAYS: tuple[Day, ...] = ("calendar", "since-turnaround")
DAY_H, WEEK_H = 24, 168


@dataclass(frozen=True)
class RulesRead:
    """The rules, and every problem; with a problem the rules are not to be used."""

    rules: Rules
    problems: tuple[Problem, ...] = ()


def rules_in(data: bytes) -> RulesRead:
    """The rules in a file of JSON."""
    document, problems = rules_document(data)
    return RulesRead(Rules(), tuple(problems)) if problems else read_rules(document)


def read_rules(document: Any) -> RulesRead:
    """The rules in a document that is read already."""
    problems: Problems = []
    values = values_in(document, "$", _READERS, problems)
    problems += _partings(document if isinstance(document, Mapping) else {})
    day_of_all = values.pop("day", "calendar")
    given = {_FIELDS[key]: value for key, value in values.items()}
    if "overtime" in given:
        given["overtime"] = tuple(DayLimit(after, at, own or day_of_all) for after, at, own in given["overtime"])
    rules = Rules(**given)
    problems += _without_rest(rules)
    return RulesRead(rules, tuple(problems))


def _entry(needed: Mapping[str, Read], optional: Mapping[str, Read], made: Any) -> Read:
    """An object with these keys; `made` takes their values in order, None for what is left out."""
    readers = {**needed, **optional}

    def read(value: Any, path: str, problems: Problems) -> Any:
        before = len(problems)
        values = values_in(value, path, readers, problems)
        if isinstance(value, Mapping):
            missing = [key for key in needed if value.get(key) is None]
            problems += [Problem("missing", path=key_path(path, key)) for key in missing]
        return made(*map(values.get, readers)) if len(problems) == before else None

    return read


def _over_midnight(value: Any, path: str, problems: Problems) -> Night | None:
    """The night; one that begins and ends at the same time is none."""
    night: Night | None = _entry({"from": clock, "to": clock, "rate": rate}, {}, Night)(value, path, problems)
    if night is not None and night.starts == night.until:
        problems.append(Problem("no-night", path=path))
    return night


def _weekday(value: Any, path: str, problems: Problems) -> int | None:
    name = choice(WEEKDAYS)(value, path, problems)
    return None if name is None else WEEKDAYS.index(name)


def _day_entry(after: int, at: Decimal, own: Day | None) -> tuple[int, Decimal, Day | None]:
    return after, at, own


_LIMIT: Mapping[str, Read] = {"after_h": hours(WEEK_H), "rate": rate}
_REPORTING: Mapping[str, Read] = {"share": share, "least_h": hours(DAY_H), "most_h": hours(DAY_H)}
_KEYS: Mapping[str, tuple[str, Read]] = {
    "minimum_h": ("minimum", hours(DAY_H)),
    "increment_min": ("increment", whole(1, 240)),
    "meal_by_h": ("meal_by", hours(DAY_H)),
    "meal_penalty": ("meal_penalty", choice(("none", "double-until-meal", "one-hour"))),
    "overtime": (
        "overtime",
        listed(_entry({"after_h": hours(WEEK_H), "rate": rate}, {"day": choice(DAYS)}, _day_entry)),
    ),
    "day": ("day", choice(DAYS)),
    "weekly": ("weekly", listed(_entry(_LIMIT, {}, Limit), one_is_enough=True)),
    "night": ("night", _over_midnight),
    "combine": ("combine", choice(("highest", "multiply"))),
    "rest_h": ("rest", hours(WEEK_H)),
    "show_minimum_h": ("show_minimum", hours(DAY_H)),
    "pad_rate": ("pad_rate", choice(("straight", "last"))),
    "recall_h": ("recall", hours(DAY_H)),
    "recall_gap_h": ("recall_gap", hours(DAY_H)),
    "cancel_notice_h": ("cancel_notice", hours(WEEK_H)),
    "cancel_pay_h": ("cancel_pay", hours(DAY_H)),
    "holidays": ("holidays", listed(day)),
    "holiday_rate": ("holiday_rate", rate),
    "seventh_day_rate": ("seventh_day_rate", rate),
    "long_day_h": ("long_day", hours(DAY_H)),
    "start_grid_min": ("start_grid", minutes_of(STEPS_MIN)),
    "round_min": ("rounding", minutes_of(ROUNDING_MIN)),
    "week_starts": ("week_starts", _weekday),
    "day_turns": ("day_turns", clock),
    "reporting": (
        "reporting",
        _entry({"share": share, "least_h": hours(DAY_H), "most_h": hours(DAY_H)}, {}, Reporting),
    ),
    "counted": ("counted", choice(("worked", "paid"))),
}
_FIELDS = {key: name for key, (name, _read) in _KEYS.items()}
_READERS = {key: read for key, (_name, read) in _KEYS.items()}
_TOGETHER = (("recall_h", "recall_gap_h"), ("cancel_notice_h", "cancel_pay_h"))


def _partings(document: Mapping[str, Any]) -> Iterator[Problem]:
    """Keys whose partner, without which they say nothing, is not there."""
    for pair in _TOGETHER:
        missing = [key for key in pair if document.get(key) is None]
        if len(missing) == 1:
            partner = next(key for key in pair if key not in missing)
            yield Problem("goes-with", path=key_path("$", missing[0]), data={"partner": partner})


def _without_rest(rules: Rules) -> Iterator[Problem]:
    if rules.rest is None and any(limit.day == "since-turnaround" for limit in rules.overtime):
        yield Problem("needs-rest", path="$.rest_h")
