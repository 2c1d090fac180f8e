"""A new reading held against those that its meter has, on both sides, whichever was entered first."""

from datetime import datetime, timedelta
from decimal import Decimal

from django.db.models import Q, QuerySet
from django.utils import timezone

from venue.core.hours import Mark, ReadingProblem, judge_reading
from venue.errors import LiesAhead, NoMeter, ReadingQuestioned, ReadingRefused
from venue.ledgers import mark_of, run_of
from venue.models import Meter, Reading, Unit

CLOCKS_DIFFER = timedelta(minutes=5)
"""A phone's clock may be ahead of the server's by so much."""
REFUSED_AT_ONE_TIME = frozenset({"same-time"})
STRIKE_CODES = frozenset({"strikes-backward"})


def require_done(at: datetime, zone: str) -> None:
    """Raise LiesAhead if the instant is still to come."""
    if at > timezone.now() + CLOCKS_DIFFER:
        raise LiesAhead(at, zone)


def find_meter(unit: Unit, at: datetime) -> Meter | None:
    """The unit's meter at the instant, held until the transaction ends; None where it had none."""
    meters = unit.meters.filter(Q(ends_at__isnull=True) | Q(ends_at__gt=at), starts_at__lte=at)
    return meters.select_for_update().first()


def meter_at(unit: Unit, at: datetime) -> Meter:
    """The unit's meter at the instant, held until the transaction ends. Raises NoMeter."""
    meter = find_meter(unit, at)
    if meter is None:
        raise NoMeter(unit, at, unit.house.time_zone)
    return meter


def last_before(meter: Meter, at: datetime) -> Mark:
    """The meter's last reading up to the instant, its start where there is none."""
    reading = _counting(meter).filter(at__lte=at).last()
    return run_of(meter).start if reading is None else mark_of(reading)


def require_sound(meter: Meter, new: Mark, *, confirmed: bool, zone: str) -> None:
    """Raise ReadingRefused if the meter can't have shown that, ReadingQuestioned if it is odd and not confirmed."""
    problems = problems_of(meter, new)
    refusals = [problem for problem in problems if not problem.is_question or problem.code in REFUSED_AT_ONE_TIME]
    if refusals:
        raise ReadingRefused(refusals, zone)
    if problems and not confirmed:
        raise ReadingQuestioned(problems, zone)


def problems_of(meter: Meter, new: Mark) -> tuple[ReadingProblem, ...]:
    """What is wrong or odd about a reading of the meter, refusals first."""
    start, readings = run_of(meter).start, _counting(meter)
    before, after = readings.filter(at__lte=new.at).last(), readings.filter(at__gt=new.at).first()
    if before is not None and before.at == new.at:
        return (read_already(mark_of(before), new),)
    problems = judge_reading(_mark(before) or start, _mark(after), new)
    if before is None and new.hours == start.hours:  # the first reading may repeat what the meter started with
        problems = tuple(problem for problem in problems if problem.code not in REFUSED_AT_ONE_TIME)
    if new.strikes is None or any(problem.code in STRIKE_CODES for problem in problems):
        return problems
    return (*_strikes_backward(readings, new), *problems)


def read_already(there: Mark, new: Mark) -> ReadingProblem:
    """The meter was read at that very time: only one of the two can count."""
    return ReadingProblem("same-time", there, new.hours - there.hours, Decimal(0))


def _strikes_backward(readings: QuerySet[Reading], new: Mark) -> tuple[ReadingProblem, ...]:
    """Strikes against the nearest readings that have some: those between may have none."""
    told = readings.filter(strikes__isnull=False)
    before, after = told.filter(at__lte=new.at).last(), told.filter(at__gt=new.at).first()
    problems = judge_reading(_mark(before), _mark(after), new)
    return tuple(problem for problem in problems if problem.code in STRIKE_CODES)


def require_addable(
    since: datetime | None, at: datetime, hours: Decimal, strikes: int | None, *, confirmed: bool, zone: str
) -> None:
    """Raise ReadingRefused if hours added are more than the clock allows since the last thing known, at `since`
    (None: nothing is), ReadingQuestioned if they are odd and not confirmed.
    """
    if since is None:
        return
    start = Mark(since, Decimal(0), None if strikes is None else 0)
    found = judge_reading(start, None, Mark(at, hours, strikes))
    problems = [problem for problem in found if problem.code not in REFUSED_AT_ONE_TIME]
    if any(not problem.is_question for problem in problems):
        raise ReadingRefused(problems, zone, is_added=True)
    if problems and not confirmed:
        raise ReadingQuestioned(problems, zone, is_added=True)


def _mark(reading: Reading | None) -> Mark | None:
    return None if reading is None else mark_of(reading)


def _counting(meter: Meter) -> QuerySet[Reading]:
    return Reading.objects.counting().filter(meter=meter).order_by("at", "hours")
