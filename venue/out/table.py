"""A list as plain records: what it is called, its columns, its rows as they come from the database."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import TypeVar

from venue.core.csv_text import BYTE_ORDER_MARK, Cell, csv_record

AT_ONCE = 500
"""So many rows are fetched in one go."""
AnyRow = TypeVar("AnyRow")


@dataclass(frozen=True)
class Column:
    """`share` is the part of the paper's width that the column takes, beside the others."""

    name: str
    share: float = 1.0


@dataclass(frozen=True)
class Table:
    """`rows` begins anew with each call; a row has a cell a column. `empty` is said where there is none."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: Callable[[], Iterator[tuple[Cell, ...]]]
    empty: str


def csv_lines(table: Table) -> Iterator[str]:
    """The table as a CSV file, record by record, columns first."""
    yield BYTE_ORDER_MARK + csv_record(column.name for column in table.columns)
    for cells in table.rows():
        yield csv_record(cells)


def in_batches(rows: Iterable[AnyRow]) -> Iterator[Sequence[AnyRow]]:
    """The rows, some at a time."""
    waiting = iter(rows)
    while some := list(islice(waiting, AT_ONCE)):
        yield some
