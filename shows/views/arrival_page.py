"""What the pages of the arrival check show, the same by both ways in."""

from datetime import datetime
from typing import Any

from shows.arrival import Arrival, CheckedPlace, Signed, arrival_of, check_instant
from shows.arrival_place import expected_at
from shows.core.checking import TOGETHER, ItemState
from shows.forms.arrival import LookForm, SignForm
from shows.views.arrival_door import Door
from shows.wording import arrival as words
from shows.wording import arrival_place as told

STATES = {"failed": "out", "begun": "limited", "untouched": "soon", "passed": "ready"}
"""The line at the side of a row, which repeats what its words say."""


def overview_context(door: Door, found: Arrival, now: datetime) -> dict[str, Any]:
    """How far the check is, place by place."""
    following = found.next()
    return {
        **_common(door, found),
        "groups": [(some[0].place.position, [_row(door, each) for each in some]) for some in found.positions],
        "spare": [_row(door, each) for each in found.spare],
        "next": None if following is None else _row(door, following),
        "signatures": [_signature(each, door, now) for each in found.signatures],
        "blockages": _blockages(door, found),
    }


def overview_at(door: Door, now: datetime, **more: Any) -> dict[str, Any]:
    """As `overview_context`, of the check as it stands."""
    found = arrival_of(door.engagement, check_instant(door.engagement, now))
    return {**overview_context(door, found, now), **more}


def place_context(door: Door, found: Arrival, checked: CheckedPlace, form: LookForm, now: datetime) -> dict[str, Any]:
    """One place: what belongs there, what was found there so far, and the form."""
    expected = expected_at(found, checked)
    position = expected.entry.position
    of_item = {item.item: _item(item, checked, door, now) for item in checked.state.items}
    return {
        **_common(door, found),
        "checked": checked,
        "position": position,
        "state": words.state_words(checked),
        "row_facts": told.row_facts(expected),
        "unit_facts": told.unit_facts(expected),
        "frames": list(told.frame_lines(expected)),
        "going_up": told.going_up(expected),
        "form": form,
        "one_by_one": [(field, note, of_item[field.name]) for field, note in form.one_by_one()],
        "together": [(field, note, of_item[field.name]) for field, note in form.together()],
        "rest_open": [words.item_title(item) for item in checked.state.open_items if item in TOGETHER],
        "place_number": _place_number(found, checked),
        "in_the_way": [(each, door.blockage_end(each)) for each in checked.blockages],
    }


def sign_context(door: Door, found: Arrival, form: SignForm, now: datetime) -> dict[str, Any]:
    """The check as it stands, who signed for it, and the form."""
    return {**overview_context(door, found, now), "form": form, "arrival": found}


def _common(door: Door, found: Arrival) -> dict[str, Any]:
    return {"door": door, "engagement": door.engagement, "answer": words.answer(found), "arrival": found}


def _row(door: Door, checked: CheckedPlace) -> dict[str, Any]:
    return {
        "checked": checked,
        "address": door.place(checked.place),
        "words": words.state_words(checked),
        "mark": STATES[checked.state.state],
    }


def _place_number(found: Arrival, checked: CheckedPlace) -> int | None:
    """Which in walking order, counted from 1; None for a place without a number."""
    keys = [each.place.pk for each in found.places]
    return keys.index(checked.place.pk) + 1 if checked.place.pk in keys else None


def _item(item: ItemState, checked: CheckedPlace, door: Door, now: datetime) -> dict[str, Any]:
    fault = checked.faults.get(item.item)
    return {
        "heard": words.heard(item, door.engagement.house.time_zone, now),
        "result": item.result,
        "fault": "" if fault is None else words.fault_words(fault),
    }


def _signature(signed: Signed, door: Door, now: datetime) -> dict[str, Any]:
    at = words.clock_words(signed.row.at, door.engagement.house.time_zone, now)
    return {"row": signed.row, "at": at, "standing": words.signature_standing(signed)}


def _blockages(door: Door, found: Arrival) -> list[dict[str, Any]]:
    """What is in the way of the places that the show uses, each once."""
    told_of: dict[int, dict[str, Any]] = {}
    for each in found.places:
        for row in each.blockages:
            where = str(each.place) if row.place_id else str(each.place.position)
            told_of.setdefault(row.pk, {"row": row, "where": where, "end": door.blockage_end(row)})
    return list(told_of.values())
