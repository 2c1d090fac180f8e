"""A table of times and a house's rules, read together."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from crew.core.hours.notice import start_problem
from crew.core.hours.problems import Problem
from crew.core.hours.reading_rules import rules_in
from crew.core.hours.reading_times import read_times
from crew.core.hours.records import Rules, WorkedCall


@dataclass(frozen=True)
class Asked:
    """Calls and rules; with a problem neither is to be used."""

    calls: tuple[WorkedCall, ...]
    rules: Rules
    times_problems: tuple[Problem, ...]
    rules_problems: tuple[Problem, ...]


def read(times: bytes, rules: bytes, zone: str) -> Asked:
    """Both files; the zone is an IANA name. Starts are held against the rules' grid where they have one."""
    found, read_in = read_times(times, zone), rules_in(rules)
    off_grid = [] if read_in.problems else list(_off_grid(found.calls, read_in.rules, ZoneInfo(zone)))
    problems = sorted([*found.problems, *off_grid], key=lambda problem: problem.line or 0)
    return Asked(tuple(found.calls), read_in.rules, tuple(problems), read_in.problems)


def _off_grid(calls: Iterable[WorkedCall], rules: Rules, zone: ZoneInfo) -> Iterator[Problem]:
    for call in calls:
        if problem := start_problem(call.start, rules, zone):
            line = call.key if isinstance(call.key, int) else None
            yield Problem(problem, line, column="start", data={"grid": rules.start_grid})
