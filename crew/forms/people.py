"""People on a roster: their facts, certifications, days off, and forgetting somebody."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.core.people_cells import YEARS
from crew.models import CertificationKind, Person, Roster
from crew.models.certifications import NeededFor
from venue.core.names import name_key
from venue.errors import AlreadyExists, DomainError
from venue.forms.base import EndForm, RefusedForm, Section, VersionedForm
from venue.models import House


class _DayInput(forms.DateInput):
    input_type = "date"

    def __init__(self) -> None:
        super().__init__(format="%Y-%m-%d")


class DayField(forms.DateField):
    """A day within the years that a roster can mean."""

    def __init__(self, **options: Any) -> None:
        super().__init__(widget=_DayInput(), **options)

    def clean(self, value: Any) -> date | None:
        day: date | None = super().clean(value)
        if day is not None and not YEARS[0] <= day.year <= YEARS[1]:
            told = {"first": YEARS[0], "last": YEARS[1]}
            raise forms.ValidationError(_("Write a day between the years %(first)s and %(last)s.") % told)
        return day


class PersonFacts(forms.ModelForm):
    """The columns of a person."""

    class Meta:
        model = Person
        fields = ("name", "phone", "email", "experience", "units_known", "seniority", "skill", "notes")
        widgets: ClassVar[dict[str, Any]] = {
            "phone": forms.TextInput(attrs={"type": "tel"}),
            "notes": forms.Textarea(attrs={"rows": 3}),
        }
        labels: ClassVar[dict[str, Any]] = {
            "name": gettext_lazy("Name"),
            "phone": gettext_lazy("Phone"),
            "email": gettext_lazy("E-mail"),
            "experience": gettext_lazy("Experience on follow spots"),
            "units_known": gettext_lazy("Units known"),
            "seniority": gettext_lazy("Place on the list"),
            "skill": gettext_lazy("Grade"),
            "notes": gettext_lazy("Notes"),
        }
        help_texts: ClassVar[dict[str, Any]] = {
            "name": gettext_lazy("As call sheets print it."),
            "seniority": gettext_lazy("1 is the longest on the list."),
            "notes": gettext_lazy("For dispatch alone. Nothing about anybody's health, weight or height."),
        }


class PersonForm(VersionedForm, PersonFacts):
    """Somebody on the roster, new or on file. Only the name is needed."""

    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("Contact, for dispatch alone"), ("phone", "email")),
        (gettext_lazy("Work"), ("experience", "units_known", "skill", "seniority")),
        (gettext_lazy("Besides"), ("notes",)),
    )

    def __init__(self, *args: Any, instance: Person, **options: Any) -> None:
        super().__init__(*args, row=instance, instance=instance, **options)
        choices = self.fields["experience"].choices  # type: ignore[attr-defined]
        self.fields["experience"].choices = [  # type: ignore[attr-defined]
            ("", _("not recorded")),
            *((value, label) for value, label in choices if value),
        ]
        if instance._state.adding:
            del self.fields["version"]

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: value for name, value in self.cleaned_data.items() if name != "version"}


class CertificationForm(RefusedForm):
    """What somebody is certified for from now on."""

    kind = forms.ModelChoiceField(
        CertificationKind.objects.none(), label=gettext_lazy("Certification"), empty_label=gettext_lazy("choose one")
    )
    house = forms.ModelChoiceField(
        House.objects.none(),
        label=gettext_lazy("Of which house"),
        required=False,
        empty_label=gettext_lazy("of none in particular"),
        help_text=gettext_lazy("An orientation is of one house; leave this as it is for anything else."),
    )
    expires_on = DayField(
        label=gettext_lazy("Valid through"), required=False, help_text=gettext_lazy("Its last day; none: for good.")
    )

    def __init__(self, *args: Any, roster: Roster, houses: Sequence[House], **options: Any) -> None:
        super().__init__(*args, **options)
        self.houses = houses
        self.fields["kind"].queryset = roster.certification_kinds.standing()  # type: ignore[attr-defined]
        self.fields["house"].queryset = House.objects.filter(  # type: ignore[attr-defined]
            pk__in=[house.pk for house in houses]
        )

    def clean(self) -> dict[str, Any]:
        """Where the roster serves one house, an orientation is of that one."""
        cleaned = super().clean() or {}
        kind, house = cleaned.get("kind"), cleaned.get("house")
        if kind is None or "house" in self.errors:
            return cleaned
        if kind.needed_for != NeededFor.HOUSE:
            cleaned["house"] = None
        elif house is None and len(self.houses) == 1:
            cleaned["house"] = self.houses[0]
        elif house is None:
            self.add_error("house", _("Say which house the orientation is of."))
        return cleaned

    def refuse(self, refusal: DomainError) -> None:
        """What is on file already is told at the certification."""
        if isinstance(refusal, AlreadyExists):
            self.add_error("kind", str(refusal))
        else:
            super().refuse(refusal)


class LastDayForm(VersionedForm):
    """Another last day of a certification."""

    expires_on = DayField(
        label=gettext_lazy("Valid through"), required=False, help_text=gettext_lazy("Its last day; none: for good.")
    )


class DaysOffForm(RefusedForm):
    """Days on which somebody does not work."""

    first_day = DayField(label=gettext_lazy("First day off"))
    last_day = DayField(
        label=gettext_lazy("Last day off"), required=False, help_text=gettext_lazy("Empty: that one day.")
    )
    words = forms.CharField(label=gettext_lazy("Note"), max_length=120, required=False)

    def clean(self) -> dict[str, Any]:
        """One day where no last one is given; never a last one before the first."""
        cleaned = super().clean() or {}
        first, last = cleaned.get("first_day"), cleaned.get("last_day")
        if first and not last and "last_day" not in self.errors:
            cleaned["last_day"] = first
        elif first and last and last < first:
            self.add_error("last_day", _("The last day is before the first. Write a later one."))
        return cleaned


class ForgetForm(EndForm):
    """Why somebody is forgotten; the name, typed, shows that the right one is meant."""

    typed = forms.CharField(label=gettext_lazy("Write the name to confirm"), max_length=200)
    at_field: ClassVar[Mapping[str, str]] = {"ended_reason": "reason"}

    def __init__(self, *args: Any, row: Person, **options: Any) -> None:
        super().__init__(*args, row=row, **options)
        self.fields["reason"].label = _("Why?")

    def clean_typed(self) -> str:
        typed: str = self.cleaned_data["typed"]
        if name_key(typed) != name_key(str(self.row)):
            raise forms.ValidationError(_("This is not the name. Write it as it stands above."))
        return typed
