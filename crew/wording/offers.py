"""Questions to people for a line of a call, and their answers, in sentences."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext, ngettext
from django.utils.translation import gettext_lazy as _

from crew.core.call_sheet import CallSheet
from crew.models import Offer
from crew.models.offers import Answer
from crew.moments import moment
from crew.wording.sheet import filled
from venue.core.local_time import wall_time

if TYPE_CHECKING:
    from crew.offers import AskedLine

OVER: Mapping[str, Promise] = {
    Answer.ACCEPTED: _("This was answered with yes already."),
    Answer.DECLINED: _("This was answered with no already."),
    Answer.NO_ANSWER: _("The time to answer is over. Call dispatch: the line may still be open."),
    Answer.FILLED: _("Somebody else was quicker: the line is taken."),
    Answer.WITHDRAWN: _("The question was taken back: nobody is wanted for it any more."),
}


def over_sentence(answer: str) -> str:
    """Why an answer comes too late."""
    return str(OVER[answer])


def state_words(offer: Offer, zone: str) -> str:
    """ "asked Mar 2, 6:00 AM, answer wanted by Mar 3, 6:00 AM", "said no Mar 2, 7:00 AM: ill"."""
    if not offer.answer:
        return _open_words(offer, zone)
    told = {"answer": offer.get_answer_display(), "when": when(offer.answered_at, zone)}
    words = gettext("%(answer)s, %(when)s") % told
    return f"{words}: {offer.note}" if offer.note else words


def when(at: datetime | None, zone: str) -> str:
    """ "Mar 2, 2026, 6:30 PM", by the clocks of the zone."""
    return moment(wall_time(at, zone)) if at else ""


def _open_words(offer: Offer, zone: str) -> str:
    told = {"asked": when(offer.asked_at, zone), "by": when(offer.answer_by, zone)}
    if not offer.is_asked:  # type: ignore[attr-defined]
        return gettext("comes after those before, from %(asked)s at the latest") % told
    words = gettext("asked %(asked)s, NO ANSWER YET") % told
    if offer.answer_by is not None:
        words = gettext("asked %(asked)s, NO ANSWER YET, wanted by %(by)s") % told
    return f"{words}. {offer.note}" if offer.note else words


def line_state(line: "AskedLine", to_fill: int) -> str:
    """What is to be done about the line, in a few words; `to_fill` is how many the whole call still lacks."""
    if line.line is not None and line.line.person is not None:
        return gettext("%(name)s is on it") % {"name": line.line.person.name}
    if line.is_to_ask:
        return gettext("ASK THE NEXT: everybody asked said no, or nothing")
    if not line.offers:
        return gettext("TO FILL: nobody is asked yet") if to_fill else gettext("somebody of the spot talk takes it")
    return ngettext("%(n)s person is asked", "%(n)s people are asked", line.waiting) % {"n": line.waiting}


def answer_sentence(lines: Sequence["AskedLine"], sheet: CallSheet) -> str:
    """ "6 of 8, 2 to fill. People are asked for 1 line." """
    asked = sum(bool(line.waiting) for line in lines)
    found = capfirst(filled(sheet)) + "."
    if not asked:
        return found
    return f"{found} " + ngettext("People are asked for %(n)s line.", "People are asked for %(n)s lines.", asked) % {
        "n": asked
    }
