"""What is expected at one place of a show: its row as the book has it, its frames, what getting there asks for."""

from dataclasses import dataclass

from shows.arrival import Arrival, CheckedPlace
from shows.asks import codes_in, color_book
from shows.models import ShowColor
from venue.book import BookPosition, book_of_positions
from venue.models import ColorFilter, Position


@dataclass(frozen=True)
class HeldFrame:
    """Frame `number` of the magazine and the codes that the show has in it, each with what explains it."""

    number: int
    colors: tuple[tuple[str, ShowColor | ColorFilter | None], ...]


@dataclass(frozen=True)
class Expected:
    """`entry` is the position as the set-up has it, with every fact; `frames` are empty where no number stands there.

    `show_end` is the end from which the show counts its frames, "" where nobody said.
    """

    checked: CheckedPlace
    entry: BookPosition
    frames: tuple[HeldFrame, ...]
    show_end: str

    @property
    def nth(self) -> int | None:
        """Which the place is in its row, counted from its first end; None where nothing orders the row."""
        if self.entry.row.basis == "label":
            return None
        keys = [place.pk for place in self.entry.places]
        return keys.index(self.checked.place.pk) + 1 if self.checked.place.pk in keys else None


def expected_at(arrival: Arrival, checked: CheckedPlace) -> Expected:
    """What belongs at the place. Seven queries at most."""
    positions = Position.objects.filter(pk=checked.place.position_id)
    (entry,) = book_of_positions(arrival.engagement.setup, positions)
    return Expected(checked, entry, _frames(arrival, checked), arrival.engagement.frame_1_end)


def _frames(arrival: Arrival, checked: CheckedPlace) -> tuple[HeldFrame, ...]:
    """As many frames as the unit has or the show asks for, whichever is more."""
    if checked.spot is None:
        return ()
    held = [str(text) for text in checked.spot.frames]
    of_unit = (checked.unit.frames or 0) if checked.unit else 0
    held += [""] * (of_unit - len(held))
    book = color_book(arrival.engagement)
    return tuple(
        HeldFrame(number, tuple((code, book.of(code)) for code in codes_in(text)))
        for number, text in enumerate(held, start=1)
    )
