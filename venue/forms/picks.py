"""Choices made with a thumb."""

from typing import Any

from django import forms
from django.template.loader import render_to_string
from django.utils.safestring import SafeString


class Pick(forms.RadioSelect):
    """One of a few, each as a large target over the whole line; groups of choices under their names."""

    def render(self, name: str, value: Any, attrs: dict[str, Any] | None = None, renderer: Any = None) -> SafeString:
        return render_to_string("venue/pick_part.html", self.get_context(name, value, attrs))
