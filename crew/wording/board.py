"""The board of calls in words."""

from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from crew.board import BoardCall
from crew.models import Call, Message
from crew.models.offers import MessageKind
from crew.wording.changes import change_sentence
from crew.wording.sheet import fill_words

MOST_CHANGES = 3
"""So many are said on the board; the call's page says all of them."""


@dataclass(frozen=True)
class ShownUnseen:
    """Somebody who has not said to have seen what changed. `phone` is for dispatch alone, "" for anybody else."""

    message: Message
    words: str
    phone: str


@dataclass(frozen=True)
class ShownCall:
    """A call as the board says it. `is_open`: somebody is still to be found. `may_tell`: the reader dispatches it."""

    call: Call
    filled: str
    is_open: bool
    sheet: str
    changes: tuple[str, ...]
    waiting: str
    unseen: tuple[ShownUnseen, ...]
    may_tell: bool


def shown_call(found: BoardCall) -> ShownCall:
    """All words of one row, with numbers to call where the call was fetched by dispatch (`may_fill`)."""
    may_tell = bool(getattr(found.call, "may_fill", False))
    return ShownCall(
        call=found.call,
        filled=fill_words(found.filled, found.wanted),
        is_open=found.to_fill > 0,
        sheet=sheet_words(found),
        changes=tuple(_changes(found)),
        waiting=_waiting(found),
        unseen=tuple(_unseen(message, may_tell=may_tell) for message in found.unseen),
        may_tell=may_tell,
    )


def _unseen(message: Message, *, may_tell: bool) -> ShownUnseen:
    person = message.person
    words = _("%(name)s %(what)s") % {"name": person.name, "what": message.get_kind_display()}
    if message.kind == MessageKind.CALLED_OFF:
        words = _("%(name)s: %(what)s") % {"name": person.name, "what": message.get_kind_display()}
    return ShownUnseen(message, words, person.phone if may_tell else "")


def sheet_words(found: BoardCall) -> str:
    """Whether the latest sheet still says what is so."""
    if found.latest is None:
        return _("no sheet issued yet")
    told = {"n": found.latest.n}
    return {
        "current": _("revision %(n)s issued, current"),
        "changed-not-issued": _("revision %(n)s issued, CHANGED SINCE, not issued"),
        "touched": _("revision %(n)s issued; the house or the show was touched since: open the call to see"),
    }[found.state] % told


def _changes(found: BoardCall) -> list[str]:
    said = [change_sentence(change) for change in found.changes[:MOST_CHANGES]]
    more = len(found.changes) - len(said)
    return [*said, ngettext("and %(n)s change more", "and %(n)s changes more", more) % {"n": more}] if more else said


def _waiting(found: BoardCall) -> str:
    if found.latest is None or not found.waiting:
        return ""
    told = {"n": found.waiting, "revision": found.latest.n}
    text = ngettext(
        "%(n)s person has not confirmed revision %(revision)s",
        "%(n)s people have not confirmed revision %(revision)s",
        found.waiting,
    )
    return text % told
