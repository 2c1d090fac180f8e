"""What the page of all parts shows: invented lights of an invented house, and nothing that is stored."""

from typing import Any
from uuid import UUID

from django.contrib.messages import constants
from django.contrib.messages.storage.base import Message
from django.utils.translation import gettext as _

from crew.core.call_sheet import SheetLine
from crew.forms.looks import LooksForm
from crew.landing.card import Card
from shows.core.numbering.comparison import compare
from shows.core.numbering.records import Comparison, House, Position, Slot, Spot
from shows.lines import ShowLine
from shows.plans import shown_plan, view_in

LABELS = ("4", "3", "2", "1")
KINDS = ("fix", "tell", "ask", "agree")
_LEVELS = (constants.SUCCESS, constants.WARNING, constants.ERROR, constants.INFO)


def looks(view: str) -> dict[str, Any]:
    """Everything that the templates of the parts name; `view` turns the plan."""
    lines = [_line(number, label) for number, label in enumerate(LABELS, start=1)]
    lights = [SheetLine(number=f"{number}", label=label) for number, label in enumerate(LABELS, start=1)]
    return {
        "kinds": KINDS,
        "card": Card(_("House head"), _("Can we run tonight?"), _("Tonight can run."), "#answer-1", _("Open it")),
        "lights": [*lights, SheetLine(number=_("Performer 12"), label="")],
        "lines": {"lines": lines},
        "why": [],
        "plan": shown_plan(_sample(), None, view_in(view)),
        "form": LooksForm(auto_id="sound_%s"),
        "wrong": LooksForm({}, auto_id="wrong_%s"),
        "samples": [Message(level, _("What was done, or why it was not.")) for level in _LEVELS],
    }


def _sample() -> Comparison:
    """A booth whose labels run the other way, with one spare place."""
    slots = tuple(Slot(label, order=order) for order, label in enumerate((*LABELS, "5"), start=1))
    spots = [Spot(f"{number}") for number in range(1, len(LABELS) + 1)]
    return compare(House((Position(_("Rear booth"), slots),)), spots, "house left to house right")


def _line(number: int, label: str) -> ShowLine:
    where = (_("Rear booth"), f"FS-0{label}", "statement", _("house left · stage right"))
    return ShowLine(f"{number}", label, *where, "", (), "", "", UUID(int=number), f"{number}")
