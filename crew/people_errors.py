"""What can go wrong with the people of a roster, by name."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext

from venue.errors import DomainError

if TYPE_CHECKING:
    from crew.people_file import JudgedPeople


class CallsToCome(DomainError):
    """Somebody can't leave while calls that come count on them: `calls` names the first, besides `more` others."""

    sentence = _("%(name)s is on calls to come: %(calls)s. Take them off these first.")

    def __init__(self, name: str, calls: Iterable[str], more: int) -> None:
        words = ngettext("and %(n)s more", "and %(n)s more", more) % {"n": more}
        self.name, self.calls = name, "; ".join([*calls, words] if more else calls)


class AskedMeanwhile(DomainError):
    """Somebody was asked for another call in the moment in which they were to leave."""

    sentence = _("%(name)s was asked for a call at this very moment. Nothing was changed: send it again.")

    def __init__(self, name: str) -> None:
        self.name = name


class Forgotten(DomainError):
    """Somebody was forgotten, for good."""

    sentence = _("%(name)s was forgotten, and no contact is kept. Add them to the roster anew. Nothing was changed.")

    def __init__(self, name: str) -> None:
        self.name = name


class OnTheRoster(DomainError):
    """Somebody has not left the roster."""

    sentence = _("%(name)s is on the roster. Nothing was changed.")

    def __init__(self, name: str) -> None:
        self.name = name


class PeopleNotStored(DomainError):
    """A file of people was read and nothing is stored: `judged` is what came of it, to be shown."""

    sentence = _("Nothing is stored yet.")

    def __init__(self, judged: JudgedPeople) -> None:
        self.judged = judged


class PeopleFileRefused(PeopleNotStored):
    """Something in a file of people is wrong."""

    sentence = _("Nothing was stored. Put right the lines that are named above, then send the file again.")


class PeopleChanged(PeopleNotStored):
    """The roster is not any more as it was when the file was shown."""

    sentence = _("Somebody changed the roster in between. Look at what would be stored now, then store it.")
