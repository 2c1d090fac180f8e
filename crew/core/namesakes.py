"""What tells people of one name apart on a list from which somebody is chosen."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from venue.core.names import name_key

By = Literal["list", "grade", "entry"]
"""The place on the list, the grade, or who was entered first."""


@dataclass(frozen=True)
class Bearer:
    """Somebody by name; `key` counts on with each who is entered."""

    key: int
    name: str
    list_place: int | None = None
    grade: int | None = None


def told_apart(people: Iterable[Bearer]) -> Mapping[int, tuple[By, int]]:
    """For each whose name somebody else has too, what tells them apart: the first of `By` that does for all of them."""
    by_name: dict[str, list[Bearer]] = defaultdict(list)
    for each in people:
        by_name[name_key(each.name)].append(each)
    found: dict[int, tuple[By, int]] = {}
    for namesakes in by_name.values():
        if len(namesakes) > 1:
            found |= _apart(sorted(namesakes, key=lambda each: each.key))
    return found


def _apart(namesakes: list[Bearer]) -> dict[int, tuple[By, int]]:
    kinds: tuple[tuple[By, list[int | None]], ...] = (
        ("list", [each.list_place for each in namesakes]),
        ("grade", [each.grade for each in namesakes]),
    )
    for by, numbers in kinds:
        known = [number for number in numbers if number is not None]
        if len(set(known)) == len(namesakes):
            return {each.key: (by, number) for each, number in zip(namesakes, known, strict=True)}
    return {each.key: ("entry", n) for n, each in enumerate(namesakes, start=1)}
