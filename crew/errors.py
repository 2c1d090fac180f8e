"""What can go wrong with calls and sheets, by name."""

from datetime import datetime

from django.utils.translation import gettext_lazy as _

from venue.core.local_time import shown
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


class NotTheLatest(DomainError):
    """A newer revision is in force: what was to be confirmed is old."""

    sentence = _("Revision %(n)s was issued meanwhile. Look at it, then confirm.")

    def __init__(self, n: int) -> None:
        self.n = n


class Booked(DomainError):
    """Somebody is on another call at that time."""

    sentence = _(
        "%(name)s is on another call from %(starts)s to %(ends)s. Choose somebody else, or take them off that."
    )

    def __init__(self, name: str, starts: datetime, ends: datetime, zone: str) -> None:
        self.name, self.starts, self.ends = name, shown(starts, zone), shown(ends, zone)
