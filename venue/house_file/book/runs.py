"""Which meter showed what: a unit's meters one after another, each with its readings.

meter 1  [812.0 ---- 846.5]                  a meter that is replaced at T
meter 2                   [0.0 ---- 12.0     both may have a reading at T
"""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from itertools import pairwise

from venue.core.names import name_key
from venue.house_file.records.hours import MeterRecord, ReadingRecord


@dataclass
class Run:
    """A meter and its readings."""

    meter: MeterRecord
    readings: list[ReadingRecord] = field(default_factory=list)

    def has(self, at: datetime) -> bool:
        """Whether the meter was there, its end included: its last reading may be of that instant."""
        ends_at = self.meter.ends_at
        return self.meter.starts_at <= at and (ends_at is None or at <= ends_at)


class Runs:
    """The meters of all units, by unit and time."""

    def __init__(self, meters: Iterable[MeterRecord]) -> None:
        self.of_unit: dict[str, list[Run]] = defaultdict(list)
        for meter in sorted(meters, key=lambda each: each.starts_at):
            self.of_unit[meter.unit_key].append(Run(meter))
        self._starts = {unit: [run.meter.starts_at for run in runs] for unit, runs in self.of_unit.items()}

    def all(self) -> Iterable[Run]:
        return (run for runs in self.of_unit.values() for run in runs)

    def at(self, unit: str, at: datetime) -> list[Run]:
        """The meters that the unit, by its key, had then: none, one, or two where one ends and another begins."""
        runs = self.of_unit.get(unit, [])
        index = bisect_right(self._starts.get(unit, []), at)
        return [run for run in runs[max(0, index - 2) : index] if run.has(at)]

    def take(self, reading: ReadingRecord) -> Run | None:
        """The meter that the reading is of, which has it from now on; None: the unit had none then."""
        found = self.at(name_key(reading.unit), reading.at)
        if not found:
            return None
        run = found[0] if reading.closes_meter else _by_hours(found, reading.hours)
        run.readings.append(reading)
        return run


def _by_hours(runs: list[Run], hours: Decimal) -> Run:
    """Where one meter ends and another begins, it is the one that begins if that began with these hours."""
    return runs[-1] if runs[-1].meter.starts_h == hours else runs[0]


def ended_by_next(meters: Iterable[MeterRecord]) -> dict[int, datetime]:
    """The ends of meters that have none but are followed by another of their unit, by the id of the record."""
    by_unit: dict[str, list[MeterRecord]] = defaultdict(list)
    for meter in sorted(meters, key=lambda each: each.starts_at):
        by_unit[meter.unit_key].append(meter)
    found = {}
    for each in by_unit.values():
        for meter, following in pairwise(each):
            if meter.ends_at is None and following.starts_at > meter.starts_at:
                found[id(meter)] = following.starts_at
    return found
