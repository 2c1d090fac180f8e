"""A show's paperwork in, spots and what is wrong with each line out. Pure: bytes or text and one predicate."""

from shows.core.paperwork.headers import FIELDS
from shows.core.paperwork.reader import read_paperwork, read_rows
from shows.core.paperwork.records import (
    MAX_BYTES,
    MAX_FRAMES,
    MAX_ROWS,
    Column,
    LineProblem,
    Paperwork,
    PaperworkUnreadable,
    Row,
    SpotLine,
)

__all__ = [
    "FIELDS",
    "MAX_BYTES",
    "MAX_FRAMES",
    "MAX_ROWS",
    "Column",
    "LineProblem",
    "Paperwork",
    "PaperworkUnreadable",
    "Row",
    "SpotLine",
    "read_paperwork",
    "read_rows",
]
