"""What can be done to rosters, calls and sheets. Each verb is one transaction and adds a line of history."""

from crew.actions.call_templates import add_template, change_template, end_template
from crew.actions.calls import call_off, change_call, make_call
from crew.actions.confirming import confirm_line
from crew.actions.filling import fill_call, put_at_spot_talk, put_on_number, take_off
from crew.actions.lines import add_line, give_number, replace_person, set_own_time
from crew.actions.people import end_person, return_person
from crew.actions.rosters import (
    add_person,
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
    "add_line",
    "add_person",
    "add_template",
    "call_off",
    "change_call",
    "change_template",
    "confirm_line",
    "end_person",
    "end_template",
    "ensure_roster",
    "fill_call",
    "give_number",
    "grant_dispatch",
    "issue_call_sheet",
    "make_call",
    "make_roster",
    "open_house",
    "put_at_spot_talk",
    "put_on_number",
    "replace_person",
    "return_person",
    "revoke_dispatch",
    "serve_house",
    "set_own_time",
    "take_off",
]
