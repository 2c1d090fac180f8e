"""What an entry of a calendar says: of a call for one person, and for a house without anybody's name."""

from datetime import datetime

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from crew.models import Call, CallLine
from crew.models.calls import LineRole
from crew.moments import moment


def feed_name(whose: str) -> str:
    """What the whole calendar is called; `whose` is the roster's name or the house's."""
    return _("Calls: %(whose)s") % {"whose": whose}


def summary(call: Call, line: CallLine | None = None) -> str:
    """ "Call: Nine Paper Boats, rehearsal"; with a line what its person does, and first if nobody is to come."""
    said = _("Call: %(show)s, %(event)s") % {"show": call.engagement.name, "event": event_words(call)}
    if line is not None:
        said = f"{said} · {work_words(line)}"
    if off_reason(call) is not None:
        return _("CALLED OFF: %(call)s") % {"call": said}
    if line is not None and line.has_ended:
        return _("RELEASED: %(call)s") % {"call": said}
    return said


def event_words(call: Call) -> str:
    """The event's name, else what it is."""
    return call.event.name or str(call.event.get_kind_display())


def work_words(line: CallLine) -> str:
    """ "show number 3", "number at the spot talk", "spare"."""
    if not line.number_key:
        return _("number at the spot talk") if line.role == LineRole.OPERATOR else str(line.get_role_display())
    number = _("show number %(number)s") % {"number": line.number}
    return number if line.role == LineRole.OPERATOR else f"{number}, {line.get_role_display()}"


def where(call: Call) -> str:
    """ "stage door, Quillmark Hall"."""
    return ", ".join(part for part in (call.place, call.engagement.house.name) if part)


def off_reason(call: Call) -> str | None:
    """Why nobody is to come, if the call is off, or its event or show was before it was over."""
    if call.ended_at is not None:
        return call.ended_reason
    ended = (row for row in (call.event, call.engagement) if row.ended_at is not None and row.ended_at < call.ends_at)
    return next((row.ended_reason for row in ended), None)


def person_lines(call: Call, line: CallLine) -> tuple[str, ...]:
    """All that the line's person has to know until the sheet is there."""
    own = line.own_wall
    said = [*_why_off(call, line), capfirst(work_words(line)), *_times(call, own), call.notes]
    return (*filter(None, said), _("The issued call sheet tells which light, and counts where it says something else."))


def house_lines(call: Call) -> tuple[str, ...]:
    """When and by whom, without what somebody wrote: nobody's name may stand there."""
    return (_("Roster: %(name)s") % {"name": call.roster.name}, *_times(call))


def _why_off(call: Call, line: CallLine) -> list[str]:
    off = off_reason(call)
    if off is not None:
        return [_("Called off: %(reason)s") % {"reason": off}]
    return [_("Not on this call any more: %(reason)s") % {"reason": line.ended_reason}] if line.has_ended else []


def _times(call: Call, own: datetime | None = None) -> list[str]:
    """By the house's clocks, whatever the reader's show."""
    times = (
        (_("Own call"), own, call.place) if own else (_("Call"), call.call_wall, call.place),
        (_("Spot talk"), call.talk_wall, call.talk_place),
        (capfirst(event_words(call)), call.event.starts_wall, ""),
        (_("Meal"), call.meal_wall, ""),
        (_("Expected end"), call.ends_wall, ""),
    )
    said = [f"{what}: {', '.join(filter(None, (moment(at), at_place)))}" for what, at, at_place in times if at]
    return [*said, _("All times by the clocks of %(zone)s.") % {"zone": call.zone}]
