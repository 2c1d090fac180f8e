"""A whole file."""

from dataclasses import dataclass, field

from venue.house_file.keys import Written
from venue.house_file.problems import Problem
from venue.house_file.records.care import CarePlanRecord, FaultRecord, LightRecord, LogRecord
from venue.house_file.records.hours import (
    AddedRecord,
    FittingRecord,
    LampKindRecord,
    LampRecord,
    MeterRecord,
    ReadingRecord,
)
from venue.house_file.records.house import (
    ElsewhereRecord,
    HouseRecord,
    PlacementRecord,
    PositionRecord,
    SetupRecord,
    UnitRecord,
)
from venue.house_file.records.light import CircuitRecord, FilterRecord, SizeRecord

BOOK: dict[str, type[Written]] = {
    "lamp_kinds": LampKindRecord,
    "lamps": LampRecord,
    "meters": MeterRecord,
    "readings": ReadingRecord,
    "hours_added": AddedRecord,
    "faults": FaultRecord,
    "log": LogRecord,
    "care_plans": CarePlanRecord,
    "light_readings": LightRecord,
}
"""The sections about lamps, hours and care, with what each entry is."""

STOCK: dict[str, type[Written]] = {"circuits": CircuitRecord, "filters": FilterRecord, "sizes": SizeRecord}
"""The sections about what units draw from and light through, with what each entry is."""


@dataclass(frozen=True)
class Book:
    """What the house wrote down about its lamps, hours and care, section by section."""

    lamp_kinds: tuple[LampKindRecord, ...] = ()
    lamps: tuple[LampRecord, ...] = ()
    meters: tuple[MeterRecord, ...] = ()
    readings: tuple[ReadingRecord, ...] = ()
    hours_added: tuple[AddedRecord, ...] = ()
    faults: tuple[FaultRecord, ...] = ()
    log: tuple[LogRecord, ...] = ()
    care_plans: tuple[CarePlanRecord, ...] = ()
    light_readings: tuple[LightRecord, ...] = ()

    @property
    def fittings(self) -> tuple[FittingRecord, ...]:
        """Every fitting of every lamp."""
        return tuple(fitting for lamp in self.lamps for fitting in lamp.fitted)


@dataclass(frozen=True)
class HouseFile:
    """A whole file. `elsewhere` are placements at no place; `warnings` name what is odd but may be meant."""

    house: HouseRecord
    positions: tuple[PositionRecord, ...] = ()
    setups: tuple[SetupRecord, ...] = ()
    circuits: tuple[CircuitRecord, ...] = ()
    filters: tuple[FilterRecord, ...] = ()
    sizes: tuple[SizeRecord, ...] = ()
    units: tuple[UnitRecord, ...] = ()
    placements: tuple[PlacementRecord, ...] = ()
    elsewhere: tuple[ElsewhereRecord, ...] = ()
    book: Book = Book()
    warnings: tuple[Problem, ...] = field(default=(), compare=False)
