"""Taking the proposal that was shown."""

from django import forms
from django.utils.translation import gettext_lazy

from venue.forms.base import RefusedForm

ANEW = gettext_lazy("Load the page anew, then take the proposal. Nothing was changed.")


class TakeForm(RefusedForm):
    """`seen` is the fingerprint of the proposal that the person saw."""

    seen = forms.RegexField(
        r"^[0-9a-f]{64}$", widget=forms.HiddenInput, error_messages={"required": ANEW, "invalid": ANEW}
    )

    @property
    def refusals(self) -> list[str]:
        """Everything that keeps it from being taken."""
        return [str(message) for messages in self.errors.values() for message in messages]
