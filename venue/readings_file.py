"""A file of readings held against the book: every problem by its line, and the rows to store if there is none.

The readings of a meter are judged in the order of their times, whatever the order of the lines, together with
those that are stored already.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.db.models import OuterRef, Q, Subquery

from venue.core.hours import Mark, ReadingProblem, judge_reading
from venue.core.reading_lines import LineReading, read_lines
from venue.judging import CLOCKS_DIFFER, REFUSED_AT_ONE_TIME, STRIKE_CODES, read_already
from venue.ledgers import MARK_COLUMNS, run_of
from venue.models import House, Meter, Reading, Unit
from venue.models.meters import Cause
from venue.wording_hours import line_sentence, no_meter_sentence, no_unit_sentence, problem_sentence

MOST_BYTES = 2 * 1024 * 1024


@dataclass(frozen=True)
class FileProblem:
    """What is wrong or asked, by the line of the file."""

    line: int
    text: str


@dataclass
class JudgedFile:
    """What came of a file. `problems` keep it out; `questions` want a yes; `readings` are the rows to store.

    `already` counts lines that say what the book says; `unknown` are columns that nobody knows.
    """

    readings: list[Reading] = field(default_factory=list)
    problems: list[FileProblem] = field(default_factory=list)
    questions: list[FileProblem] = field(default_factory=list)
    units: dict[int, Unit] = field(default_factory=dict)
    already: int = 0
    unknown: tuple[str, ...] = ()

    @property
    def is_sound(self) -> bool:
        return not self.problems


def text_of(content: bytes) -> str:
    """The file's text: UTF-8, UTF-16 by its mark, else as spreadsheets of old write it."""
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", "replace")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", "replace")


def judge_file(house: House, text: str, now: datetime) -> JudgedFile:
    """Read the text and hold it against the book. The number of queries does not depend on its length."""
    read = read_lines(text, house.time_zone, now + CLOCKS_DIFFER)
    judged = JudgedFile(unknown=read.unknown)
    judged.problems += [FileProblem(problem.line, line_sentence(problem)) for problem in read.problems]
    units = {unit.tag_key: unit for unit in house.units.standing()}
    known = [line for line in read.readings if line.unit_key in units]
    judged.problems += [
        FileProblem(line.line, no_unit_sentence(line.tag)) for line in read.readings if line.unit_key not in units
    ]
    judged.units = {units[line.unit_key].pk: units[line.unit_key] for line in known}
    _judge_units(house, known, units, judged)
    judged.problems.sort(key=lambda problem: problem.line)
    judged.questions.sort(key=lambda problem: problem.line)
    return judged


def _judge_units(house: House, lines: Sequence[LineReading], units: dict[str, Unit], judged: JudgedFile) -> None:
    meters: dict[int, list[Meter]] = defaultdict(list)
    for meter in Meter.objects.filter(unit__in=judged.units).order_by("starts_at"):
        meters[meter.unit_id].append(meter)
    of_meter: dict[int, list[LineReading]] = defaultdict(list)
    for line in lines:
        found = _meter_of(meters[units[line.unit_key].pk], line.at)
        if found is None:
            judged.problems.append(FileProblem(line.line, no_meter_sentence(line.tag)))
        else:
            of_meter[found.pk].append(line)
    stored = _stored(of_meter.keys(), [line.at for line in lines])
    for rows in meters.values():
        for meter in rows:
            if meter.pk in of_meter:
                _judge_meter(house, meter, of_meter[meter.pk], stored[meter.pk], judged)


def _meter_of(meters: Iterable[Meter], at: datetime) -> Meter | None:
    for meter in meters:
        if meter.starts_at <= at and (meter.ends_at is None or at < meter.ends_at):
            return meter
    return None


def _stored(meters: Collection[int], times: Sequence[datetime]) -> dict[int, list[Mark]]:
    """The readings of the meters in the file's time, and for each meter the nearest before and after it."""
    found: dict[int, list[Mark]] = defaultdict(list)
    if not times:
        return found
    first, last = min(times), max(times)
    counting = Reading.objects.counting()
    own = counting.filter(meter=OuterRef("pk"))
    before, after = own.filter(at__lt=first), own.filter(at__gt=last)
    nearest: dict[str, Any] = {
        "before": before.order_by("-at"),
        "after": after.order_by("at"),
        "told_before": before.filter(strikes__isnull=False).order_by("-at"),
        "told_after": after.filter(strikes__isnull=False).order_by("at"),
    }
    ends = {name: Subquery(rows.values("pk")[:1]) for name, rows in nearest.items()}
    keys = Meter.objects.filter(pk__in=meters).order_by().annotate(**ends).values_list(*ends)
    wanted = {key for row in keys for key in row if key is not None}
    inside = Q(meter__in=meters, at__gte=first, at__lte=last)
    rows = counting.filter(inside | Q(pk__in=wanted)).order_by("at", "hours")
    for meter, at, hours, strikes, key in rows.values_list(*MARK_COLUMNS):
        found[meter].append(Mark(at, hours, strikes, key))
    return found


def _judge_meter(
    house: House, meter: Meter, lines: Sequence[LineReading], stored: Sequence[Mark], judged: JudgedFile
) -> None:
    """Walk the meter's readings by time, old and new; a line that is refused is passed over by the next."""
    new = [Mark(line.at, line.hours, line.strikes, line) for line in lines]
    walk = sorted([*stored, *new], key=lambda mark: (mark.at, isinstance(mark.key, LineReading), _line(mark)))
    before = run_of(meter).start
    told = before if before.strikes is not None else None
    is_start = True
    for mark in walk:
        if not _is_taken(house, mark, before, told, is_start, judged):
            continue
        if isinstance(mark.key, LineReading):
            judged.readings.append(_row(meter, mark))
        before, is_start = mark, False
        told = mark if mark.strikes is not None else told


def _line(mark: Mark) -> int:
    return mark.key.line if isinstance(mark.key, LineReading) else 0


def _is_taken(house: House, mark: Mark, before: Mark, told: Mark | None, is_start: bool, judged: JudgedFile) -> bool:
    """Whether the walk goes on from the reading: stored ones always, new ones if nothing refuses them."""
    if isinstance(mark.key, LineReading) and mark.at == before.at and not is_start and _says_the_same(mark, before):
        judged.already += 1
        return False
    problems = _step_problems(before, told, mark, is_start)
    blamed = mark.key if isinstance(mark.key, LineReading) else before.key
    if not isinstance(blamed, LineReading):
        return True
    refusals = [each for each in problems if not each.is_question or each.code in REFUSED_AT_ONE_TIME]
    into = judged.problems if refusals else judged.questions
    into += [FileProblem(blamed.line, problem_sentence(each, house.time_zone)) for each in refusals or problems]
    return not refusals or not isinstance(mark.key, LineReading)


def _says_the_same(mark: Mark, before: Mark) -> bool:
    return mark.hours == before.hours and mark.strikes in (None, before.strikes)


def _step_problems(before: Mark, told: Mark | None, mark: Mark, is_start: bool) -> list[ReadingProblem]:
    """What is wrong between two readings; a stored one after a new one is what the new one is held against."""
    if mark.at == before.at and not is_start:
        return [read_already(before, mark)]
    if isinstance(mark.key, LineReading):
        found = list(judge_reading(before, None, mark))
    else:
        found = list(judge_reading(None, mark, before))
    if is_start and mark.hours == before.hours:
        found = [problem for problem in found if problem.code not in REFUSED_AT_ONE_TIME]
    if before.strikes is None and told is not None and mark.strikes is not None:
        found += [each for each in judge_reading(told, None, mark) if each.code in STRIKE_CODES]
    return found


def _row(meter: Meter, mark: Mark) -> Reading:
    return Reading(meter=meter, at=mark.at, hours=mark.hours, strikes=mark.strikes, cause=Cause.FILE)
