"""What is paid beyond what was worked: minimums, increments, reporting time. Minutes in, minutes out.

Beyond its minimum a call is paid in whole increments, each from the minute on which it begins. A show call has its own
minimum; who is called back within the gap of a recall has the recall's, shows excepted. All common practice, no source,
but for reporting time, which follows the wage orders of the California IWC, section 5.
"""

from datetime import timedelta
from math import ceil

from crew.core.hours.records import SHOW, Rules, WorkedCall, minutes_between


def minimum_of(call: WorkedCall, rules: Rules, is_back: bool) -> int:
    """The least that is paid for the call; `is_back` tells whether it is a recall."""
    if is_show(call) and rules.show_minimum is not None:
        return rules.show_minimum
    return rules.recall if is_back else rules.minimum


def is_show(call: WorkedCall) -> bool:
    """Whether it is a show's call, by the kind that somebody wrote: show, show call."""
    return call.kind.casefold().removesuffix("call").strip(" -_") == SHOW


def is_recall(before: WorkedCall | None, call: WorkedCall, rules: Rules) -> bool:
    """Whether the person is back within the gap after the call before."""
    if before is None or rules.recall_gap is None:
        return False
    return call.start - before.end <= timedelta(minutes=rules.recall_gap)


def increments(worked: int, minimum: int, increment: int) -> int:
    """What is added to the minutes worked so that those beyond the minimum are whole increments."""
    return -(worked - minimum) % increment if increment and worked > minimum else 0


def reporting_pay(call: WorkedCall, worked: int, rules: Rules) -> int:
    """The least that is due to who was sent home early; nothing where no end was scheduled or enough was worked."""
    if rules.reporting is None or call.scheduled_end is None:
        return 0
    share = rules.reporting.share * minutes_between(call.start, call.scheduled_end)
    if worked >= share:
        return 0
    return max(rules.reporting.least, min(rules.reporting.most, ceil(share)))
