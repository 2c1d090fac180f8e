"""Measured times, told as a ratio to a floor that was measured in the same run."""

from collections.abc import Callable
from statistics import median
from time import perf_counter


def milliseconds(work: Callable[[], object], rounds: int = 30) -> float:
    """The median time of so many rounds [ms]."""
    times = []
    for _ in range(rounds):
        start = perf_counter()
        work()
        times.append((perf_counter() - start) * 1000)
    return median(times)


def report(name: str, work: Callable[[], object], base: Callable[[], object], rounds: int = 30) -> None:
    """Print how long the work takes, and how many times the floor that is.

    Both take turns, so that a busy machine slows both.
    """
    spent, least = [], []
    for _ in range(rounds):
        spent.append(milliseconds(work, rounds=1))
        least.append(milliseconds(base, rounds=1))
    ratio = median(spent) / median(least)
    print(f"\n{name}: {median(spent):.2f} ms, {ratio:.1f} times the floor of {median(least):.2f} ms")
