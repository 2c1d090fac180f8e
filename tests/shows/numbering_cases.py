"""Houses and spots in few words, for the numbering tests."""

from collections.abc import Mapping, Sequence

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import Comparison, House, Position, Slot, Spot


def row(labels: Sequence[str], name: str = "Rear booth", y: float = -38.0, **position: object) -> Position:
    """A row of lenses 2 m apart about the center line, the labels from house left to house right."""
    start = -(len(labels) - 1)
    slots = tuple(Slot(label, x=start + 2.0 * i, y=y, z=14.0) for i, label in enumerate(labels))
    return Position(name, slots, **position)  # type: ignore[arg-type]


def row_house(*rows: Sequence[str]) -> House:
    """Rows behind one another: Row 1 nearest the back of the house, each 3 m nearer to the stage."""
    return House(tuple(row(labels, f"Row {i}", -38.0 + 3 * i) for i, labels in enumerate(rows, 1)))


def ring(bearings: Mapping[str, float], name: str = "Bowl") -> House:
    """A bowl with a lens at each label's bearing."""
    return House((Position(name, tuple(Slot(label, bearing=at) for label, at in bearings.items()), "bowl"),))


def even_ring(count: int) -> House:
    """A bowl with labels 1 … count clockwise from the stage end."""
    return ring({str(i + 1): 360.0 * i / count for i in range(count)})


def spots(*numbers: object) -> list[Spot]:
    return [Spot(str(number), line=line) for line, number in enumerate(numbers, 2)]


def count_to(count: int) -> list[str]:
    return [str(number) for number in range(1, count + 1)]


def labels_of(comparison: Comparison) -> dict[str, str]:
    """Show number to house label; where labels repeat, to Position/label."""
    house = comparison.house
    return {
        pair.number: (
            f"{house.name_of(pair.slot)}/{house.slots[pair.slot].label}"
            if house.label_keys[pair.slot] in house.repeated_labels
            else house.slots[pair.slot].label
        )
        for pair in comparison.pairs
    }


def by_hand(house: House, assignment: Mapping[str, str], statement: str | None = None) -> Comparison:
    """The comparison of an assignment show number → label."""
    return compare(house, spots(*assignment), statement, assignment)


def codes(comparison: Comparison) -> tuple[str | None, str | None]:
    """(against labels, against statement)."""
    labels, stated = comparison.against_labels, comparison.against_statement
    return (labels.code if labels else None, stated.code if stated else None)


def flags(comparison: Comparison) -> dict[str, dict[str, object]]:
    return {flag.flag: dict(flag.data) for flag in comparison.flags}
