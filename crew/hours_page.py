"""The hours of a call in words: each person, who is still to come, by which rules."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from crew.core.hours.records import Rules
from crew.hour_rows import Attended, Counted, hours_of_call, meal_due, rules_of
from crew.models import Call, HourRules
from crew.rule_book import RuleBook
from crew.wording.day import clock_words, due_words, minimum_words, waiting_words
from crew.wording.hour_values import flags_words, hours_words, rates_words
from crew.wording.hours import FLAG_SENTENCES


@dataclass(frozen=True)
class ShownHours:
    """One person of a call: times, hours to two places, what to know; the texts are in words already."""

    ref: UUID
    name: str
    times: str
    worked: str
    paid: str
    counted: str
    rates: str
    straight: str
    flags: str
    minimum: str
    due: str


@dataclass(frozen=True)
class CallHours:
    """A call's people with their hours, who is still to come, what the flags mean; `rules` are the sets that hold."""

    rows: tuple[ShownHours, ...]
    waiting: tuple[tuple[str, str], ...]
    legend: tuple[tuple[str, str], ...]
    rules: tuple[HourRules, ...]


def call_hours(call: Call, book: RuleBook) -> CallHours:
    """The hours of the call as far as they can be counted, by the rules of its house and day."""
    done, still = hours_of_call(call, book)
    waiting = (
        (day.person, " · ".join(filter(None, [waiting_words(day), _due(day, call, rules_of(day, book))])))
        for day in still
    )
    flags = dict.fromkeys(flag for each in done for flag in each.count.flags)
    legend = tuple((flags_words([flag]), str(FLAG_SENTENCES[flag])) for flag in flags)
    rules = _rows(call, [*(each.day for each in done), *still], book)
    return CallHours(tuple(_shown(each, call) for each in done), tuple(waiting), legend, rules)


def _rows(call: Call, days: Iterable[Attended], book: RuleBook) -> tuple[HourRules, ...]:
    """The sets by which the days are counted: more than one where rules change while people come."""
    starts = [day.starts for day in days] or [call.call_at]
    rows = (book.row_at(call.engagement.house_id, instant, call.zone) for instant in starts)
    return tuple(dict.fromkeys(row for row in rows if row))


def _shown(each: Counted, call: Call) -> ShownHours:
    day, count = each.day, each.count
    return ShownHours(
        ref=day.person_ref,
        name=day.person,
        times=_span(day, call.call_date),
        worked=hours_words(count.worked),
        paid=hours_words(count.paid),
        counted=hours_words(count.counted),
        rates=rates_words(count.by_rate),
        straight=hours_words(count.straight),
        flags=flags_words(count.flags),
        minimum=minimum_words(each.minimum),
        due=_due(day, call, each.rules),
    )


def _span(day: Attended, base: date) -> str:
    """ "7:00 PM – 9:40 PM": the work that counts."""
    zone = day.call.zone
    ends = clock_words(day.row.out_at, zone, base) if day.row.out_at else "…"
    return f"{clock_words(day.starts, zone, base)} – {ends}"


def _due(day: Attended, call: Call, rules: Rules) -> str:
    due = meal_due(day, rules)
    return "" if due is None else due_words(due, day.since_meal, call.zone, call.call_date)
