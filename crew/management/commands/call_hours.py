"""manage.py call_hours: hours worked, paid and counted toward overtime, from a table of times and a house's rules."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from django.core.management.base import CommandParser
from django.utils.translation import gettext as _

from crew.core.hours.counting import count_hours
from crew.core.hours.reading import Asked, read
from crew.core.hours.records import HourCount
from crew.core.hours.rounding import hours_in, rate_words, two_places
from crew.core.hours.rules_text import MOST_BYTES
from crew.wording.hours import FLAG_WORDS, problem_at_place
from shows.core.paperwork import MAX_BYTES
from venue.core.local_time import shown
from venue.house_file.times import is_zone, written_instant
from venue.management.command import Answer, AnswerCommand, CommandRefused, Options, input_bytes, one_line


class Command(AnswerCommand):
    help = _("Count the hours of calls: worked, paid, and counted toward overtime.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("times", metavar="TIMES.csv", help=_("a call a line; - reads standard input"))
        parser.add_argument("--rules", required=True, metavar="RULES.json", help=_("the house's rules"))
        parser.add_argument("--zone", required=True, metavar="IANA", help=_("the house's time zone"))

    def answer(self, options: Options) -> Answer:
        zone = _zone(options["zone"])
        asked = _asked(options["times"], options["rules"], zone)
        counts = count_hours(asked.calls, asked.rules, ZoneInfo(zone))
        text = "\n".join(_lines([_header(), *(_row(count, zone) for count in counts)]))
        return Answer([_document(count, zone) for count in counts], text)


def _zone(name: str) -> str:
    if not is_zone(name):
        line = _("--zone: “%(name)s” is no time zone of the IANA database; write one such as America/Chicago")
        raise CommandRefused([line % {"name": name}])
    return name


def _asked(times: str, rules: str, zone: str) -> Asked:
    """What the two files hold. Raises CommandRefused with every problem of both."""
    asked = read(input_bytes(times, MAX_BYTES), input_bytes(rules, MOST_BYTES), zone)
    lines = [f"{times}: {problem_at_place(each)}" for each in asked.times_problems]
    lines += [f"{rules}: {problem_at_place(each)}" for each in asked.rules_problems]
    if lines:
        raise CommandRefused(lines)
    return asked


def _document(count: HourCount, zone: str) -> dict[str, Any]:
    """The call's entry. Hours are not rounded: minutes divided by 60, so that `by_rate` adds up to `paid_h`."""
    return {
        "person": count.call.person,
        "start": written_instant(count.call.start, zone),
        "end": written_instant(count.call.end, zone),
        "worked_h": float(hours_in(count.worked)),
        "paid_h": float(hours_in(count.paid)),
        "counted_h": float(hours_in(count.counted)),
        "by_rate": {rate_words(rate): float(hours_in(minutes)) for rate, minutes in count.by_rate.items()},
        "straight_h": float(hours_in(count.straight)),
        "flags": list(count.flags),
    }


# -- as text: hours to two places, half up ---------------------------------------------------------------


def _header() -> list[str]:
    return [_("person"), _("start"), _("worked"), _("paid"), _("counted"), _("straight"), _("by rate"), _("to know")]


_NUMBERS = range(2, 6)
"""The columns that stand to the right."""


def _row(count: HourCount, zone: str) -> list[str]:
    hours = [_hours(value) for value in (count.worked, count.paid, count.counted, count.straight)]
    flags = ", ".join(str(FLAG_WORDS[flag]) for flag in count.flags)
    return [one_line(count.call.person), shown(count.call.start, zone), *hours, _rates(count.by_rate), flags]


def _rates(by_rate: Mapping[Decimal, int]) -> str:
    return " + ".join(f"{_hours(minutes)} × {rate_words(rate)}" for rate, minutes in by_rate.items())


def _hours(minutes: Decimal | int) -> str:
    return str(two_places(hours_in(minutes)))


def _lines(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """The rows as lines of one table, its columns as wide as what is in them."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        placed = (_placed(at, cell, width) for at, (cell, width) in enumerate(zip(row, widths, strict=True)))
        yield "  ".join(placed).rstrip()


def _placed(at: int, cell: str, width: int) -> str:
    return cell.rjust(width) if at in _NUMBERS else cell.ljust(width)
