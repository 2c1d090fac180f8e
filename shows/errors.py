"""What can go wrong with a show, by name."""

from collections.abc import Mapping, Sequence

from django.utils.translation import gettext_lazy as _

from venue.errors import DomainError


class FindingChanged(DomainError):
    """What was to be decided is not what it was when the person saw it."""

    sentence = _("This has changed since you saw it. Look at it again, then decide.")


class NoShowLink(DomainError):
    """There is no link to the show that could be switched off."""

    sentence = _("There is no link that works. Nothing was changed.")


class CheckChanged(DomainError):
    """What was to be signed is not what the person saw."""

    sentence = _("Somebody marked more since you saw the check. Look at it again, then sign.")


class NumbersChanged(DomainError):
    """What was to be put elsewhere would not do what the person saw."""

    sentence = _("Something changed since you saw this. Nothing was stored: look at what it changes now, then do it.")


class AnswerChanged(DomainError):
    """What was to be confirmed is not what the person saw."""

    sentence = _("The house's answer changed since you saw it. Look at it again, then confirm.")


class PointAnswered(DomainError):
    """Somebody answered the open point before."""

    sentence = _("%(by)s answered this already. Nothing was changed.")

    def __init__(self, by: str) -> None:
        self.by = by


class PointNoted(DomainError):
    """What the book finds open is noted already."""

    sentence = _("This is noted already. Nothing was changed.")


class ProposalChanged(DomainError):
    """What was to be taken is not what the person saw."""

    sentence = _(
        "The show or the house changed since you saw the proposal. Nothing was stored: look at this one, anew."
    )


class EnteredAlready(DomainError):
    """Hours of these events are in the book: the entry covers them."""

    sentence = _("Entered already: %(what)s. Nothing is counted twice. Strike that out first if it is wrong.")

    def __init__(self, what: str) -> None:
        self.what = what


class NightChanged(DomainError):
    """The day's events or units are not what the person saw."""

    sentence = _("The show's events or units changed since you saw this. Look at it again, then store it.")


class UnitsRefused(DomainError):
    """What was entered for some units can't be stored, so none of it was: `refusals` by the unit's primary key."""

    sentence = _("Nothing was stored. Correct the units that are listed, then send all of it again.")

    def __init__(self, refusals: Mapping[int, Sequence[DomainError]]) -> None:
        self.refusals = refusals
