"""Choosing who comes on a line, and taking a proposal for the whole call."""

from collections.abc import Mapping
from typing import Any, ClassVar

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from crew.line_errors import PassesOver
from crew.line_needs import Seat
from crew.models import Person
from crew.wording.people import name_apart
from venue.errors import DomainError
from venue.forms.base import RefusedForm, VersionedForm

WHY = _("Why")
ANEW = _("Load the page anew, then take the proposal. Nothing was changed.")
MOST_SEATS = 32_767


class _WithReason(RefusedForm):
    """Asks why where the list is strict and somebody is passed over, or where somebody is replaced."""

    must_say_why = False
    at_field: ClassVar[Mapping[str, str]] = {"ended_reason": "reason"}

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal; a missing reason opens its field."""
        super().refuse(refusal)
        self.must_say_why = isinstance(refusal, PassesOver) or "reason" in self.errors


class LineForm(forms.Form):
    """Which line of the call is meant: a number's key, empty at the spot talk, and which light of its team."""

    number = forms.CharField(max_length=80, required=False, strip=False)
    seat = forms.IntegerField(min_value=1, max_value=MOST_SEATS)

    @property
    def line(self) -> Seat | None:
        """The line, None where the address names none."""
        return (self.cleaned_data["number"], self.cleaned_data["seat"]) if self.is_valid() else None


class PersonField(forms.ModelChoiceField):
    """Somebody by their reference; `apart` tells those of one name apart."""

    apart: Mapping[int, str] = {}

    def label_from_instance(self, obj: Person) -> str:
        return name_apart(obj, self.apart)

    def to_python(self, value: Any) -> Person | None:
        """Something that is no reference names nobody either."""
        try:
            return super().to_python(value)
        except forms.ValidationError as error:
            raise forms.ValidationError(self.error_messages["invalid_choice"], code="invalid_choice") from error


class ChooseForm(_WithReason, VersionedForm):
    """One tap: the person. The reason is asked where somebody is passed over or replaced."""

    person = PersonField(
        Person.objects.none(),
        to_field_name="ref",
        label=_("Who"),
        error_messages={
            "required": _("Choose somebody."),
            "invalid_choice": _("They are not on the roster any more. Choose somebody else."),
        },
    )
    reason = forms.CharField(label=WHY, max_length=200, required=False)

    def __init__(self, *args: Any, persons: QuerySet[Person], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["person"].queryset = persons  # type: ignore[attr-defined]

    @property
    def chosen(self) -> Person | None:
        """Who was tapped."""
        return self.cleaned_data.get("person") if self.is_bound and self.must_say_why else None


class TakePeopleForm(_WithReason):
    """`seen` is the fingerprint of the proposal that was shown."""

    seen = forms.RegexField(
        r"^[0-9a-f]{64}$", widget=forms.HiddenInput, error_messages={"required": ANEW, "invalid": ANEW}
    )
    reason = forms.CharField(label=WHY, max_length=200, required=False)
