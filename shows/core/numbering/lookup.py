"""House labels named by the paperwork, or by hand, to slots."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from shows.core.numbering.numbers import Numbers
from shows.core.numbering.place_words import positions_named
from shows.core.numbering.records import House, Spot
from venue.core.labels import label_key, plain_text


@dataclass(frozen=True)
class Seat:
    """One light wanted: a number's line, or a further light of its team (no line)."""

    key: str
    number: str
    spot: Spot | None
    label: str | None


@dataclass(frozen=True)
class UnknownLabel:
    """A label that fits no slot, or several: those found, as `Position/label`."""

    seat: Seat
    found: tuple[str, ...]


def seats_of(numbers: Numbers, assign: Mapping[str, str], given: Mapping[str, Sequence[int]] = {}) -> list[Seat]:
    """The lights wanted, in natural order of numbers. `assign` (by number key) overrules the label columns.

    A number that was `given` several slots by hand is a team, declared or not.
    """
    seats = []
    for key, lines in numbers.lines.items():
        for at in range(max(numbers.wanted[key], len(lines), len(given.get(key, ())))):
            spot = lines[at] if at < len(lines) else None
            assigned = assign.get(key) if at == 0 else None
            seats.append(Seat(key, numbers.text(key), spot, assigned or (spot.label if spot else None)))
    return seats


def seated(
    seats: Sequence[Seat], house: House, given: Mapping[str, Sequence[int]]
) -> list[tuple[Seat, int | UnknownLabel | None]]:
    """Each seat with the slot that it was given by hand (by number key), else the one that its label names."""
    left = {key: list(slots) for key, slots in given.items()}
    out: list[tuple[Seat, int | UnknownLabel | None]] = []
    for seat in seats:
        by_hand = left.get(seat.key)
        out.append((seat, by_hand.pop(0) if by_hand else slot_labelled(seat, house)))
    return out


def slot_labelled(seat: Seat, house: House) -> int | UnknownLabel | None:
    """The slot that the seat's label names; None where it names none at all."""
    if not seat.label or not plain_text(seat.label):
        return None
    found = slots_called(seat.label, house)
    if len(found) > 1 and seat.spot and seat.spot.position:
        positions = positions_named(seat.spot, house)
        found = [slot for slot in found if house.position_of[slot] in positions] or found
    if len(found) == 1:
        return found[0]
    return UnknownLabel(seat, tuple(f"{house.name_of(slot)}/{house.slots[slot].label}" for slot in found))


def slots_called(text: str, house: House) -> list[int]:
    """The slots that a label fits; `Position/LABEL` names the position too."""
    key = label_key(text)
    whole = [slot for slot, own in enumerate(house.label_keys) if own == key]
    position, slash, label = text.rpartition("/")
    if whole or not slash:
        return whole
    wanted = plain_text(position).casefold()
    return [
        slot
        for slot, own in enumerate(house.label_keys)
        if own == label_key(label) and plain_text(house.name_of(slot)).casefold() == wanted
    ]


def contested(named: Mapping[int, Sequence[Seat]]) -> dict[int, list[str]]:
    """The slots that more than one seat names, with the numbers."""
    return {slot: list(dict.fromkeys(s.number for s in seats)) for slot, seats in named.items() if len(seats) > 1}
