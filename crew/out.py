"""Lists that leave the house: which there are, as CSV and on paper."""

from datetime import date, datetime
from itertools import islice

from django.utils.translation import gettext as _

from crew.sheets.pen import Paper
from crew.sheets.table import PrintedTable, table_pdf
from venue.core.csv_text import cell_text
from venue.core.local_time import wall_time
from venue.errors import DomainError
from venue.models import House
from venue.out.hours import lamp_hours
from venue.out.inventory import inventory
from venue.out.log import log
from venue.out.table import Table

MOST_PRINTED = 5000


class TooLongForPaper(DomainError):
    """The list has more rows than one print takes."""

    sentence = _("More than %(most)s lines are too many for one print. Choose fewer days, or take the CSV file.")

    def __init__(self, most: int) -> None:
        self.most = most


def list_named(name: str, house: House, now: datetime, first: date, last: date) -> Table:
    """The list of this name: inventory, hours, or log (of the days from `first` to `last`)."""
    if name == "log":
        return log(house, first, last)
    return inventory(house, now) if name == "inventory" else lamp_hours(house, now)


def printed_list(table: Table, house: House, now: datetime, paper: Paper) -> bytes:
    """The list as PDF. Raises TooLongForPaper."""
    rows = tuple(islice(table.rows(), MOST_PRINTED + 1))
    if len(rows) > MOST_PRINTED:
        raise TooLongForPaper(MOST_PRINTED)
    printed = PrintedTable(
        title=table.title,
        house=house.name,
        columns=tuple((column.name, column.share) for column in table.columns),
        rows=tuple(tuple(map(cell_text, row)) for row in rows),
        empty=table.empty,
        printed_at=wall_time(now, house.time_zone),
    )
    return table_pdf(printed, paper)
