"""What a show asks of each of its numbers, as the fit takes it.

rows --color_book--> ColorBook    rows --asks_of--> Asks    three queries, however many numbers and colors there are
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from shows.core.fit.records import Ask, Color, Frame
from shows.models import Engagement, ShowColor, ShowSpot
from venue.core.labels import label_key
from venue.core.names import name_key
from venue.models import ColorFilter

JOINT = "+"
"""What stands between two colors in one frame."""


@dataclass(frozen=True)
class ColorBook:
    """What explains the codes that frames name: the show's own colors, else the house's filters; by key of code."""

    show: Mapping[str, ShowColor]
    house: Mapping[str, ColorFilter]

    def of(self, code: str) -> ShowColor | ColorFilter | None:
        """What explains the code; None where neither the show nor the house knows it."""
        key = name_key(code)
        return self.show.get(key) or self.house.get(key)

    def color(self, code: str) -> Color:
        """The color of the code with what is known of it."""
        row = self.of(code)
        if row is None:
            return Color(code)
        percent = row.transmission_pct
        return Color(code, None if percent is None else percent / 100, row.is_diffusion)


def asks_of(engagement: Engagement) -> tuple[Ask, ...]:
    """What the show asks of every number that has not ended, in natural order."""
    spots = list(engagement.spots.standing().order_by("sort_key", "pk"))
    return asks_from(engagement, spots, color_book(engagement))


def asks_from(engagement: Engagement, spots: Iterable[ShowSpot], book: ColorBook) -> tuple[Ask, ...]:
    """As `asks_of`, from rows that were fetched already."""
    spots = tuple(spots)
    spelled = {spot.number_key: spot.number for spot in spots}
    return tuple(_ask(engagement, spot, book, spelled) for spot in spots)


def color_book(engagement: Engagement) -> ColorBook:
    """The show's colors and its house's filters that have not ended. Two queries."""
    return ColorBook(
        show={row.code_key: row for row in engagement.colors.standing()},
        house={row.code_key: row for row in engagement.house.color_filters.standing()},
    )


@dataclass(frozen=True)
class ColorUse:
    """A code, as a frame spells it first, and the show numbers that have it in a frame."""

    key: str
    code: str
    numbers: tuple[str, ...]


def uses_of(spots: Iterable[ShowSpot]) -> list[ColorUse]:
    """Every code in a frame of the spots, in the order of its first appearance."""
    spelled: dict[str, str] = {}
    numbers: dict[str, dict[str, None]] = {}
    for spot in spots:
        for code in (code for held in spot.frames for code in codes_in(held)):
            key = name_key(code)
            spelled.setdefault(key, code)
            numbers.setdefault(key, {})[spot.number] = None
    return [ColorUse(key, code, tuple(numbers[key])) for key, code in spelled.items()]


def codes_in(held: str) -> tuple[str, ...]:
    """The colors of one frame: "C-1 + C-9" holds two."""
    return tuple(part.strip() for part in held.split(JOINT) if name_key(part))


def _ask(engagement: Engagement, spot: ShowSpot, book: ColorBook, spelled: Mapping[str, str]) -> Ask:
    return Ask(
        number=spot.number,
        frames=_frames(spot, book),
        frame_1_end=engagement.frame_1_end,  # type: ignore[arg-type]
        least_lux=spot.least_lux,
        sizes=tuple(spot.sizes),
        on_camera=engagement.on_camera if spot.on_camera is None else spot.on_camera,
        full_blackout=spot.full_blackout,
        strip_out=spot.strip_out,
        matches=spelled.get(label_key(spot.matches), spot.matches),
    )


def _frames(spot: ShowSpot, book: ColorBook) -> tuple[Frame, ...]:
    """The frames that hold something; an empty one is asked for by nobody."""
    held = ((number, codes_in(text)) for number, text in enumerate(spot.frames, start=1))
    return tuple(Frame(number, tuple(map(book.color, codes))) for number, codes in held if codes)
