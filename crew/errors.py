"""What can go wrong with calls and sheets, by name."""

from collections.abc import Sequence
from datetime import date, datetime

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from crew.core.hours.problems import Problem
from crew.moments import day_words, moment_at
from crew.wording.left import NOBODY_SENTENCE, left_sentence
from venue.errors import DomainError


class IssuingStopped(DomainError):
    """The numbering breaks the show's own rule: a sheet would send people to wrong lights."""

    sentence = _("%(verdict)s Put that right on the compare page; until then no sheet can be issued.")

    def __init__(self, verdict: str) -> None:
        self.verdict = verdict


class NothingToIssue(DomainError):
    """The call has neither a light nor an operator."""

    sentence = _("The call has no show number and nobody at the spot talk yet. Take in the paperwork, or add somebody.")


class ChangedMeanwhile(DomainError):
    """The sheet would not say what the user was shown."""

    sentence = _(
        "Somebody changed the call or the show while you were looking. Look at it as it is now, then issue it."
    )


class NotServed(DomainError):
    """The roster does not serve the house of the event."""

    sentence = _("The roster %(roster)s does not serve %(house)s. Choose one that does.")

    def __init__(self, roster: str, house: str) -> None:
        self.roster, self.house = roster, house


class NoTechLink(DomainError):
    """The house has no public link to its technical sheet that works."""

    sentence = _("There is no public link that works. Nothing was changed.")


class NoFeedLink(DomainError):
    """The calendar has no address that works."""

    sentence = _("This calendar has no address that works. Nothing was changed.")


class NotTheLatest(DomainError):
    """A newer revision is in force: what was to be confirmed is old."""

    sentence = _("Revision %(n)s was issued meanwhile. Look at it, then confirm.")

    def __init__(self, n: int) -> None:
        self.n = n


class NumberTaken(DomainError):
    """Somebody else is on the show number."""

    sentence = _("%(name)s is on show %(number)s already. Choose another number, or give %(name)s one first.")

    def __init__(self, number: str, name: str) -> None:
        self.number, self.name = number, name


class NobodyMarked(DomainError):
    """What was to be written of the day applies to nobody: `left` names each with the code of why."""

    def __init__(self, left: Sequence[tuple[str, str]]) -> None:
        self.left = tuple(left)

    def __str__(self) -> str:
        return " ".join(left_sentence(name, why) for name, why in self.left) or str(NOBODY_SENTENCE)


class FarFromCall(DomainError):
    """The time is too far from the call to belong to its day."""

    sentence = _("%(when)s is far from this call, which is at %(call)s. Check the time, and that it is the right call.")

    def __init__(self, at: datetime, call_at: datetime, zone: str) -> None:
        self.when, self.call = moment_at(at, zone), moment_at(call_at, zone)


class RulesRefused(DomainError):
    """Rules for hours have problems: `problems` names each by its path."""

    sentence = _("The rules were not stored. Correct what is marked.")

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)


class RulesFromThen(DomainError):
    """There are rules for the same house, or for all, from the same day on: `name`; `day` is None where always."""

    sentence = _("“%(name)s” holds from %(day)s on already. Correct that, or choose another day.")
    always = _("“%(name)s” holds already. Correct that, or choose a day from which others hold.")

    def __init__(self, name: str, day: date | None) -> None:
        self.name, self.day = name, day and day_words(day)
        if day is None:
            self.sentence = self.always


class LineTaken(DomainError):
    """Somebody is on the line already."""

    sentence = _("%(name)s is on it already. Replace them by name, with a reason.")

    def __init__(self, name: str) -> None:
        self.name = name


class NoSuchLine(DomainError):
    """The call has no such line any more."""

    sentence = _("The call has no such line any more. Look at it as it is now.")


class OfferIsOver(DomainError):
    """An answer came for a question that is not open any more."""

    sentence = _("%(why)s Nothing was changed.")

    def __init__(self, why: str | Promise) -> None:
        self.why = str(why)


class NobodyAsked(DomainError):
    """Nobody was chosen, or nobody who may be asked."""

    sentence = _("Choose at least one person to ask.")


class NotToBeAsked(DomainError):
    """Somebody can't be asked for the line: asked already, on the call already, or off the roster."""

    sentence = _("%(names)s: asked already, on this call already, or not on the roster any more. Nobody was asked.")

    def __init__(self, names: Sequence[str]) -> None:
        self.names = ", ".join(names)


class AnswerTooLate(DomainError):
    """The time until which an answer is wanted is over, or not before the call."""

    sentence = _("The last answer would be wanted by %(when)s. Choose a time from now until the call at %(call)s.")

    def __init__(self, at: datetime, call_at: datetime, zone: str) -> None:
        self.when, self.call = moment_at(at, zone), moment_at(call_at, zone)


class NotInThisState(DomainError):
    """Somebody dealt with the message in between."""

    sentence = _("This message is %(state)s by now. Look at it again.")

    def __init__(self, state: str) -> None:
        self.state = state
