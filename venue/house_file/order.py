"""The order of things that are partly named again."""

from collections.abc import Sequence


def merged_order(stored: Sequence[str], named: Sequence[str]) -> list[str]:
    """The stored order, changed as little as possible so that what is named stands in the order of its naming.

    What is not named keeps its place; what is new comes right after the one named before it, or first.
    """
    known = iter([each for each in named if each in stored])
    merged = [next(known) if each in named else each for each in stored]
    before = -1
    for each in named:
        if each not in merged:
            merged.insert(before + 1, each)
        before = merged.index(each)
    return merged
