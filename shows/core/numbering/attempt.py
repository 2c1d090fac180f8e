"""The pairs under one reading of the paperwork, and what could not be paired."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from shows.core.numbering.filling import Choice, Entry, Fall, Lane, fill
from shows.core.numbering.lookup import Seat, UnknownLabel, contested
from shows.core.numbering.numbers import Numbers, has_order
from shows.core.numbering.order import Group
from shows.core.numbering.place_words import Found, Place, Tied, Unknown, Within, find_place, place_text
from shows.core.numbering.records import House, Pair
from venue.core.labels import sort_key


@dataclass(frozen=True)
class Attempt:
    """What one reading gives; numbers as they are shown, slots as indices."""

    pairs: tuple[Pair, ...]
    short: tuple[str, ...]
    unplaced: tuple[str, ...]  # no convention reaches them
    tied: frozenset[int]
    spare: frozenset[int]
    unknown_places: tuple[tuple[str, str], ...]
    doubly_named: tuple[tuple[int, tuple[str, ...]], ...]
    places: Mapping[str, Place]


@dataclass
class _Sorted:
    """The seats sorted by what places them."""

    named: dict[int, list[Seat]]
    sources: dict[int, str]
    waiting: list[tuple[Seat, frozenset[int] | None]]
    tied: set[int]
    unknown: list[tuple[str, str]]
    places: dict[str, Place]


def pair_up(
    house: House,
    numbers: Numbers,
    labelled: Sequence[tuple[Seat, int | UnknownLabel | None]],
    lanes: Sequence[Lane] | None,
    choice: Choice,
) -> Attempt:
    """Labels and places are put first; the lanes (None without a readable statement) fill what is free."""
    seats = _sorted(house, numbers, labelled, lanes is not None, choice)
    twice_named = contested(seats.named)
    free = set(range(len(house.slots))) - set(seats.named) - seats.tied
    entries, owners = _entries(numbers, seats.waiting, labelled)
    found = fill(lanes or [], entries, free, house)
    pairs = [
        Pair(holders[0].number, slot, "label" if seats.sources[slot] == "label" else "place")
        for slot, holders in seats.named.items()
        if slot not in twice_named
    ]
    pairs += [
        Pair(seat.number, fall.slot, "statement")
        for seat, fall in zip(owners, found, strict=True)
        if seat and fall.slot is not None
    ]
    tied = seats.tied | _tied_in(lanes or [], free)
    taken = {pair.slot for pair in pairs} | set(twice_named) | tied
    return Attempt(
        pairs=tuple(sorted(pairs, key=lambda pair: sort_key(pair.number))),
        short=_numbers(owners, found, "short"),
        unplaced=_unplaced(numbers, labelled, seats, owners, found, lanes is not None),
        tied=frozenset(tied),
        spare=frozenset(range(len(house.slots))) - taken,
        unknown_places=tuple(seats.unknown),
        doubly_named=tuple((slot, tuple(held)) for slot, held in sorted(twice_named.items())),
        places=seats.places,
    )


def _sorted(
    house: House,
    numbers: Numbers,
    labelled: Sequence[tuple[Seat, int | UnknownLabel | None]],
    has_lanes: bool,
    choice: Choice,
) -> _Sorted:
    out = _Sorted({}, {}, [], set(), [], {})
    for seat, slot in labelled:
        if seat.key in numbers.twice:
            continue
        place = find_place(seat.spot, house, choice.whose) if seat.spot else None
        if place is not None:
            out.places.setdefault(seat.key, place)
        if isinstance(slot, int):
            out.named.setdefault(slot, []).append(seat)
            out.sources.setdefault(slot, "label")
        elif slot is None:
            _sort_by_place(out, seat, place, has_lanes)
    return out


def _sort_by_place(out: _Sorted, seat: Seat, place: Place | None, has_lanes: bool) -> None:
    if isinstance(place, Found):
        out.named.setdefault(place.slot, []).append(seat)
        out.sources.setdefault(place.slot, "place")
    elif isinstance(place, Tied):
        out.tied |= set(place.slots)
    elif isinstance(place, Unknown) or (isinstance(place, Within) and not has_lanes):
        out.unknown.append((seat.number, place_text(seat.spot) if seat.spot else ""))
    elif has_lanes and has_order(seat.number):
        out.waiting.append((seat, place.positions if isinstance(place, Within) else None))


def _entries(
    numbers: Numbers,
    waiting: Sequence[tuple[Seat, frozenset[int] | None]],
    labelled: Sequence[tuple[Seat, int | UnknownLabel | None]],
) -> tuple[list[Entry], list[Seat | None]]:
    """What the lanes are walked with: seats, and owner-less cells for holes and for numbers named twice."""
    wanted: list[tuple[str, Seat | None, frozenset[int] | None]] = [(s.key, s, within) for s, within in waiting]
    wanted += [(hole, None, None) for hole in numbers.holes]
    wanted += [(key, None, None) for key in numbers.twice if _stands_by_statement(key, labelled)]
    wanted.sort(key=lambda each: sort_key(each[0]))
    entries: list[Entry] = []
    before: frozenset[int] | None = None
    for key, seat, within in wanted:
        before = within if seat else before  # a hole lies where the number before it does
        entries.append(Entry(key, before))
    return entries, [seat for _, seat, _ in wanted]


def _stands_by_statement(key: str, labelled: Sequence[tuple[Seat, int | UnknownLabel | None]]) -> bool:
    lines = [(seat, slot) for seat, slot in labelled if seat.key == key]
    return all(slot is None and (seat.spot is None or not place_text(seat.spot)) for seat, slot in lines)


def _tied_in(lanes: Sequence[Lane], free: set[int]) -> set[int]:
    """The free slots that the stated order leaves tied."""
    groups = [
        Group(tuple(slot for slot in group.slots if slot in free))
        for lane in lanes
        for group in lane.groups
        if group.reason == "not-ordered"
    ]
    return {slot for group in groups if len(group.slots) > 1 for slot in group.slots}


def _numbers(owners: Sequence[Seat | None], found: Sequence[Fall], problem: str) -> tuple[str, ...]:
    kept = (seat.number for seat, fall in zip(owners, found, strict=True) if seat and fall.problem == problem)
    return tuple(dict.fromkeys(kept))


def _unplaced(
    numbers: Numbers,
    labelled: Sequence[tuple[Seat, int | UnknownLabel | None]],
    seats: _Sorted,
    owners: Sequence[Seat | None],
    found: Sequence[Fall],
    has_lanes: bool,
) -> tuple[str, ...]:
    """The numbers that have neither place words nor a statement that reaches them."""
    missed = set(_numbers(owners, found, "convention-missing"))
    for seat, slot in labelled:
        is_wordless = seat.spot is not None and not place_text(seat.spot)
        has_no_order = slot is None and not has_order(seat.number)
        if is_wordless and seat.key not in numbers.twice and (not has_lanes or has_no_order):
            missed.add(seat.number)
    return tuple(sorted(missed, key=sort_key))
