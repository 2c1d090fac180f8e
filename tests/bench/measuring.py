"""Measured times, told as a ratio to a floor that was measured in the same run."""

from collections.abc import Callable
from statistics import median
from time import perf_counter

DEPTHS, STEP = 12, 5


def milliseconds(work: Callable[[], object], rounds: int = 30) -> float:
    """The median time of so many rounds [ms]."""
    times = []
    for _ in range(rounds):
        start = perf_counter()
        work()
        times.append((perf_counter() - start) * 1000)
    return median(times)


def report(name: str, work: Callable[[], object], base: Callable[[], object], rounds: int = 60) -> None:
    """Print how long the work takes, and how many times the floor that is, each by its quickest round.

    Both take turns, so that a busy machine slows both. Whatever else runs there only ever adds to a time, so the
    quickest round says most (as Python's timeit has it). The rounds start at different depths of the call stack:
    CPython 3.11 keeps its frames in chunks, and a loop whose calls happen to cross the end of a chunk takes up to
    three times as long.
    """
    spent, least = [], []
    for turn in range(rounds):
        depth = turn % DEPTHS * STEP
        spent.append(at_depth(depth, work))
        least.append(at_depth(depth, base))
    print(f"\n{name}: {min(spent):.2f} ms, {min(spent) / min(least):.2f} times the floor of {min(least):.2f} ms")


def at_depth(depth: int, work: Callable[[], object]) -> float:
    """How long one round takes [ms], so many calls further down."""
    return at_depth(depth - 1, work) if depth else milliseconds(work, rounds=1)
