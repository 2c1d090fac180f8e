"""A roster's settings and the kinds of certification that it keeps."""

from typing import Any, ClassVar

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.models import CertificationKind, Roster
from venue.errors import AlreadyExists, DomainError
from venue.forms.base import RefusedForm, VersionedForm
from venue.models import House


class RosterFacts(forms.ModelForm):
    """The columns of a roster."""

    class Meta:
        model = Roster
        fields = ("referral_order", "is_strict", "rest_min", "late_after_min", "late_tell")
        labels: ClassVar[dict[str, Any]] = {
            "referral_order": gettext_lazy("In which order are people asked?"),
            "is_strict": gettext_lazy("The order is strict"),
            "rest_min": gettext_lazy("Turnaround, minutes"),
            "late_after_min": gettext_lazy("Late after, minutes"),
            "late_tell": gettext_lazy("Who is told by somebody who is late?"),
        }
        help_texts: ClassVar[dict[str, Any]] = {
            "referral_order": gettext_lazy("Where nothing else tells them apart."),
            "rest_min": gettext_lazy("The rest that is due between the work of two days; 480 is 8 hours."),
            "late_after_min": gettext_lazy("So long after the call time somebody is late and may be replaced."),
        }


class RosterForm(VersionedForm, RosterFacts):
    """How the roster is worked."""

    asked = ("is_strict",)

    def __init__(self, *args: Any, instance: Roster, **options: Any) -> None:
        super().__init__(*args, row=instance, instance=instance, **options)

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: value for name, value in self.cleaned_data.items() if name != "version"}


class ServeForm(RefusedForm):
    """Which house the roster serves from now on."""

    house = forms.ModelChoiceField(House.objects.none(), label=gettext_lazy("House"))

    def __init__(self, *args: Any, houses: QuerySet[House], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["house"].queryset = houses  # type: ignore[attr-defined]


class KindFacts(forms.ModelForm):
    """The columns of a kind of certification."""

    class Meta:
        model = CertificationKind
        fields = ("name", "needed_for", "is_required")
        labels: ClassVar[dict[str, Any]] = {
            "name": gettext_lazy("Name"),
            "needed_for": gettext_lazy("What asks for it?"),
            "is_required": gettext_lazy("Nobody works there without it"),
        }


class KindForm(VersionedForm, KindFacts):
    """A kind of certification, new or on file."""

    asked = ("needed_for", "is_required")

    def __init__(self, *args: Any, instance: CertificationKind, **options: Any) -> None:
        super().__init__(*args, row=instance, instance=instance, **options)
        choices = self.fields["needed_for"].choices  # type: ignore[attr-defined]
        self.fields["needed_for"].choices = [  # type: ignore[attr-defined]
            ("", _("nothing: it is only noted")),
            *((value, label) for value, label in choices if value),
        ]
        if instance._state.adding:
            del self.fields["version"]

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        if ";" in name:
            raise forms.ValidationError(_("Leave the semicolon out: lists of certifications are parted by it."))
        return name

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: value for name, value in self.cleaned_data.items() if name != "version"}

    def refuse(self, refusal: DomainError) -> None:
        """A name that is there already is shown at the name."""
        if isinstance(refusal, AlreadyExists):
            self.add_error("name", str(refusal))
        else:
            super().refuse(refusal)
