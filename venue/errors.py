"""What can go wrong, by name. Each message is for a user to act on; the data are attributes."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from venue.core.local_time import shown

if TYPE_CHECKING:
    from django.db.models import Model


class DomainError(Exception):
    """The request breaks a rule of the trade or of the record; nothing was stored."""

    sentence: str | Promise = _("This can't be done.")

    def __str__(self) -> str:
        return str(self.sentence) % vars(self)


class Invalid(DomainError):
    """Some values can't be stored: `problems` lists messages by field, "__all__" for the row as a whole."""

    sentence = _("%(text)s")

    def __init__(self, problems: dict[str, list[str]]) -> None:
        self.problems = problems
        self.text = " ".join(self._lines())

    def _lines(self) -> list[str]:
        return [
            message if field == "__all__" else f"{field}: {message}"
            for field, messages in self.problems.items()
            for message in messages
        ]


class AlreadyExists(DomainError):
    """Another row has the name, label, tag or number; `message` says which, `constraint` names the rule."""

    sentence = _("%(message)s")

    def __init__(self, message: str, constraint: str = "") -> None:
        self.message, self.constraint = message, constraint


class NotFound(DomainError):
    """Nothing is on file under the name."""

    sentence = _("There is no %(kind)s “%(name)s” on file.")

    def __init__(self, kind: str, name: str) -> None:
        self.kind, self.name = kind, name


class AlreadyEnded(DomainError):
    """The row has ended before."""

    sentence = _("%(row)s has ended already. Nothing was changed.")

    def __init__(self, row: Model, ended_at: datetime) -> None:
        self.row, self.ended_at = row, ended_at


class InUse(DomainError):
    """The row can't end while `holder` relies on it."""

    sentence = _("%(holder)s: end or move that first.")

    def __init__(self, holder: Model) -> None:
        self.holder = holder


class StaleVersion(DomainError):
    """Somebody stored the row since it was read: `stored` is the row now, `submitted` what was refused."""

    sentence = _("Somebody else changed this while you were editing. Compare both, then save again.")

    def __init__(self, stored: Model, submitted: dict[str, Any]) -> None:
        self.stored, self.submitted = stored, submitted


class Overlap(DomainError):
    """The time is taken: by `holder`, from `starts_at` until `ends_at` (None: no end)."""

    sentence = _("%(holder)s, %(span)s, is in the way. End that first, or choose another time.")

    def __init__(self, holder: Model, starts_at: datetime, ends_at: datetime | None, zone: str) -> None:
        self.holder, self.starts_at, self.ends_at, self.zone = holder, starts_at, ends_at, zone

    @property
    def span(self) -> str:
        """From when until when, in the house's own time."""
        since = shown(self.starts_at, self.zone)
        if self.ends_at is None:
            return _("from %(since)s on") % {"since": since}
        return _("%(since)s to %(until)s") % {"since": since, "until": shown(self.ends_at, self.zone)}

    def __str__(self) -> str:
        return str(self.sentence) % {"holder": self.holder, "span": self.span}


class TryAgain(DomainError):
    """Somebody wrote at the same moment, and what was in the way is gone."""

    sentence = _("Somebody else wrote at the same moment. Try again.")


class LocalTimeMissing(DomainError):
    """Clocks in the zone never show the wall time: they jump over it."""

    sentence = _("%(wall)s does not exist in %(zone)s: clocks go forward then. Write another time.")

    def __init__(self, wall: datetime, zone: str) -> None:
        self.wall, self.zone = wall, zone


class LocalTimeTwice(DomainError):
    """Clocks in the zone show the wall time twice: at `first` and at `second`. Somebody must say which."""

    sentence = _("%(wall)s happens twice in %(zone)s: clocks go back then. Say whether the first or second.")

    def __init__(self, wall: datetime, zone: str, first: datetime, second: datetime) -> None:
        self.wall, self.zone, self.first, self.second = wall, zone, first, second


class HistoryIsKept(DomainError):
    """History is only ever added to."""

    sentence = _("History can't be changed or deleted.")


class LinkRefused(DomainError):
    """The link is unknown, wrong, over or revoked; which of these is not told."""

    sentence = _("This link does not work any more. Ask whoever sent it for a new one.")


class WrongHouse(DomainError):
    """Two rows of different houses or engagements were put together."""

    sentence = _("%(one)s and %(other)s do not belong together. Choose both from the same one.")

    def __init__(self, one: Model, other: Model) -> None:
        self.one, self.other = one, other


class NothingToTurn(DomainError):
    """The walk of the position does not say that its row runs the other way."""

    sentence = _("%(position)s is not the other way round by its last walk. Nothing was turned.")

    def __init__(self, position: Model) -> None:
        self.position = position
