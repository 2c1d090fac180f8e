"""Copying a show to its next visit."""

from typing import Any, ClassVar

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.forms.engagements import date_field
from shows.models import Engagement
from venue.errors import AlreadyExists, DomainError
from venue.forms.base import RefusedForm
from venue.models import House


class CopyForm(RefusedForm):
    """When it comes next, and where, among the houses that the person heads."""

    house = forms.ModelChoiceField(
        label=gettext_lazy("In which house?"),
        queryset=House.objects.none(),
        to_field_name="slug",
        empty_label=None,
        help_text=gettext_lazy("Another house is numbered anew: no places go along, only what the numbers ask."),
    )
    starts_on = date_field(gettext_lazy("First day in the house"))
    ends_on = date_field(gettext_lazy("Last day"))
    with_events = forms.BooleanField(
        label=gettext_lazy("Copy what is on when"),
        required=False,
        help_text=gettext_lazy("The same times by the house's clocks, moved by whole days with the first day."),
    )
    asked: ClassVar[tuple[str, ...]] = ("with_events",)

    def __init__(self, *args: Any, engagement: Engagement, houses: QuerySet[House], **options: Any) -> None:
        own = houses.filter(pk=engagement.house_id).first() or houses.first()
        options["initial"] = {"house": own.slug if own else None, "with_events": True}
        super().__init__(*args, **options)
        self.engagement = engagement
        self.fields["house"].queryset = houses  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """The last day is not before the first."""
        cleaned = super().clean() or {}
        first, last = cleaned.get("starts_on"), cleaned.get("ends_on")
        if first and last and last < first:
            self.add_error("ends_on", _("The last day is before the first. Write a later one."))
        return cleaned

    def refuse(self, refusal: DomainError) -> None:
        """A show that the house has from that day already is told at the day."""
        if isinstance(refusal, AlreadyExists):
            self.add_error("starts_on", str(refusal))
        else:
            super().refuse(refusal)
