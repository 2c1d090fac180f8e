"""What can be done to rosters, calls and sheets. Each verb is one transaction and adds a line of history."""

from crew.actions.calls import call_off, change_call, make_call
from crew.actions.confirming import confirm_line
from crew.actions.filling import fill_call, put_at_spot_talk, put_on_number, take_off
from crew.actions.rosters import (
    add_person,
    end_person,
    ensure_roster,
    grant_dispatch,
    make_roster,
    open_house,
    revoke_dispatch,
    serve_house,
)
from crew.actions.sheets import Issue, issue_call_sheet

__all__ = [
    "Issue",
    "add_person",
    "call_off",
    "change_call",
    "confirm_line",
    "end_person",
    "ensure_roster",
    "fill_call",
    "grant_dispatch",
    "issue_call_sheet",
    "make_call",
    "make_roster",
    "open_house",
    "put_at_spot_talk",
    "put_on_number",
    "revoke_dispatch",
    "serve_house",
    "take_off",
]
