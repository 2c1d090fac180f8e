"""Which positions of a set-up somebody walked, and whether what was seen is what the book says."""

from collections.abc import Mapping

from venue.book import book_of, book_of_positions
from venue.models import OrderWalk, Position, Setup


def walked_positions(setup: Setup) -> Mapping[int, OrderWalk]:
    """The walk in force of each position by the position's primary key, contradicted or not. One query."""
    return {walk.position_id: walk for walk in setup.walks.standing().select_related("left_end")}


def contradicted_positions(setup: Setup) -> frozenset[int]:
    """The primary keys of the house's positions where the walk in force does not fit the book."""
    return frozenset(each.position.pk for each in book_of(setup) if each.is_contradicted)


def is_walked(setup: Setup, position: Position) -> bool:
    """Whether somebody walked the position in this set-up and found what the book says."""
    return book_of_positions(setup, [position])[0].is_walked
