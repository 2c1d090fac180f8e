"""Lines of a call in words: who is on what, who was replaced by whom, whose call time is another."""

from collections.abc import Iterator
from datetime import datetime

from django.utils import dateformat
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine
from crew.models import Call, CallLine
from crew.moments import moment
from crew.wording.sheet import needs, own_call, role_words
from venue.core.local_time import wall_time


def line_sentence(line: CallLine) -> str:
    """ "Show 3: Ada Quillfeather"."""
    name = line.person.name if line.person else _("nobody yet")
    return _("%(line)s: %(name)s") % {"line": capfirst(str(line)), "name": name}


def own_words(line: CallLine) -> str:
    """ "Own call: 5:00 PM"; empty where the line is called with everybody."""
    if line.own_wall is None:
        return ""
    return _("Own call: %(at)s") % {"at": _near(line.own_wall, line.call)}


def replaced_sentences(call: Call) -> list[str]:
    """ "Show 3: Ada Quillfeather, replaced by Mira at 5:40 PM: sick", the last one first. One query."""
    rows = CallLine.objects.filter(call=call, follows__isnull=False).select_related("person", "follows__person")
    return [_replaced(line, line.follows, call) for line in rows.order_by("-follows__ended_at", "-pk") if line.follows]


def _replaced(line: CallLine, old: CallLine, call: Call) -> str:
    told = {
        "line": capfirst(str(old)),
        "old": old.person.name if old.person else "",
        "new": line.person.name if line.person else "",
        "at": _near(wall_time(old.ended_at, call.zone), call) if old.ended_at else "",
        "reason": old.ended_reason,
    }
    if not line.person:
        return _("%(line)s: %(old)s, taken off at %(at)s: %(reason)s; nobody yet instead") % told
    return _("%(line)s: %(old)s, replaced by %(new)s at %(at)s: %(reason)s") % told


def _near(wall: datetime, call: Call) -> str:
    """The time, with its day where that is not the day of the call."""
    return dateformat.format(wall, "g:i A") if wall.date() == call.call_date else moment(wall)


def light_words(light: SheetLine) -> str:
    """ "Show 3 · house 2, Rear booth"."""
    told = {"number": light.number, "label": light.label, "position": light.position}
    if not light.label:
        return _("Show %(number)s · no place yet") % told
    return _("Show %(number)s · house %(label)s, %(position)s") % told


def line_more(line: SheetLine, sheet: CallSheet) -> Iterator[str]:
    """As what somebody is on the light, when that one is to come, and what working there takes."""
    if line.role:
        yield capfirst(role_words(line.role))
    if line.own_call:
        yield own_call(line.own_call, sheet)
    if line.needs:
        yield needs(line)
