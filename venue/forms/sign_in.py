"""Signing in."""

from typing import Any

from django.contrib.auth.forms import AuthenticationForm
from django.core.validators import MaxLengthValidator
from django.utils.translation import gettext_lazy as _


class SignInForm(AuthenticationForm):
    """User name and password. A name longer than any on file is refused before it reaches the database."""

    error_messages = {  # noqa: RUF012 - the framework's own attribute
        **AuthenticationForm.error_messages,
        "invalid_login": _("User name and password do not belong together. Capital and small letters count."),
    }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        name = self.fields["username"]
        name.label = _("User name")
        name.validators.append(MaxLengthValidator(self.username_field.max_length or 150))
