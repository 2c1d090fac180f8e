"""Moving marks apart, so that no two cover one another, without changing their order."""

from collections.abc import Sequence


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """The rising numbers, each at least `gap` after the one before, between `low` and `high`.

    Where they all fit, nobody moves farther than others push; where they can't, they stand evenly.
    """
    count = len(wanted)
    if count and (count - 1) * gap > high - low:
        step = (high - low) / max(1, count - 1)
        return [low + step * index for index in range(count)]
    placed: list[float] = []
    for value in wanted:
        placed.append(max(value, low, placed[-1] + gap if placed else low))
    limit = high
    for index in range(count - 1, -1, -1):
        placed[index] = min(placed[index], limit)
        limit = placed[index] - gap
    return placed


def spread_round(wanted: Sequence[float], gap: float) -> list[float]:
    """The same for rising bearings [deg] round a ring: the cut is made where most room is."""
    count = len(wanted)
    if count < 2:
        return list(wanted)
    rooms = [(wanted[(index + 1) % count] - wanted[index]) % 360.0 for index in range(count)]
    first = (max(range(count), key=lambda index: rooms[index]) + 1) % count
    turned = [(wanted[(first + index) % count] - wanted[first]) % 360.0 for index in range(count)]
    apart = spread(turned, min(gap, 360.0 / count), 0.0, 360.0 - min(gap, 360.0 / count))
    found = [(wanted[first] + value) % 360.0 for value in apart]
    return [found[(index - first) % count] for index in range(count)]
