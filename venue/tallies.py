"""The tallies: what is written in the book, added up for each unit and each lamp, so that lists need no counting.

They follow from the other rows alone, whatever the order in which those were entered. Every verb that writes
a reading, hours, a meter or a fitting calls `retally` before its transaction ends.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from decimal import Decimal
from itertools import islice

from venue.care import settle, settle_house
from venue.core.hours import Counted
from venue.ledgers import END_OF_BOOK, Book, needed_book
from venue.models import Fitting, House, Lamp, LampTally, Meter, Unit, UnitTally

AT_ONCE = 200
"""So many units or lamps are counted in one go."""


def retally(unit: Unit) -> None:
    """Count the unit and every lamp that was ever fitted to it anew; its care falls due by the new hours.

    Inside the caller's transaction, after the unit was locked. A constant number of queries.
    """
    lamps = list(Lamp.objects.filter(fittings__unit=unit).select_related("kind").distinct())
    store_tallies([unit], lamps)
    settle(unit)


def retally_units(house: House, units: Sequence[Unit]) -> None:
    """Count many units of the house, and every lamp that was ever fitted to one of them, anew."""
    for some in in_batches(units):
        lamps = Lamp.objects.filter(fittings__unit__in=some).select_related("kind").distinct()
        store_tallies(some, list(lamps))
    settle_house(house)


def retally_house(house: House) -> None:
    """Count every unit and every lamp of the house anew, and have its care fall due by that."""
    for units in in_batches(Unit.objects.filter(house=house).order_by("pk")):
        store_tallies(units, [])
    for lamps in in_batches(Lamp.objects.filter(house=house).select_related("kind").order_by("pk")):
        store_tallies([], lamps)
    settle_house(house)


def retally_lamps(lamps: Iterable[Lamp]) -> None:
    """Count these lamps anew: their kind's limits changed, or they are new on the shelf."""
    for some in in_batches(lamps):
        store_tallies([], some)


def store_tallies(units: Sequence[Unit], lamps: Sequence[Lamp]) -> None:
    """Count these and store what they come to."""
    book = needed_book([unit.pk for unit in units], [lamp.pk for lamp in lamps])
    of_units = [unit_tally(unit, book) for unit in units]
    of_lamps = [lamp_tally(lamp, book) for lamp in lamps]
    UnitTally.objects.bulk_create(
        of_units, update_conflicts=True, unique_fields=["unit"], update_fields=_derived(UnitTally, "unit")
    )
    LampTally.objects.bulk_create(
        of_lamps, update_conflicts=True, unique_fields=["lamp"], update_fields=_derived(LampTally, "lamp")
    )


def unit_tally(unit: Unit, book: Book) -> UnitTally:
    """What the unit comes to by the book; not stored."""
    counted = book.of_unit(unit.pk)
    return UnitTally(
        unit=unit,
        house_id=unit.house_id,
        hours=counted.hours,
        strikes=_known_strikes(counted),
        meter_h=_shown(unit, book),
        counted_to=_counted_to(counted, bool(book.runs.get(unit.pk) or book.added.get(unit.pk))),
    )


def lamp_tally(lamp: Lamp, book: Book, now: datetime = END_OF_BOOK) -> LampTally:
    """What the lamp comes to by the book as it was at an instant; not stored."""
    fittings = [each for each in book.fittings.get(lamp.pk, []) if each.from_at <= now]
    counted = book.of_lamp(lamp, now)
    return LampTally(
        lamp=lamp,
        house_id=lamp.house_id,
        unit_id=_fitted_to(fittings, now),
        hours=counted.hours,
        strikes=_with(_known_strikes(counted), lamp.came_with_strikes),
        left_h=_left(lamp, counted.hours),
        counted_to=_counted_to(counted, bool(fittings)),
    )


def _derived(model: type[UnitTally] | type[LampTally], key: str) -> list[str]:
    return [field.name for field in model._meta.concrete_fields if field.name != key]


def _known_strikes(counted: Counted) -> int | None:
    """Strikes that were read. None read between two counts is zero; one count alone says nothing."""
    return None if counted.strikes == 0 and not counted.strikes_are_all else counted.strikes


def _with(strikes: int | None, before: int) -> int | None:
    return before or None if strikes is None else strikes + before


def _counted_to(counted: Counted, is_counted: bool) -> datetime | None:
    return counted.as_of if is_counted else None


def _left(lamp: Lamp, hours: Decimal) -> Decimal | None:
    stop = lamp.kind.stop_h
    return None if stop is None else stop - hours


def _shown(unit: Unit, book: Book) -> Decimal | None:
    """What the unit's meter showed last; None where it has none now."""
    meters: list[Meter] = book.meters.get(unit.pk, [])
    for meter, run in zip(meters, book.runs.get(unit.pk, []), strict=True):
        if meter.ends_at is None:
            return (run.start, *run.marks)[-1].hours
    return None


def _fitted_to(fittings: Iterable[Fitting], now: datetime) -> int | None:
    return next((each.unit_id for each in fittings if each.until_at is None or each.until_at > now), None)


def in_batches(rows: Iterable, at_once: int = AT_ONCE) -> Iterator[list]:
    """The rows, some at a time."""
    waiting = iter(rows)
    while some := list(islice(waiting, at_once)):
        yield some
