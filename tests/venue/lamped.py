"""Lamps, meters and readings for tests, each in one call, on invented units."""

from datetime import datetime
from decimal import Decimal
from typing import Any

from tests.factories import ACTOR, NOON, hours, make_unit
from venue.actions import add_hours, add_lamp, add_lamp_kind, fit_lamp, put_meter, read_meter
from venue.models import Fitting, House, Lamp, LampKind, Reading, Unit


def day(number: float) -> datetime:
    """So many days after noon of the first."""
    return NOON + hours(24 * number)


def h(text: float | str) -> Decimal:
    return Decimal(str(text))


def a_kind(house: House, name: str = "2 kW short-arc", **facts: Any) -> LampKind:
    """A kind with 1,000 rated hours and two spares on the shelf."""
    facts = {"source": "short-arc", "rated_h": 1000.0, "spares": 2, **facts}
    return add_lamp_kind(actor=ACTOR, house=house, name=name, **facts)


def a_lamp(kind: LampKind, serial: str = "L-1", **facts: Any) -> Lamp:
    return add_lamp(actor=ACTOR, kind=kind, serial=serial, **facts)


def a_unit(house: House | None = None, tag: str = "FS-01", starts: float = 500, **facts: Any) -> Unit:
    """A short-arc unit with a meter from day 0."""
    unit = make_unit(house, tag=tag, **{"source": "short-arc", **facts})
    put_meter(actor=ACTOR, unit=unit, at=day(0), starts_h=h(starts))
    return unit


def read(unit: Unit, at: float, shows: float, **more: Any) -> Reading:
    return read_meter(actor=ACTOR, unit=unit, at=day(at), hours=h(shows), **more)


def fit(unit: Unit, at: float, lamp: Lamp, shows: float | None = None, **more: Any) -> Fitting:
    shown = None if shows is None else h(shows)
    return fit_lamp(actor=ACTOR, unit=unit, at=day(at), lamp=lamp, meter_in_h=shown, **more)


def burned(thing: Unit | Lamp) -> Decimal:
    """The stored tally's hours, read anew."""
    return type(thing).objects.select_related("tally").get(pk=thing.pk).tally.hours


def hour_rows(unit: Unit, now: datetime) -> dict[str, Any]:
    """What stands in the addresses of hours and lamps, made where the unit has none: all before `now`."""
    house, first = unit.house, now - hours(48)
    if not unit.meters.exists():
        put_meter(actor=ACTOR, unit=unit, at=first, starts_h=h(500))
    kind = house.lamp_kinds.standing().first() or a_kind(house)
    if not house.lamps.standing().exists():
        fit_lamp(actor=ACTOR, unit=unit, at=first, lamp=a_lamp(kind), meter_in_h=h(500))
    readings = Reading.objects.counting().filter(meter__unit=unit)
    if not readings.exists():
        read_meter(actor=ACTOR, unit=unit, at=first, hours=h(500))
    if not unit.hours_added.exists():
        add_hours(actor=ACTOR, unit=unit, at=now - hours(1), hours=h(0.5), confirmed=True)
    lamp = house.lamps.standing().first()
    rows = {"reading": readings.first(), "added": unit.hours_added.first(), "lamp": lamp, "kind": kind}
    return {name: row.ref for name, row in rows.items()}
