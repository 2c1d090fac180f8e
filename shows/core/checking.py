"""What the marks of an arrival check add up to: item by item, place by place, in walking order.

Marks are only ever added. The last one of an item counts; where another person found something else before, both
stay in sight.

    label (and row's end) -> strike -> douser -> frames -> headset -> all the rest in one tap
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

Result = Literal["pass", "fail", "open"]
State = Literal["failed", "passed", "begun", "untouched"]

ONE_BY_ONE = ("label", "strike", "douser", "frames", "headset")
"""Looked at each by itself."""
TOGETHER = ("iris", "zoom", "focus", "level", "sight", "coverage", "access")
"""The rest, which may pass in one tap."""
ITEMS = (*ONE_BY_ONE, *TOGETHER)


@dataclass(frozen=True)
class Mark:
    """What somebody found for an item, when; `key` orders marks of one instant."""

    item: str
    result: Result
    by: str
    at: datetime
    note: str = ""
    key: int = 0


@dataclass(frozen=True)
class ItemState:
    """One item of one place. `last` None: nobody looked. `other` is what somebody else found before, if it differs."""

    item: str
    last: Mark | None = None
    other: Mark | None = None

    @property
    def result(self) -> Result:
        return "open" if self.last is None else self.last.result


@dataclass(frozen=True)
class PlaceState:
    """All items of one place, in order."""

    items: tuple[ItemState, ...]

    @property
    def state(self) -> State:
        results = [item.result for item in self.items]
        if "fail" in results:
            return "failed"
        if all(result == "pass" for result in results):
            return "passed"
        return "begun" if any(item.last is not None for item in self.items) else "untouched"

    @property
    def is_done(self) -> bool:
        """Everything was looked at, whatever was found."""
        return all(item.result != "open" for item in self.items)

    @property
    def open_items(self) -> tuple[str, ...]:
        return tuple(item.item for item in self.items if item.result == "open")

    @property
    def failed(self) -> tuple[Mark, ...]:
        return tuple(item.last for item in self.items if item.last is not None and item.last.result == "fail")


def place_state(marks: Iterable[Mark]) -> PlaceState:
    """The state of a place from all its marks, in whatever order they come."""
    by_item: dict[str, list[Mark]] = {}
    for mark in sorted(marks, key=lambda mark: (mark.at, mark.key)):
        by_item.setdefault(mark.item, []).append(mark)
    return PlaceState(tuple(_item(item, by_item.get(item, [])) for item in ITEMS))


def _item(item: str, marks: Sequence[Mark]) -> ItemState:
    if not marks:
        return ItemState(item)
    last = marks[-1]
    others = [mark for mark in marks[:-1] if mark.by != last.by]
    differs = others and others[-1].result != last.result
    return ItemState(item, last, others[-1] if differs else None)


def next_place(states: Mapping[int, PlaceState], order: Sequence[int], after: int | None = None) -> int | None:
    """The place to go to: the next one in walking order that is not done, behind `after` first; None where all are."""
    start = order.index(after) + 1 if after in order else 0
    walk = [*order[start:], *order[:start]]
    return next((place for place in walk if not states[place].is_done), None)
