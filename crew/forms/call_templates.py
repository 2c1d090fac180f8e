"""Templates of calls."""

from collections.abc import Mapping
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from crew.models import CallTemplate
from shows.models.events import EventKind
from venue.forms.base import RefusedForm, VersionedForm


def _minutes(label: Any, help_text: Any = "", **options: Any) -> forms.IntegerField:
    return forms.IntegerField(label=label, help_text=help_text, min_value=0, max_value=24 * 60, **options)


def _people(label: Any) -> forms.IntegerField:
    return forms.IntegerField(label=label, min_value=0, max_value=60, initial=0)


class TemplateForm(RefusedForm):
    """What new calls begin with. The usual numbers are common practice, no source."""

    name = forms.CharField(label=_("Name"), max_length=80, help_text=_("Show call, load-in."))
    event_kind = forms.ChoiceField(label=_("For"), choices=[("", _("any event")), *EventKind.choices], required=False)
    call_before_min = _minutes(_("Call, minutes before the event starts"), initial=90)
    talk_before_min = _minutes(
        _("Spot talk, minutes before the event starts"), _("Left empty, there is none."), required=False
    )
    meal_after_min = _minutes(_("Meal, minutes after the call"), _("Left empty, none is planned."), required=False)
    ends_after_min = _minutes(
        _("Released, minutes after the event ends"),
        _("Where its end is not known, four hours are taken."),
        initial=30,
    )
    place = forms.CharField(label=_("Where to come"), max_length=120, required=False)
    talk_place = forms.CharField(label=_("Where the spot talk is"), max_length=120, required=False)
    notes = forms.CharField(
        label=_("Notes for everybody"), max_length=1000, required=False, widget=forms.Textarea({"rows": 3})
    )
    head_spots = _people(_("Head spots"))
    spares = _people(_("Spares"))
    runners = _people(_("Runners"))
    at_field: ClassVar[Mapping[str, str]] = {"name_key": "name"}

    @property
    def values(self) -> dict[str, Any]:
        """What the cleaned form says, by column."""
        return {name: self.cleaned_data[name] for name in TemplateForm.base_fields}


class ChangedTemplateForm(VersionedForm, TemplateForm):
    """A template on file."""

    def __init__(self, *args: Any, template: CallTemplate, **options: Any) -> None:
        initial = {name: getattr(template, name) for name in TemplateForm.base_fields}
        super().__init__(*args, row=template, initial=initial, **options)
