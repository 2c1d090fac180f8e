"""What changed since the last issued sheet, a sentence a change."""

from collections.abc import Mapping
from datetime import datetime

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.core.call_sheet import Change
from crew.moments import moment
from crew.wording.sheet import ROLES, role_words

NAMES: Mapping[str, str | Promise] = {
    "house": gettext_lazy("house"),
    "show": gettext_lazy("show"),
    "event": gettext_lazy("event"),
    "zone": gettext_lazy("time zone"),
    "starts": gettext_lazy("start"),
    "ends": gettext_lazy("end"),
    "call": gettext_lazy("call time"),
    "place": gettext_lazy("where to come"),
    "talk": gettext_lazy("spot talk"),
    "talk_place": gettext_lazy("where the spot talk is"),
    "notes": gettext_lazy("notes"),
    "weather": gettext_lazy("weather"),
    "notice_kind": gettext_lazy("kind of notice"),
    "notice": gettext_lazy("notice"),
    "called_off": gettext_lazy("called off"),
    "house_left": gettext_lazy("landmark at house left"),
    "house_right": gettext_lazy("landmark at house right"),
    "stage_end": gettext_lazy("landmark at the stage end"),
    "at_spot_talk": gettext_lazy("number told at the spot talk"),
    "label": gettext_lazy("house label"),
    "position": gettext_lazy("position"),
    "side": gettext_lazy("side"),
    "unit": gettext_lazy("unit"),
    "tape": gettext_lazy("tape"),
    "operator": gettext_lazy("operator"),
    "channel": gettext_lazy("channel"),
    "frames": gettext_lazy("frames"),
    "pick_up": gettext_lazy("pick-up"),
    "cautions": gettext_lazy("cautions"),
    "limits": gettext_lazy("limits of the unit"),
    "stops": gettext_lazy("why the unit is out of service"),
    "neighbors": gettext_lazy("who is beside"),
    "home": gettext_lazy("home pick-up"),
    "caller": gettext_lazy("who calls the spots"),
    "magazine": gettext_lazy("how many frames the unit holds"),
    "frame_1_end": gettext_lazy("which end frame 1 is at"),
    "position_zone": gettext_lazy("part of the house"),
    "house_side": gettext_lazy("side of the house"),
    "row": gettext_lazy("place in its row"),
    "bearing_deg": gettext_lazy("bearing"),
    "released": gettext_lazy("expected end"),
    "meal": gettext_lazy("meal"),
    "own_call": gettext_lazy("own call time"),
    "needs": gettext_lazy("needs of the position"),
    "role": gettext_lazy("on the call as"),
    "unit_source": gettext_lazy("source of the unit"),
    "tickets": gettext_lazy("certifications"),
    "late_tell": gettext_lazy("who is told by somebody who is late"),
    **ROLES,
}
TIMES = {"starts", "ends", "call", "talk", "released", "meal", "own_call"}
PEOPLE = {"operator", *ROLES}


def change_sentence(change: Change) -> str:
    """ "Show 3, operator: Ada Quillfeather, was Dov Halloran"."""
    if change.what == "added":
        told = {"number": change.number, "operator": change.after or _("nobody yet")}
        return _("Show %(number)s is new: %(operator)s.") % told
    if change.what == "gone":
        return _("Show %(number)s is gone.") % {"number": change.number}
    what = _field(change)
    told = {"what": what, "after": _value(change, change.after), "before": _value(change, change.before)}
    return _("%(what)s: %(after)s (was: %(before)s)") % told


def _field(change: Change) -> str:
    name = str(NAMES.get(change.what, change.what))
    if change.who:
        return _("%(who)s, %(name)s") % {"who": change.who, "name": name}
    if not change.number:
        return name[:1].upper() + name[1:]
    return _("Show %(number)s, %(name)s") % {"number": change.number, "name": name}


def _value(change: Change, text: str) -> str:
    if not text:
        return _("nobody yet") if change.what in PEOPLE else _("nothing")
    if change.what == "role":
        return role_words(text)
    return moment(datetime.fromisoformat(text)) if change.what in TIMES else text
