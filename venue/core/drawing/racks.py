r"""Where the tags of a drawing to scale stand, so that none covers another, and how each is led to its slot.

The tags of a row stand in columns away from the row, read downward, each with a leader to its slot:

      o  o o o           slots
      |   \ \ '----.
     (1)[4] |  (3)[2] |
     (2)[3]-'  (4)[1]-'

The tags of slots that lie one behind the other stand beside them in one stack.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from math import ceil, inf

from venue.core.drawing.overlaps import HAIR, crosses, grown, overlap
from venue.core.drawing.plane import Spot
from venue.core.drawing.shapes import Bounds, Text, shortened, text_width
from venue.core.drawing.spread import spread
from venue.core.drawing.tags import Hung, Note, Tag

CAPTION_SIZE = 14.0
_APART = 8.0
_BETWEEN = 6.0
_LEADERS = 3.5
"""From one leader to the next where several run beside one another."""
_LONGEST_STACK = 6
_STEP = 12.0
_NEAR = 18.0
_FAN = 0.1
"""How much farther off columns stand, of the way that their leaders go across."""
_CLEAR = 3.0
"""Between tags of different clusters."""
_CAREFUL, _PATIENT = 16, 600
"""How many distances are tried at which no leader crosses a tag, and how many at all."""


@dataclass(frozen=True)
class Cluster:
    """Slots of one position whose tags stand together; `down` is 1 where the house lies below them, else -1.

    Without `may_stack` nothing is written beside the slots, where a bowl has its other places.
    """

    name: str
    spots: tuple[Spot, ...]
    tags: tuple[Tag | Note, ...]
    down: float = 1.0
    may_stack: bool = True

    @property
    def middle(self) -> Spot:
        count = len(self.spots)
        return sum(x for x, _ in self.spots) / count, sum(y for _, y in self.spots) / count

    @property
    def is_stack(self) -> bool:
        """Whether the slots lie one behind the other rather than side by side."""
        xs, ys = [x for x, _ in self.spots], [y for _, y in self.spots]
        return self.may_stack and 1 < len(self.spots) <= _LONGEST_STACK and max(ys) - min(ys) > max(xs) - min(xs)


@dataclass(frozen=True)
class Rack:
    """The tags of a cluster where they stand, with the cluster's name."""

    hung: tuple[Hung, ...]
    caption: Text | None

    @cached_property
    def boxes(self) -> list[Bounds]:
        return [each.bounds for each in self.hung] + ([self.caption.bounds] if self.caption else [])

    def shifted(self, dx: float, dy: float) -> "Rack":
        """The rack elsewhere, led to the same slots."""
        caption = self.caption and replace(self.caption, x=self.caption.x + dx, y=self.caption.y + dy)
        return Rack(tuple(each.shifted(dx, dy) for each in self.hung), caption)


def hang(clusters: Sequence[Cluster], obstacles: Sequence[Bounds], low: float, high: float) -> list[Rack]:
    """All tags between `low` and `high` across, none over another or over an obstacle, however far up or down."""
    taken = list(obstacles)
    racks: list[Rack] = []
    for cluster in clusters:
        rack = _hang(cluster, taken, [each for rack in racks for each in rack.hung], low, high)
        racks.append(rack)
        taken += [grown(box, _CLEAR) for box in rack.boxes]
    return racks


def _hang(cluster: Cluster, taken: Sequence[Bounds], others: Sequence[Hung], low: float, high: float) -> Rack:
    free: Rack | None = None
    for tried, (base, dx, dy) in enumerate(_choices(cluster, low, high)):
        if free is not None and tried >= _CAREFUL:
            return free
        if not _is_free(base.boxes, dx, dy, taken):
            continue
        rack = base.shifted(dx, dy)
        if not _is_crossed(rack, others):
            return rack
        free = free or rack
    return free or base.shifted(dx, dy)


def _choices(cluster: Cluster, low: float, high: float) -> Iterator[tuple[Rack, float, float]]:
    """Racks and how far to shift them: nearer ones first, the side away from the stage before the other."""
    if cluster.is_stack:
        yield from _beside(cluster, low, high)
    sides = [(side, _columns(cluster, side, low, high)) for side in (cluster.down, -cluster.down)]
    for step in range(_PATIENT):
        yield from ((rack, 0.0, side * step * _STEP) for side, rack in sides)


def _beside(cluster: Cluster, low: float, high: float) -> Iterator[tuple[Rack, float, float]]:
    """Outward first, as far as the sheet goes."""
    outward = 1.0 if cluster.middle[0] >= (low + high) / 2 else -1.0
    sides = [(side, _stack(cluster, side, low, high)) for side in (outward, -outward)]
    for step in range(_CAREFUL):
        for side, rack in sides:
            dx = side * step * _STEP
            if all(low <= box[0] + dx and box[2] + dx <= high for box in rack.boxes):
                yield rack, dx, 0.0


def _columns(cluster: Cluster, side: float, low: float, high: float) -> Rack:
    """The tags in columns below the slots (`side` 1) or above them (-1), as near as leaders let them."""
    order = sorted(range(len(cluster.spots)), key=lambda i: (cluster.spots[i], i))
    tags, spots = [cluster.tags[i] for i in order], [cluster.spots[i] for i in order]
    width, height = max(tag.width for tag in tags), max(tag.height for tag in tags)
    lines = _lines_for(len(tags), width, high - low)
    cell = width + _channel(lines)
    groups = [range(start, min(start + lines, len(tags))) for start in range(0, len(tags), lines)]
    wanted = [sum(spots[i][0] for i in group) / len(group) for group in groups]
    middles = spread(wanted, cell, low + cell / 2, high - cell / 2)
    fan = _FAN * max(abs(x - x0) for x, x0 in zip(middles, wanted, strict=True))
    edge = max(side * y for _, y in spots) + _NEAR + fan
    hung = []
    for group, middle in zip(groups, middles, strict=True):
        x = middle + (_APART - _channel(lines)) / 2
        for line, i in enumerate(group):
            y = edge + tags[i].height / 2 + line * (height + _BETWEEN)
            channel = (x + width / 2 + _LEADERS * line, side * edge) if line else None
            hung.append(Hung(tags[i], x, side * y, spots[i], channel))
    far = edge + lines * (height + _BETWEEN) - _BETWEEN
    return Rack(tuple(hung), _caption(cluster.name, min(each.bounds[0] for each in hung), side * far, side, low, high))


def _lines_for(count: int, width: float, room: float) -> int:
    """How many tags must stand in a column for all columns to fit."""
    return next((n for n in range(1, count) if ceil(count / n) * (width + _channel(n)) <= room), count)


def _channel(lines: int) -> float:
    """The room beside a column for the leaders of all but its first tag."""
    return _APART if lines == 1 else _APART + _LEADERS * lines


def _caption(name: str, left: float, far: float, side: float, low: float, high: float) -> Text | None:
    if not name:
        return None
    most = int((high - low) / text_width("0", CAPTION_SIZE))
    text = shortened(name, max(1, most))
    x = max(low, min(left, high - text_width(text, CAPTION_SIZE)))
    return Text(x, far + side * (CAPTION_SIZE / 2 + 5.0), text, CAPTION_SIZE, "caption", "start")


def _stack(cluster: Cluster, side: float, low: float, high: float) -> Rack:
    """The tags one below the other to the right of the slots (`side` 1) or to the left (-1)."""
    order = sorted(range(len(cluster.spots)), key=lambda i: (cluster.spots[i][1], i))
    tags, spots = [cluster.tags[i] for i in order], [cluster.spots[i] for i in order]
    width, height = max(tag.width for tag in tags), max(tag.height for tag in tags)
    x = side * (max(side * x for x, _ in spots) + _NEAR + width / 2)
    middles = spread([y for _, y in spots], height + _BETWEEN, -inf, inf)
    hung = tuple(Hung(tag, x, y, spot) for tag, spot, y in zip(tags, spots, middles, strict=True))
    far = max(each.bounds[3] for each in hung)
    return Rack(hung, _caption(cluster.name, x - width / 2, far, 1.0, low, high))


def _is_free(boxes: Sequence[Bounds], dx: float, dy: float, taken: Sequence[Bounds]) -> bool:
    """Whether the boxes, shifted, cover nothing that is taken."""
    for left, top, right, bottom in boxes:
        box = left + dx, top + dy, right + dx, bottom + dy
        if any(overlap(box, other) for other in taken):
            return False
    return True


def _is_crossed(rack: Rack, others: Sequence[Hung]) -> bool:
    """Whether a leader of the rack runs through a tag of others, or theirs through one of its own."""
    theirs = [each.bounds for each in others]
    if any(_runs_through(each.leader, theirs) for each in rack.hung):
        return True
    return any(_runs_through(each.leader, rack.boxes) for each in others)


def _runs_through(leader: Sequence[Spot], boxes: Sequence[Bounds]) -> bool:
    xs, ys = [x for x, _ in leader], [y for _, y in leader]
    around = grown((min(xs), min(ys), max(xs), max(ys)), 2 * HAIR)  # a stroke straight down has no width
    near = [box for box in boxes if overlap(box, around)]
    return any(crosses(one, other, box) for box in near for one, other in pairwise(leader))
