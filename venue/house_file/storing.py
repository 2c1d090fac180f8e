"""Storing a house file: all or nothing, each row by the verb that would have made or changed it by hand."""

from collections.abc import Callable
from datetime import datetime

from django.db import transaction

from venue import actions
from venue.history import Actor
from venue.house_file.book.completing import completed
from venue.house_file.book.loading import load_book
from venue.house_file.book.pairing import everything
from venue.house_file.checking.hours import hours_problems
from venue.house_file.differences import differences
from venue.house_file.gathering import gathered
from venue.house_file.loading import columns_of_house, columns_of_setup, load
from venue.house_file.overlay import overlaid
from venue.house_file.problems import HouseExists, HouseFileRefused
from venue.house_file.records import Book, HouseFile
from venue.house_file.rows import Rows
from venue.models import House


@transaction.atomic
def store_house(
    house_file: HouseFile,
    *,
    actor: Actor,
    now: datetime,
    update: bool = False,
    make_house: Callable[..., House] = actions.make_house,
) -> House:
    """The house of the file as it is stored now. `slots[].unit` stands there from `now` on.

    A house of the same slug is only changed with `update`: things are matched by position and label, tag, serial,
    name, code, or unit and time, what the file leaves out stays, nothing ends. `make_house` opens a new one. Raises
    HouseExists, HouseFileRefused; then nothing is stored.
    """
    stored = None
    house = House.objects.select_for_update().filter(slug=house_file.house.slug).first()
    if house is None:
        house = _made(house_file, actor, make_house)
    else:
        _hold_units(house)
        stored = gathered(house)
        if not update:
            raise HouseExists(house.slug, differences(stored, house_file))
        house_file = overlaid(stored, house_file)
    rows = Rows(actor=actor, now=now, house=house)
    load(rows, house_file)
    _load_book(rows, Book() if stored is None else stored.book, house_file.book)
    if rows.problems:
        raise HouseFileRefused(rows.problems)
    return house


def _hold_units(house: House) -> None:
    """Whoever writes hours holds the unit first."""
    list(house.units.select_for_update().order_by("pk").values_list("pk", flat=True))


def _load_book(rows: Rows, stored: Book, laid: Book) -> None:
    """The rules of the ledger hold for what the file says and what is stored together."""
    whole = completed(everything(stored, laid))
    rows.problems += hours_problems(whole, rows.house.time_zone)
    if not rows.problems:
        load_book(rows, stored, whole)


def _made(house_file: HouseFile, actor: Actor, make_house: Callable[..., House]) -> House:
    house = house_file.house
    facts = columns_of_house(house)
    return make_house(actor=actor, slug=house.slug, setup=columns_of_setup(house.setup), **facts)
