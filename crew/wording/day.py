"""Words of a call's day and of the hours that come of it."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime

from django.utils import dateformat
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from crew.actions.day import Marked
from crew.core.day import Presence
from crew.core.hours.records import minutes_between
from crew.day_rows import DayRow
from crew.hour_rows import Attended
from crew.wording.hour_values import plain_hours
from venue.core.local_time import wall_time

DO_WORDS: Mapping[str, Promise] = {
    "in": gettext_lazy("In"),
    "out": gettext_lazy("Out"),
    "meal-begins": gettext_lazy("Meal begins"),
    "meal-ends": gettext_lazy("Meal ends"),
    "meal": gettext_lazy("A whole meal"),
    "not-come": gettext_lazy("Did not come"),
    "sent-home": gettext_lazy("Sent home"),
}
"""What can be done to somebody on the day."""
STATE_WORDS: Mapping[str, Promise] = {
    "expected": gettext_lazy("not here yet"),
    "in": gettext_lazy("here"),
    "meal": gettext_lazy("at a meal"),
    "out": gettext_lazy("out"),
    "no-show": gettext_lazy("did not come"),
    "sent-home": gettext_lazy("sent home"),
}


def state_words(presence: Presence) -> str:
    return str(STATE_WORDS[presence.state])


def late_words(presence: Presence) -> str:
    """ "31 min late"; nothing for who is not."""
    return _("%(n)s min late") % {"n": presence.late_min} if presence.late_min else ""


def clock_words(instant: datetime, zone: str, day: date) -> str:
    """ "6:31 PM"; on another day than `day` with its date."""
    wall = wall_time(instant, zone)
    return dateformat.format(wall, "g:i A" if wall.date() == day else "M j, g:i A")


def times_words(row: DayRow, zone: str, day: date) -> list[str]:
    """In, meals and out, a part each, as far as they are written."""

    def at(instant: datetime) -> str:
        return clock_words(instant, zone, day)

    told = [_("in %(at)s") % {"at": at(row.in_at)}] if row.in_at else []
    for meal in row.meals:
        ends = at(meal.ends_at) if meal.ends_at else "…"
        told.append(_("meal %(from)s – %(until)s") % {"from": at(meal.starts_at), "until": ends})
    return [*told, *([_("out %(at)s") % {"at": at(row.out_at)}] if row.out_at else [])]


def here_sentence(rows: Sequence[DayRow]) -> str:
    """ "3 of 6 are here. 2 are out. 1 did not come."; who came and left counts no more as here."""
    states = [row.presence.state for row in rows]
    here = sum(state in {"in", "meal"} for state in states)
    told = {"here": here, "all": len(rows), "out": states.count("out") + states.count("sent-home")}
    told["missed"] = states.count("no-show")
    parts = [_("%(here)s of %(all)s are here.") % told]
    if told["out"]:
        parts.append(ngettext("%(out)s is out.", "%(out)s are out.", told["out"]) % told)
    if told["missed"]:
        parts.append(ngettext("%(missed)s did not come.", "%(missed)s did not come.", told["missed"]) % told)
    return " ".join(parts)


def missing_sentence(rows: Sequence[DayRow]) -> str:
    """Who has not come yet, with the minutes of who is late; nothing where nobody is missing."""
    missing = [row for row in rows if row.presence.state == "expected"]
    names = (f"{row.name} ({late})" if (late := late_words(row.presence)) else row.name for row in missing)
    return _("Not here yet: %(names)s.") % {"names": ", ".join(names)} if missing else ""


def marked_sentence(does: str, marked: Marked) -> str:
    """ "In: Ada Quillfeather, Dov Halloran."."""
    return _("%(what)s: %(names)s.") % {"what": DO_WORDS[does], "names": ", ".join(marked.done)}


def minimum_words(minutes: int) -> str:
    """ "minimum 3.5 h"; nothing where there is none."""
    return _("minimum %(hours)s") % {"hours": plain_hours(minutes)} if minutes else ""


def due_words(due: datetime, since: datetime, zone: str, day: date) -> str:
    """ "meal due by 12:00 AM, 5 h after 7:00 PM"."""
    told = {"due": clock_words(due, zone, day), "since": clock_words(since, zone, day)}
    told["after"] = plain_hours(minutes_between(since, due))
    return _("meal due by %(due)s, %(after)s after %(since)s") % told


def meal_words(due: datetime, now: datetime, zone: str, day: date) -> str:
    """ "meal due at 7:00 PM"; past it "meal overdue since 7:00 PM"."""
    told = {"at": clock_words(due, zone, day)}
    return (_("meal overdue since %(at)s") if now >= due else _("meal due at %(at)s")) % told


def waiting_words(day: Attended) -> str:
    """Why somebody's day can't be counted yet."""
    told = {"at": clock_words(day.row.in_at or day.starts, day.call.zone, day.call.call_date)}
    if day.row.out_at is None:
        return _("in %(at)s, no time out yet") % told
    return _("in %(at)s, a meal has no end yet") % told


def waiting_at_words(day: Attended) -> str:
    """The same with the day of the call in front: "Mar 3: in 7:00 PM, no time out yet"."""
    return f"{dateformat.format(day.call.call_date, 'M j')}: {waiting_words(day)}"
