"""The choices that make numbers and labels agree: tape the lamps, move the operators, renumber the paperwork."""

from collections.abc import Sequence

from shows.core.numbering.judging import first_pairs
from shows.core.numbering.records import House, Judgement, Pair, WayOut
from venue.core.labels import label_key, sort_key


def ways_out(pairs: Sequence[Pair], house: House, against_labels: Judgement | None) -> tuple[WayOut, ...]:
    """The ways in the trade's order; none where labels and numbers agree already."""
    if against_labels is None or against_labels.code == "same":
        return ()
    ways = [_tape(pairs, house), _move(pairs, house)]
    if _can_renumber(pairs, house):
        ways.append(_renumber(pairs, house))
    return tuple(ways)


def _differing(pairs: Sequence[Pair], house: House) -> list[Pair]:
    return [pair for pair in pairs if label_key(pair.number) != house.label_keys[pair.slot]]


def _tape(pairs: Sequence[Pair], house: House) -> WayOut:
    """Each lamp whose label differs gets its number; a spare one whose paint equals a tape is blanked."""
    tapes: dict[int, str | None] = {pair.slot: pair.number for pair in _differing(pairs, house)}
    taped = {label_key(text) for text in tapes.values() if text is not None}
    used = {pair.slot for pair in pairs}
    for slot, key in enumerate(house.label_keys):
        if slot not in used and key in taped:
            tapes[slot] = None
    in_house_order = sorted(tapes, key=lambda slot: (house.position_of[slot], sort_key(house.slots[slot].label)))
    return WayOut("tape", tuple((slot, tapes[slot]) for slot in in_house_order))


def _move(pairs: Sequence[Pair], house: House) -> WayOut:
    """Whoever was told "you are 1" goes to the slot that 1 falls on."""
    return WayOut("move", tuple((pair.number, pair.slot) for pair in _differing(pairs, house)))


def _can_renumber(pairs: Sequence[Pair], house: House) -> bool:
    """Not where a label in use is painted twice in the house, nor where a team shares one number."""
    is_repeated = any(house.label_keys[pair.slot] in house.repeated_labels for pair in pairs)
    return not is_repeated and len(first_pairs(pairs)) == len(pairs)


def _renumber(pairs: Sequence[Pair], house: House) -> WayOut:
    return WayOut("renumber", tuple((pair.number, house.slots[pair.slot].label) for pair in _differing(pairs, house)))
