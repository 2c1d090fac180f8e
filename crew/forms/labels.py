"""Which labels to print."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.actions.labels import LabelPurpose
from venue.forms.base import RefusedForm
from venue.forms.units import places_of
from venue.models import House

MOST_AT_ONCE = 1000
PAPERS = (("letter", gettext_lazy("Letter")), ("a4", gettext_lazy("A4")))


def usual_paper(house: House) -> str:
    """Letter where feet are used, else A4."""
    return "letter" if house.unit_system == "imperial" else "a4"


def subjects_of(house: House, purpose: LabelPurpose) -> QuerySet:
    """All units or places of the house that may have a label."""
    return house.units.standing() if purpose == LabelPurpose.UNIT else places_of(house)


class LabelsForm(RefusedForm):
    """The labels that are ticked among those of one page, or all there are."""

    chosen = forms.MultipleChoiceField(
        label=gettext_lazy("Labels for"), widget=forms.CheckboxSelectMultiple, required=False
    )
    paper = forms.ChoiceField(label=gettext_lazy("Paper"), choices=PAPERS)
    asked = ("chosen",)

    def __init__(self, *args: Any, house: House, rows: QuerySet, shown: Sequence[Any], **options: Any) -> None:
        options["initial"] = {"paper": usual_paper(house)}
        super().__init__(*args, **options)
        self.rows = rows
        self.fields["chosen"].choices = [(str(row.ref), str(row)) for row in shown]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """Something is to be printed, and not more than one file holds."""
        cleaned = super().clean() or {}
        if self.wants_all and self.rows.count() > MOST_AT_ONCE:
            told = {"most": MOST_AT_ONCE}
            self.add_error(None, _("One file holds %(most)s labels. Tick those of one page after another.") % told)
        if not self.wants_all and not cleaned.get("chosen") and "chosen" not in self.errors:
            self.add_error("chosen", _("Tick at least one, or print all."))
        return cleaned

    @property
    def wants_all(self) -> bool:
        return "all" in self.data

    def subjects(self) -> list[Any]:
        """The rows whose labels are wanted, in the house's order."""
        if self.wants_all:
            return list(self.rows)
        return list(self.rows.filter(ref__in=self.cleaned_data["chosen"]))
