"""The people of a roster as a list that leaves the house, to be read again as a file of people."""

from collections.abc import Iterator

from django.db.models import Prefetch
from django.utils.translation import gettext as _

from crew.core.people_table import WRITTEN
from crew.models import Certification, Person, Roster
from crew.wording.people import certification_name
from venue.core.csv_text import Cell
from venue.out.table import AT_ONCE, Column, Table


def people_table(roster: Roster) -> Table:
    """Everybody on the roster now, with contacts: for dispatch alone."""
    columns = tuple(Column(name) for name in WRITTEN.values())
    return Table("people", roster.name, columns, lambda: _rows(roster), _("Nobody is on this roster yet."))


def _rows(roster: Roster) -> Iterator[tuple[Cell, ...]]:
    held = Certification.objects.standing().filter(kind__ended_at__isnull=True).select_related("kind", "house")
    people = roster.persons.standing().prefetch_related(
        Prefetch("certifications", held.order_by("kind__name", "pk"), "held")
    )
    return map(_row, people.iterator(chunk_size=AT_ONCE))


def _row(person: Person) -> tuple[Cell, ...]:
    cells = {name: getattr(person, name, None) for name in WRITTEN}
    cells["certifications"] = "; ".join(map(_written, person.held))  # type: ignore[attr-defined]
    return tuple(cells.values())


def _written(each: Certification) -> str:
    name = certification_name(each)
    return f"{name}: {each.expires_on.isoformat()}" if each.expires_on else name
