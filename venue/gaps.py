"""What is not recorded, and on which page somebody writes it."""

from collections.abc import Iterator
from dataclasses import dataclass
from uuid import UUID

from django.utils.translation import gettext as _

from venue.models import Circuit, Place, Position, Unit


@dataclass(frozen=True)
class Gap:
    """What is missing in words, the name of the page where it is written, and the row; "" where nobody may here."""

    words: str
    page: str = ""
    ref: UUID | None = None


def unit_gap(words: str, unit: Unit) -> Gap:
    """Something of a unit: "weight of FS-01"."""
    told = _("%(what)s of %(unit)s") % {"what": words, "unit": unit}
    return Gap(told) if unit.has_ended else Gap(told, "venue:unit_edit", unit.ref)


def circuit_gaps(circuit: Circuit) -> Iterator[Gap]:
    """What the circuit's own form leaves open."""
    missing = {
        _("the circuit's volts"): circuit.volts,
        _("the circuit's rating"): circuit.rating_a,
        _("what else draws on it"): circuit.other_a,
    }
    for words, value in missing.items():
        if value is None:
            yield Gap(words) if circuit.has_ended else Gap(words, "venue:circuit_edit", circuit.ref)


def position_gap(words: str, position: Position) -> Gap:
    """Something of a position."""
    is_open = position.only_for is None and not position.has_ended
    return Gap(words, "venue:position_edit", position.ref) if is_open else Gap(words)


def place_gap(words: str, place: Place, page: str = "venue:place_edit") -> Gap:
    """Something of a place."""
    is_open = place.only_for is None and place.position.only_for is None and not place.has_ended
    return Gap(words, page, place.ref) if is_open and not place.position.has_ended else Gap(words)
