"""What can go wrong with a show, by name."""

from django.utils.translation import gettext_lazy as _

from venue.errors import DomainError


class FindingChanged(DomainError):
    """What was to be decided is not what it was when the person saw it."""

    sentence = _("This has changed since you saw it. Look at it again, then decide.")
