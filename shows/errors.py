"""What can go wrong with a show, by name."""

from django.utils.translation import gettext_lazy as _

from venue.errors import DomainError


class FindingChanged(DomainError):
    """What was to be decided is not what it was when the person saw it."""

    sentence = _("This has changed since you saw it. Look at it again, then decide.")


class NoArrivalLink(DomainError):
    """There is no link that could be switched off."""

    sentence = _("There is no link that works. Nothing was changed.")


class CheckChanged(DomainError):
    """What was to be signed is not what the person saw."""

    sentence = _("Somebody marked more since you saw the check. Look at it again, then sign.")
