"""What no constraint of the database can hold: meters never run backward, fittings go by readings of their own
meters, and the tallies are what the book adds up to. Everything is read anew, nothing is taken from the tallies.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from venue.core.hours import Mark, run_problems
from venue.ledgers import Book, whole_book
from venue.models import Fitting, House, Lamp, LampTally, Meter, Reading, Unit, UnitTally
from venue.tallies import in_batches, lamp_tally, unit_tally

AT_ONCE = 50
UNIT_COLUMNS = ("hours", "strikes", "meter_h", "counted_to")
LAMP_COLUMNS = ("unit_id", "hours", "strikes", "left_h", "counted_to")

CheckCode = Literal["backward", "strikes-backward", "faster-than-clock", "outside", "stray", "tally"]


@dataclass(frozen=True)
class CheckProblem:
    """What is wrong about `subject`, a unit's tag or a lamp's serial, at an instant if it has one."""

    code: CheckCode
    subject: str
    at: datetime | None = None
    found: str = ""
    expected: str = ""


@dataclass
class Checked:
    """How much was looked at, and every problem."""

    units: int = 0
    readings: int = 0
    lamps: int = 0
    problems: tuple[CheckProblem, ...] = ()


def check_house(house: House) -> Checked:
    """Look at every meter, fitting and tally of the house."""
    checked, problems = Checked(), list[CheckProblem]()
    for units in in_batches(Unit.objects.filter(house=house).order_by("tag_key", "pk"), AT_ONCE):
        book = whole_book([unit.pk for unit in units], [])
        checked.units += len(units)
        for unit in units:
            runs = book.runs.get(unit.pk, [])
            checked.readings += sum(len(run.marks) for run in runs)
            problems += _run_problems(unit, book)
        problems += _tally_problems(units, book)
    every_lamp = Lamp.objects.filter(house=house).select_related("kind")
    for lamps in in_batches(every_lamp.order_by("serial_key", "pk"), AT_ONCE):
        checked.lamps += len(lamps)
        problems += _lamp_problems(lamps)
    problems += _strays(house)
    checked.problems = tuple(problems)
    return checked


def _run_problems(unit: Unit, book: Book) -> Iterator[CheckProblem]:
    for run in book.runs.get(unit.pk, []):
        for mark, problem in run_problems(run):
            if not problem.is_question:
                code: Any = problem.code
                yield CheckProblem(code, unit.tag, mark.at, _shown(code, mark), _shown(code, problem.other))
        for mark in run.marks:
            if mark.at < run.starts_at or (run.ends_at is not None and mark.at > run.ends_at):
                yield CheckProblem("outside", unit.tag, mark.at, f"{mark.hours}")


def _shown(code: str, mark: Mark) -> str:
    return f"{mark.strikes}" if code == "strikes-backward" else f"{mark.hours}"


def _tally_problems(units: Sequence[Unit], book: Book) -> Iterator[CheckProblem]:
    stored = {tally.unit_id: tally for tally in UnitTally.objects.filter(unit__in=units)}
    for unit in units:
        if unit.pk in stored or book.runs.get(unit.pk) or book.added.get(unit.pk):
            yield from _differences(unit.tag, stored.get(unit.pk), unit_tally(unit, book), UNIT_COLUMNS)


def _lamp_problems(lamps: Sequence[Lamp]) -> Iterator[CheckProblem]:
    book = whole_book([], [lamp.pk for lamp in lamps])
    stored = {tally.lamp_id: tally for tally in LampTally.objects.filter(lamp__in=lamps)}
    for lamp in lamps:
        yield from _differences(lamp.serial, stored.get(lamp.pk), lamp_tally(lamp, book), LAMP_COLUMNS)


def _differences(subject: str, stored: object, counted: object, columns: Iterable[str]) -> Iterator[CheckProblem]:
    if stored is None:
        yield CheckProblem("tally", subject, found="none", expected=f"{getattr(counted, 'hours', '')}")
        return
    for column in columns:
        found, expected = getattr(stored, column), getattr(counted, column)
        if found != expected:
            yield CheckProblem("tally", subject, found=f"{column} {found}", expected=f"{expected}")


def _strays(house: House) -> Iterator[CheckProblem]:
    """Fittings that go by a struck reading, or by one of another unit's meter."""
    rows = Fitting.objects.real().filter(unit__house=house).select_related("unit", "from_reading", "until_reading")
    meters = dict(Meter.objects.filter(unit__house=house).values_list("pk", "unit"))
    for fitting in rows.order_by("unit", "from_at"):
        for reading in (fitting.from_reading, fitting.until_reading):
            if reading is not None and _is_stray(reading, fitting, meters):
                yield CheckProblem("stray", fitting.unit.tag, reading.at, f"{reading.hours}")


def _is_stray(reading: Reading, fitting: Fitting, meters: dict[int, int]) -> bool:
    return reading.is_struck or meters.get(reading.meter_id) != fitting.unit_id
