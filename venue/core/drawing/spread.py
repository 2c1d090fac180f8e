"""Moving marks apart, so that no two cover one another, without changing their order."""

from collections.abc import Sequence


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """The rising numbers, each at least `gap` after the one before, between `low` and `high`.

    Where they all fit, the sum of the squared ways that they move is the least there is (adjacent violators are
    pooled: what stands too near stands evenly about its own middle); where they can't, they stand evenly.
    """
    count = len(wanted)
    if count and (count - 1) * gap > high - low:
        step = (high - low) / max(1, count - 1)
        return [low + step * index for index in range(count)]
    pools: list[tuple[float, int]] = []  # mean and size of neighbors that share it, gaps taken out
    for index, value in enumerate(wanted):
        mean, size = value - index * gap, 1
        while pools and pools[-1][0] >= mean:
            before, others = pools.pop()
            mean, size = (before * others + mean * size) / (others + size), others + size
        pools.append((mean, size))
    means = [mean for mean, size in pools for _ in range(size)]
    return [min(max(mean, low), high - (count - 1) * gap) + index * gap for index, mean in enumerate(means)]


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
