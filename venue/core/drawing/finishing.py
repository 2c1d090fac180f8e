"""The sheet around a drawing: what it shows on top, both sides at the edges, the viewer and the keys below."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from venue.core.drawing.keys import sample_key
from venue.core.drawing.plane import Plane, Turn, scale_bar
from venue.core.drawing.racks import Rack
from venue.core.drawing.records import SideWords
from venue.core.drawing.shapes import Drawing, Shape, Text, Trail, wrapped
from venue.core.drawing.surround import (
    KEY_HEIGHT,
    MARGIN,
    YOU_HEIGHT,
    KeyWords,
    edge_height,
    edge_lines,
    edge_words,
    number_key,
    viewer,
)

VIEW_LINE, VIEW_SIZE = 18.0, 14.0
SCALE_HEIGHT = 30.0


@dataclass(frozen=True)
class Content:
    """What a sheet shows: shapes under the tags, the slots' marks, the tags; `key` names samples and their words.

    `numbers` are the show
    numbers of all places. `plane` None: it is not to scale. `low` and `high` are its top and bottom as drawn from the
    house.
    """

    ground: Sequence[Shape]
    slots: Sequence[Shape]
    racks: Sequence[Rack]
    key: Sequence[tuple[str, str]]
    low: float
    high: float
    plane: Plane | None
    numbers: Sequence[str | None]
    undrawn: tuple[int, ...] = ()

    @property
    def has_number(self) -> bool:
        return any(number is not None for number in self.numbers)

    @property
    def has_spare(self) -> bool:
        return self.has_number and None in self.numbers


def finished(content: Content, words: SideWords, width: float, *, is_turned: bool = False) -> Drawing:
    """The whole drawing, turned by 180 degrees where it is seen from the stage."""
    left, right = (words.left, words.right)[:: -1 if is_turned else 1]
    view = wrapped(words.view, VIEW_SIZE, width - 2 * MARGIN)
    below_view = VIEW_LINE * len(view) + 4.0
    top = below_view + edge_height(left, right)
    turn = Turn(width, content.low, content.high, top, is_turned)
    shapes: list[Shape] = [
        Text(width / 2, VIEW_LINE * (index + 0.5) + 4.0, line, VIEW_SIZE, "view") for index, line in enumerate(view)
    ]
    shapes += edge_words(left, right, width, below_view)
    shapes += _turned(content, turn)
    shapes += edge_lines(width, top, turn.bottom)
    shapes += viewer(words.you, width, turn.bottom) if words.you else []
    below, height = _below(content, words, width, turn.bottom + (YOU_HEIGHT if words.you else 0.0))
    return Drawing(width, height, (*shapes, *below), content.undrawn)


def _turned(content: Content, turn: Turn) -> Iterable[Shape]:
    """Leaders over the ground, slots over leaders, tags over all."""
    hung = [each.moved(turn.point) for rack in content.racks for each in rack.hung]
    captions = [rack.caption for rack in content.racks if rack.caption is not None]
    yield from (turn.shape(shape) for shape in content.ground)
    yield from (Trail(each.leader, "leader") for each in hung)
    yield from (turn.shape(shape) for shape in (*content.slots, *captions))
    yield from (each.tag.mark(each.x, each.y) for each in hung)


def _below(content: Content, words: SideWords, width: float, top: float) -> tuple[list[Shape], float]:
    """The keys and the scale, and where they end."""
    key = KeyWords(words.show_number, words.house_label, words.spare)
    shapes = number_key(key, width, top, has_number=content.has_number, has_spare=content.has_spare)
    samples, at = sample_key(content.key, width, top + KEY_HEIGHT)
    shapes += samples
    if content.plane is not None:
        shapes += scale_bar(content.plane, words.unit_m, words.scale, MARGIN + 6.0, at + SCALE_HEIGHT / 2)
    else:
        shapes.append(Text(width / 2, at + SCALE_HEIGHT / 2, words.no_scale, 13.0, "scale-word"))
    return shapes, at + SCALE_HEIGHT
