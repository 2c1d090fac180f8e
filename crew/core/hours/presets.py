"""Rule sets to begin with, as a house would write them. Published sheets disagree: each is a start, none is a rule."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Preset:
    """A rule set as a document that `read_rules` takes; `basis` says where its numbers come from."""

    name: str
    rules: Mapping[str, Any]
    basis: str = PRACTICE


PRESETS = (
    Preset(
        "four-hour-calls",
        {
            "minimum_h": 4,
            "increment_min": 60,
            "meal_by_h": 5,
            "meal_penalty": "double-until-meal",
            "overtime": [{"after_h": 8, "rate": 1.5}],
            "night": {"from": "00:00", "to": "08:00", "rate": 1.5},
            "combine": "highest",
            "show_minimum_h": 3.5,
            "rest_h": 8,
        },
    ),
    Preset(
        "half-hours-and-recalls",
        {
            "minimum_h": 4,
            "show_minimum_h": 3.5,
            "recall_h": 2,
            "recall_gap_h": 2,
            "increment_min": 30,
            "start_grid_min": 30,
            "meal_by_h": 5.5,
            "meal_penalty": "one-hour",
            "overtime": [{"after_h": 8, "rate": 1.5}, {"after_h": 12, "rate": 2}],
            "night": {"from": "00:00", "to": "08:00", "rate": 2},
            "rest_h": 8,
            "cancel_notice_h": 24,
            "cancel_pay_h": 4,
        },
    ),
    Preset(
        "since-the-last-rest",
        {
            "minimum_h": 4,
            "increment_min": 30,
            "pad_rate": "last",
            "meal_by_h": 5,
            "meal_penalty": "double-until-meal",
            "overtime": [
                {"after_h": 8, "rate": 1.5, "day": "since-turnaround"},
                {"after_h": 12, "rate": 2, "day": "since-turnaround"},
            ],
            "weekly": {"after_h": 40, "rate": 1.5},
            "rest_h": 11,
            "long_day_h": 14,
        },
    ),
)
