"""Show numbers and house labels in words. Both are always named: "show 3 / house 2"."""

import re
from collections.abc import Iterable, Sequence

from django.utils.translation import gettext as _

from shows.core.numbering.records import House, Pair

_SERIES = re.compile(r"(?P<prefix>.*?)(?P<digits>\d+)")


def number_list(numbers: Iterable[str]) -> str:
    """ "1–4, 7, 9": three or more consecutive numbers (or letters) are drawn together, others listed."""
    runs: list[list[str]] = []
    for number in numbers:
        if runs and _follows(runs[-1][-1], number):
            runs[-1].append(number)
        else:
            runs.append([number])
    pieces = [[f"{run[0]}–{run[-1]}"] if len(run) > 2 else run for run in runs]
    return ", ".join(piece for run in pieces for piece in run)


def _follows(before: str, after: str) -> bool:
    if len(before) == len(after) == 1 and before.isalpha() and after.isalpha():
        return ord(after) == ord(before) + 1
    first, second = _SERIES.fullmatch(before), _SERIES.fullmatch(after)
    if not first or not second or first["prefix"] != second["prefix"]:
        return False
    return int(second["digits"][-9:]) == int(first["digits"][-9:]) + 1


def words_and(words: Sequence[str]) -> str:
    """ "2, 3 and 5"."""
    if len(words) < 2:
        return "".join(words)
    return _("%(first)s and %(last)s") % {"first": ", ".join(words[:-1]), "last": words[-1]}


def house_place(slot: int, house: House) -> str:
    """ "house 4", with its position where another place carries the same label."""
    label = house.slots[slot].label
    if house.label_keys[slot] not in house.repeated_labels:
        return _("house %(label)s") % {"label": label}
    return _("house %(label)s at %(position)s") % {"label": label, "position": house.name_of(slot)}


def show_at_house(pair: Pair, house: House) -> str:
    """ "show 1 = house 4"."""
    return _("show %(number)s = %(place)s") % {"number": pair.number, "place": house_place(pair.slot, house)}
