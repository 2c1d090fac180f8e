"""The comparison behind the fastest door: places said on the spot or on file, numbers from 1 on, a statement."""

from collections.abc import Sequence

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import Comparison, House, Position, Slot, Spot
from shows.forms.quick import QuickForm
from shows.tonight import house_with
from shows.wording.plan_words import row_name
from venue.models import Place, Setup
from venue.models import Position as PositionRow


def quick_comparison(form: QuickForm, setup: Setup | None) -> Comparison:
    """What a sound form asks. Nothing is stored."""
    chosen = form.chosen()
    house = house_on_file(setup, chosen) if setup and chosen else house_as_told(form.cleaned_data)
    return compare(house, [Spot(number) for number in form.numbers], form.statement)


def house_on_file(setup: Setup, positions: Sequence[PositionRow]) -> House:
    """All places of the positions that have not ended, in the set-up."""
    places = Place.objects.standing().of_house().filter(position__in=positions).select_related("position")
    zones = dict(setup.zones.values_list("position", "zone"))
    return house_with(setup, list(places), zones)


def house_as_told(told: dict[str, object]) -> House:
    """One row, or one bowl, known by order alone."""
    labels = [str(label) for label in told["labels"]]  # type: ignore[attr-defined]
    slots = tuple(Slot(label, order=order) for order, label in enumerate(labels, start=1))
    return House((Position(row_name(str(told["zone"])), slots, str(told["zone"])),))  # type: ignore[arg-type]
