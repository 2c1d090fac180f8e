"""Deciding what the fit of a show found."""

from collections.abc import Mapping
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy

from shows.core.fit.judging import fingerprint
from shows.core.fit.records import Finding
from shows.wording.fit import way_choices
from venue.forms.base import RefusedForm


class WhichForm(forms.Form):
    """Which finding an address is about."""

    number = forms.CharField(max_length=40)
    code = forms.CharField(max_length=40)
    about = forms.CharField(max_length=200, required=False, strip=False)

    @property
    def key(self) -> tuple[str, str, str]:
        return self.cleaned_data["number"], self.cleaned_data["code"], self.cleaned_data["about"]


class DecideForm(RefusedForm):
    """What is done about a finding, why, and who says so; `facts` is what the person was shown."""

    way = forms.ChoiceField(label=gettext_lazy("What is done?"), widget=forms.RadioSelect)
    reason = forms.CharField(label=gettext_lazy("Why?"), max_length=500, widget=forms.Textarea(attrs={"rows": 3}))
    decided_by = forms.CharField(label=gettext_lazy("Who decides?"), max_length=100)
    facts = forms.CharField(max_length=64, widget=forms.HiddenInput)
    at_field: ClassVar[Mapping[str, str]] = {"facts": "way"}

    def __init__(self, *args: Any, finding: Finding, name: str, **options: Any) -> None:
        options["initial"] = {"facts": fingerprint(finding), "decided_by": name}
        super().__init__(*args, **options)
        self.finding = finding
        self.fields["way"].choices = way_choices(finding)  # type: ignore[attr-defined]

    @property
    def is_about_what_was_shown(self) -> bool:
        return bool(self.cleaned_data["facts"] == fingerprint(self.finding))


class TakeBackForm(RefusedForm):
    """Why a decision does not hold any more."""

    reason = forms.CharField(label=gettext_lazy("Why does it not hold any more?"), max_length=200)
    at_field: ClassVar[Mapping[str, str]] = {"ended_reason": "reason"}
