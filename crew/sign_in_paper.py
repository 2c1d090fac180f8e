"""A call from rows to the sheet on which its people sign in and out."""

from datetime import datetime

from django.utils.translation import gettext as _

from crew.core.call_sheet import read_sheet
from crew.day_page import ShownRow, shown_rows
from crew.day_rows import day_rows
from crew.models import Call
from crew.models.calls import LineRole
from crew.moments import moment
from crew.printing import imprint_of
from crew.sheet_content import SheetState, event_words, state_of
from crew.sheets.call_sheet import Imprint
from crew.sheets.sign_in import SignIn, SignInRow
from crew.wording.day import clock_words
from crew.wording.sheet import code_in_groups, day
from venue.core.local_time import wall_time


def sign_in_paper(call: Call, *, now: datetime, site: str) -> SignIn:
    """Everybody who is on the call now; `site` is where the code of the call sheet can be asked about."""
    state = state_of(call)
    rows = [row for row in day_rows(call, now) if not row.line.has_ended]
    return SignIn(
        show=call.engagement.name,
        which=f"{call.engagement.house.name} · {day(call.call_wall.isoformat())} · {event_words(call.event)}",
        times=_times(call),
        standing=_standing(state),
        clocks=_("All times by the clocks of %(zone)s.") % {"zone": call.zone},
        rows=tuple(_row(each, call) for each in shown_rows(call, rows, state.draft.sheet)),
        imprint=_imprint(state, call, now, site),
    )


def _times(call: Call) -> str:
    told = [_("Call %(at)s") % {"at": moment(call.call_wall)}, call.place]
    told += [_("until about %(at)s") % {"at": moment(call.ends_wall)}]
    return " · ".join(filter(None, told))


def _standing(state: SheetState) -> str:
    """Which call sheet this goes with."""
    if state.latest is None:
        return _("No call sheet is issued yet.")
    told = {"n": state.latest.n, "code": code_in_groups(state.latest.code.code)}
    if state.code == "current":
        return _("Goes with call sheet revision %(n)s, code %(code)s.") % told
    return _("CHANGED since call sheet revision %(n)s, code %(code)s; not issued.") % told


def _imprint(state: SheetState, call: Call, now: datetime, site: str) -> Imprint:
    if state.latest is None:
        return Imprint(printed_at=wall_time(now, call.zone))
    return imprint_of(state.latest, read_sheet(state.latest.content), now=now, site=site)


def _row(shown: ShownRow, call: Call) -> SignInRow:
    row, line = shown.row, shown.row.line
    meal = row.meals[0] if row.meals else None
    role = "" if line.role == LineRole.OPERATOR else f", {line.get_role_display()}"
    return SignInRow(
        name=f"{row.name}{role}",
        number=line.number or "—",
        label=shown.label or "—",
        call=shown.call,
        came=_clock(row.in_at, call),
        meal_from=_clock(meal.starts_at if meal else None, call),
        meal_until=_clock(meal.ends_at if meal else None, call),
        left=_clock(row.out_at, call),
    )


def _clock(instant: datetime | None, call: Call) -> str:
    return clock_words(instant, call.zone, call.call_date) if instant else ""
