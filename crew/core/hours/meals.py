"""Breaks and meals: what is work, and from when on a meal is late.

A break of 30 minutes and more in which somebody is fully relieved is a meal and no work (29 CFR 785.19). A shorter one
is work: rests of 5 to 20 minutes count (785.18), and what lies between is no meal by the usual reading. Only a meal
ends the time since the last one.
"""

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from itertools import pairwise

from crew.core.hours.records import Rules, Stretch, minutes_between

MEAL_FROM = 30
"""Minutes that make a break a meal."""


def joined(stretches: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """The stretches between meals: those that touch, or that a short break parts, are one."""
    found: list[Stretch] = []
    for stretch in stretches:
        if found and not is_meal(found[-1].end, stretch.start):
            found[-1] = Stretch(found[-1].start, stretch.end)
        else:
            found.append(stretch)
    return tuple(found)


def is_meal(out: datetime, back: datetime) -> bool:
    """Whether a break between these instants is long enough for a meal."""
    return minutes_between(out, back) >= MEAL_FROM


def has_short_meal(stretches: Sequence[Stretch]) -> bool:
    """Whether a break inside the call is too short for a meal, and so counts as work."""
    breaks = (minutes_between(one.end, other.start) for one, other in pairwise(stretches))
    return any(0 < minutes < MEAL_FROM for minutes in breaks)


def late_from(since: datetime, rules: Rules) -> datetime | None:
    """From when on a meal is late for who has worked since then; None where no meal is due."""
    return None if rules.meal_by is None else since + timedelta(minutes=rules.meal_by)
