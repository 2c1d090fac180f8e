"""What the comparison takes in, made from a house file and from paperwork."""

from shows.core.numbering.records import House, Position, Slot, Spot
from shows.core.paperwork import Paperwork, SpotLine
from venue.house_file.records import HouseFile, PositionRecord, SlotRecord


def house_in_file(house_file: HouseFile) -> House:
    """All slots of a house file in its usual set-up."""
    setup = house_file.house.setup
    return House(
        positions=tuple(_position(position, setup.zone_of(position)) for position in house_file.positions),
        target=setup.target,
        prompt_side=setup.prompt_side,
        twelve_deg=setup.twelve_deg,
    )


def _position(position: PositionRecord, zone: str) -> Position:
    return Position(
        name=position.name,
        slots=tuple(_slot(slot) for slot in position.slots),
        zone=zone,  # type: ignore[arg-type]
        kind=position.kind,
        level=position.level or 0.0,
    )


def _slot(slot: SlotRecord) -> Slot:
    return Slot(slot.label, slot.x_m, slot.y_m, slot.z_m, slot.bearing_deg, slot.order)


def spots_on(paperwork: Paperwork) -> list[Spot]:
    """One spot a line of the paperwork."""
    return [_spot(line) for line in paperwork.spots]


def _spot(line: SpotLine) -> Spot:
    return Spot(line.number, line.label, line.position, line.side, line.nth, line.whose_left, line.line)
