"""Values that are right one by one but not together."""

import math
from collections.abc import Iterator

from venue.core.ranges import THROW_M
from venue.house_file.problems import Problem
from venue.house_file.sound import Slot, SoundPart, place_key


def value_problems(part: SoundPart) -> Iterator[Problem]:
    """Slots that say nothing of where they are, or are run from themselves; beams the wrong way round."""
    for slot in part.slots():
        if slot.is_nowhere and slot.path not in part.hurt:
            yield Problem(slot.path, "no-place")
        if _is_run_from_itself(slot):
            yield Problem((*slot.path, "operated_from"), "operated-from-itself")
    for path, unit in part.entries("units"):
        if unit.get("narrow_deg", -math.inf) > unit.get("wide_deg", math.inf):
            facts = {"narrow": unit["narrow_deg"], "wide": unit["wide_deg"]}
            yield Problem((*path, "narrow_deg"), "narrow-wider-than-wide", facts)


def _is_run_from_itself(slot: Slot) -> bool:
    elsewhere = slot.fields.get("operated_from", {})
    return slot.key is not None and slot.key == place_key(elsewhere.get("position"), elsewhere.get("label"))


def throw_warnings(part: SoundPart) -> Iterator[Problem]:
    """Lenses nearer to the usual target or farther from it than follow spots are."""
    for slot in part.slots():
        if slot.has_coordinates:
            lens = (slot.fields["x_m"], slot.fields["y_m"], slot.fields["z_m"])
            throw = math.dist(lens, part.target)
            if THROW_M.judged(throw) == "impossible":
                least, most = THROW_M.hard
                yield Problem(slot.path, "odd-throw", {"throw_m": throw, "least_m": least, "most_m": most})
