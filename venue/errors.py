"""What can go wrong, by name. Each message is for a user to act on; the data are attributes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from venue.core.hours import ReadingProblem
from venue.core.local_time import shown
from venue.wording_hours import added_sentence, problem_sentence

if TYPE_CHECKING:
    from django.db.models import Model

    from venue.readings_file import JudgedFile


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


class AlreadyStruck(DomainError):
    """The entry was struck out before."""

    sentence = _("%(row)s was struck out already. Nothing was changed.")

    def __init__(self, row: Model) -> None:
        self.row = row


class AlreadyClosed(DomainError):
    """Somebody closed the fault before."""

    sentence = _("%(row)s was closed already, by %(by)s. Nothing was changed.")

    def __init__(self, row: Model) -> None:
        self.row, self.by = row, getattr(row, "closed_by", "")


class AlreadyDone(DomainError):
    """Somebody recorded the care as done before, or its plan ended."""

    sentence = _("%(row)s: it was recorded as done already, or its plan ended. Nothing was changed.")

    def __init__(self, row: Model) -> None:
        self.row = row


class InUse(DomainError):
    """The row can't end while `holder` relies on it."""

    sentence = _("%(holder)s: end or move that first.")

    def __init__(self, holder: Model) -> None:
        self.holder = holder


class CircuitInUse(DomainError):
    """The circuit can't end while places draw on it: `places` names them."""

    sentence = _("On this circuit: %(places)s. Say there which other circuit they are on, then end this one.")

    def __init__(self, places: Iterable[Model]) -> None:
        self.places = "; ".join(map(str, places))


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


# Hours of lamps and units.


class ReadingJudged(DomainError):
    """A reading does not go without more beside those before and after it; `problems` say why.

    `is_added`: they are about hours added, not about what a meter showed.
    """

    def __init__(self, problems: Sequence[ReadingProblem], zone: str, *, is_added: bool = False) -> None:
        self.problems, self.zone, self.is_added = tuple(problems), zone, is_added

    def lines(self) -> list[tuple[str, str]]:
        """The code of each problem and its sentence."""
        sentence = added_sentence if self.is_added else problem_sentence
        return [(problem.code, sentence(problem, self.zone)) for problem in self.problems]

    def __str__(self) -> str:
        return " ".join(line for _code, line in self.lines())


class ReadingRefused(ReadingJudged):
    """The meter can't have shown that."""


class ReadingQuestioned(ReadingJudged):
    """The reading is odd but may be right: whoever entered it is asked, and says so with `confirmed`."""


class ReadingsFileRefused(DomainError):
    """A file of readings has problems, or questions that nobody answered: `judged` lists them by line."""

    sentence = _("Nothing was loaded. Correct the lines that are listed, or answer what is asked.")

    def __init__(self, judged: JudgedFile) -> None:
        self.judged = judged


class AddedBesideMeter(DomainError):
    """Hours are to be added for a time in which a meter counts; `confirmed` says that it did not count them."""

    sentence = _("A meter counts on %(unit)s at that time. Are these hours that it did not count?")

    def __init__(self, unit: Model) -> None:
        self.unit = unit


class NoMeter(DomainError):
    """The unit had no meter at that time."""

    sentence = _("%(unit)s had no meter on %(when)s. Put its meter on file from then on, or add hours.")

    def __init__(self, unit: Model, at: datetime, zone: str) -> None:
        self.unit, self.at, self.when = unit, at, shown(at, zone)


class LiesAhead(DomainError):
    """What was read or done lies ahead."""

    sentence = _("%(when)s lies ahead. Write when it was done.")

    def __init__(self, at: datetime, zone: str) -> None:
        self.at, self.when = at, shown(at, zone)


class PointedAt(DomainError):
    """A relamp goes by the reading, which therefore can't just be struck out."""

    sentence = _("%(fitting)s goes by this reading. Write what the meter showed instead, and it takes its place.")

    def __init__(self, reading: Model, fitting: Model) -> None:
        self.reading, self.fitting = reading, fitting


class TooLateToUndo(DomainError):
    """The entry is not the last one, or somebody else's, or was made too long ago."""

    sentence = _("This can't be undone any more. Strike it out and say why.")


class NotFitted(DomainError):
    """No lamp is in the unit at that time."""

    sentence = _("No lamp is in %(unit)s at that time. Choose another time, or fit one first.")

    def __init__(self, unit: Model) -> None:
        self.unit = unit


class FittedThen(DomainError):
    """A lamp was fitted at that very instant."""

    sentence = _("%(fitting)s was fitted at that very time. Write another time.")

    def __init__(self, fitting: Model) -> None:
        self.fitting = fitting


class MovedMeanwhile(DomainError):
    """The unit was moved since the page was loaded."""

    sentence = _("Somebody else moved %(unit)s meanwhile. Look where it is now, then send this again.")

    def __init__(self, unit: Model) -> None:
        self.unit = unit
