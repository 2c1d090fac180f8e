"""People who sign in."""

from django.contrib.auth.models import AbstractUser
from django.db import models
from django.utils.translation import gettext_lazy as _


class User(AbstractUser):
    """A person who signs in. Being staff or a superuser opens no house: only memberships do."""

    printed_name = models.CharField(
        _("name on paper"), max_length=100, blank=True, help_text=_("As sheets and the history print it.")
    )

    @property
    def name_on_paper(self) -> str:
        """The name that sheets and the history print."""
        return self.printed_name or self.get_full_name() or self.username
