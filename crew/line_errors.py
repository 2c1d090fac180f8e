"""What keeps people off the lines of a call, by name."""

from collections.abc import Sequence
from datetime import date, datetime

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext

from crew.moments import day_words, moment_at
from venue.errors import DomainError

MOST_NAMED = 5
"""So many of those passed over are named; the others are counted."""


class Barred(DomainError):
    """Somebody can't come on a line: `why` says what keeps them off it, `way` what to do instead."""

    way: str | Promise = _("Choose somebody else.")

    @property
    def why(self) -> str:
        return str(self.sentence) % vars(self)

    def __str__(self) -> str:
        return f"{self.why} {self.way}"


class Booked(Barred):
    """Somebody is on another call at that time."""

    sentence = _("%(name)s is on another call from %(starts)s to %(ends)s, %(where)s.")
    way = _("Choose somebody else, or take them off that.")

    def __init__(self, name: str, starts: datetime, ends: datetime, zone: str, where: str) -> None:
        self.name, self.where, self.starts, self.ends = name, where, moment_at(starts, zone), moment_at(ends, zone)


class CertificationMissing(Barred):
    """Somebody lacks what the line requires: it is not on file, or `last_day` comes before the call is over."""

    sentence = _("%(name)s has no “%(kind)s” on file, and nobody works there without it.")
    expired = _("%(name)s: “%(kind)s” is valid through %(last_day)s only, and nobody works there without it.")
    renew = _("Choose somebody else, or have it renewed first.")

    def __init__(self, name: str, kind: str, last_day: date | None = None) -> None:
        self.name, self.kind, self.last_day = name, kind, day_words(last_day) if last_day else ""
        if last_day is not None:
            self.sentence, self.way = self.expired, self.renew


class ShortRest(Barred):
    """A call of another working day is too near: the rest after the one before is over at `until`.

    That is before this call, or before one at `next_at`, which is then too soon after this.
    """

    sentence = _("%(name)s has a short rest until %(until)s, after another call.")
    before_next = _("%(name)s has a call at %(next_at)s, and a rest after this one until %(until)s.")

    def __init__(self, name: str, until: datetime, zone: str, next_at: datetime | None = None) -> None:
        self.name, self.until = name, moment_at(until, zone)
        self.next_at = moment_at(next_at, zone) if next_at else ""
        if next_at is not None:
            self.sentence = self.before_next


class DayOff(Barred):
    """Somebody does not work on that day."""

    sentence = _("%(name)s is off from %(first)s through %(last)s.")
    one_day = _("%(name)s is off on %(first)s.")

    def __init__(self, name: str, first: date | None, last: date | None) -> None:
        self.name, self.first, self.last = name, *(day_words(day) if day else "" for day in (first, last))
        if first == last:
            self.sentence = self.one_day


class LeftRoster(Barred):
    """Somebody is on the roster no more."""

    sentence = _("%(name)s has left the roster.")

    def __init__(self, name: str) -> None:
        self.name = name


class CantComeThen(DomainError):
    """People on the call can't come at its new times: `refusals` say why, one for each."""

    def __init__(self, refusals: Sequence[Barred]) -> None:
        self.refusals = tuple(refusals)

    def lines(self) -> list[str]:
        """What is wrong, why for each person, what to do."""
        count = len(self.refusals)
        head = ngettext(
            "%(count)s person on the call can't come at these times.",
            "%(count)s people on the call can't come at these times.",
            count,
        )
        way = _("Nothing was changed. Take them off the call, or choose other times.")
        return [head % {"count": count}, *(refusal.why for refusal in self.refusals), str(way)]

    def __str__(self) -> str:
        return " ".join(self.lines())


class NotCertified(DomainError):
    """People on a call lack what their lines require: `refusals` say what, one for each."""

    def __init__(self, refusals: Sequence[CertificationMissing]) -> None:
        self.refusals = tuple(refusals)

    def __str__(self) -> str:
        way = _("The sheet was not issued: take them off these lines, or have it renewed, then issue it.")
        return " ".join([*(refusal.why for refusal in self.refusals), str(way)])


class PassesOver(DomainError):
    """The list is strict: `names` come earlier on it and can come, and nobody said why they are passed over."""

    def __init__(self, names: Sequence[str]) -> None:
        self.names = tuple(names)

    def __str__(self) -> str:
        text = ngettext(
            "%(names)s comes earlier on the list and can come. Write why they are passed over.",
            "%(count)s people come earlier on the list and can come: %(names)s. Write why they are passed over.",
            len(self.names),
        )
        few = ", ".join(self.names[:MOST_NAMED]) + (" …" if len(self.names) > MOST_NAMED else "")
        return text % {"names": few, "count": len(self.names)}
