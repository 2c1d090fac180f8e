"""Pans told in words: degrees from straight upstage toward stage left or stage right, never a sign."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.forms.base import RefusedForm

PAN_SIDES = (
    ("", gettext_lazy("choose the side")),
    ("stage left", gettext_lazy("toward stage left · house right")),
    ("upstage", gettext_lazy("straight upstage")),
    ("stage right", gettext_lazy("toward stage right · house left")),
)
PAN_FIELDS = ("pan_from", "pan_from_side", "pan_to", "pan_to_side")
HELP = gettext_lazy("Degrees from straight upstage. From the first to the second clockwise as seen from above.")


def _degrees(label: Any, help_text: Any = "") -> forms.FloatField:
    return forms.FloatField(label=label, min_value=0, max_value=360, required=False, help_text=help_text)


def _side(label: Any) -> forms.ChoiceField:
    return forms.ChoiceField(label=label, choices=PAN_SIDES, required=False)


class PansForm(RefusedForm):
    """A form with a range of pans; `pans` are its columns once it is clean."""

    pan_from = _degrees(gettext_lazy("Pan from, degrees"), HELP)
    pan_from_side = _side(gettext_lazy("Pan from, to which side"))
    pan_to = _degrees(gettext_lazy("Pan to, degrees"))
    pan_to_side = _side(gettext_lazy("Pan to, to which side"))

    def clean(self) -> dict[str, Any]:
        """Both pans as signed numbers, or neither."""
        cleaned = super().clean() or {}
        start, end = self._signed("pan_from"), self._signed("pan_to")
        if (start is None) != (end is None) and not set(PAN_FIELDS) & self.errors.keys():
            missing = "pan_from" if start is None else "pan_to"
            self.add_error(missing, _("Write both pans, from and to, or neither."))
        self.pans = {"pan_from_deg": start, "pan_to_deg": end}
        return cleaned

    def _signed(self, name: str) -> float | None:
        degrees, side = self.cleaned_data.get(name), self.cleaned_data.get(f"{name}_side")
        if side == "upstage":
            if degrees:
                self.add_error(name, _("Straight upstage has no degrees. Leave this empty, or choose a side."))
            return 0.0
        if degrees is None:
            if side and name not in self.errors:
                self.add_error(name, _("Write the degrees."))
            return None
        if not side and degrees:
            self.add_error(f"{name}_side", _("Choose in words to which side that is."))
        return (degrees if side == "stage left" else -degrees) or 0.0


def pans_shown(row: Any) -> dict[str, Any]:
    """What a form shows of stored pans."""
    return {**_shown("pan_from", row.pan_from_deg), **_shown("pan_to", row.pan_to_deg)}


def _shown(name: str, degrees: float | None) -> dict[str, Any]:
    if degrees is None:
        return {}
    if degrees == 0:
        return {f"{name}_side": "upstage"}
    return {name: abs(degrees), f"{name}_side": "stage left" if degrees > 0 else "stage right"}
