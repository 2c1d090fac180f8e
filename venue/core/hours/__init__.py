"""The ledger of hours: what meters show, what lamps and units have burnt, and what a reading may say.

Hours are Decimals with two places, instants aware datetimes in UTC, half-open where they bound a time.

    meter 1  812.0 ---- 846.5 |              a unit's meter is replaced
    meter 2                   | 0.0 ---- 12.0
    lamp          [820.0 ......... 10.0)     26.5 + 10.0 = 36.5 lamp hours

A unit's meters follow one another; none counts while another does.
"""

from venue.core.hours.counting import hours_in, lamp_hours, unit_hours
from venue.core.hours.ledger import Fitted, LedgerRow, What, ledger
from venue.core.hours.readings import ReadingCode, ReadingProblem, judge_reading, likely_next, neighbors, run_problems
from venue.core.hours.records import ZERO, Added, Counted, Counts, Mark, MeterRun, Span
from venue.core.hours.use import Curve, hours_by_day, unit_curve, use_per_day

__all__ = [
    "ZERO",
    "Added",
    "Counted",
    "Counts",
    "Curve",
    "Fitted",
    "LedgerRow",
    "Mark",
    "MeterRun",
    "ReadingCode",
    "ReadingProblem",
    "Span",
    "What",
    "hours_by_day",
    "hours_in",
    "judge_reading",
    "lamp_hours",
    "ledger",
    "likely_next",
    "neighbors",
    "run_problems",
    "unit_curve",
    "unit_hours",
    "use_per_day",
]
