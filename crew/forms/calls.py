"""Making and changing a call, calling it off."""

from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from typing import Any, ClassVar

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from crew.facts import CallFacts
from crew.models import Call, Roster
from shows.models import ShowEvent
from venue.errors import DomainError, LocalTimeMissing, LocalTimeTwice
from venue.forms.base import RefusedForm, VersionedForm


class _DateInput(forms.DateInput):
    input_type = "date"

    def __init__(self) -> None:
        super().__init__(format="%Y-%m-%d")


class _TimeInput(forms.TimeInput):
    input_type = "time"

    def __init__(self) -> None:
        super().__init__(format="%H:%M")


class CallForm(RefusedForm):
    """When and where the crew is to come. Times are those of the house's clocks."""

    call_date = forms.DateField(label=_("Day of the call"), widget=_DateInput())
    call_time = forms.TimeField(label=_("Call time"), widget=_TimeInput())
    place = forms.CharField(
        label=_("Where to come"), max_length=120, required=False, help_text=_("Stage door, loading dock.")
    )
    talk_time = forms.TimeField(
        label=_("Spot talk"),
        widget=_TimeInput(),
        required=False,
        help_text=_("When the caller briefs the operators. Earlier than the call time means the day after."),
    )
    talk_place = forms.CharField(label=_("Where the spot talk is"), max_length=120, required=False)
    notes = forms.CharField(
        label=_("Notes for everybody"), max_length=1000, required=False, widget=forms.Textarea({"rows": 3})
    )
    fold = forms.TypedChoiceField(
        label=_("Clocks go back that night: which of the two"),
        choices=(("", _("not said")), ("0", _("the first")), ("1", _("the second"))),
        coerce=int,
        empty_value=None,
        required=False,
        widget=forms.HiddenInput,
    )
    at_field: ClassVar[Mapping[str, str]] = {"talk_at": "talk_time", "call_at": "call_time"}

    @property
    def facts(self) -> CallFacts:
        """What the cleaned form says."""
        data = self.cleaned_data
        return CallFacts(
            call=datetime.combine(data["call_date"], data["call_time"]),
            place=data["place"],
            talk=self._talk(data["call_date"], data["call_time"], data["talk_time"]),
            talk_place=data["talk_place"],
            notes=data["notes"],
            call_fold=data["fold"],
            talk_fold=data["fold"],
        )

    def _talk(self, day: date, call: time, talk: time | None) -> datetime | None:
        if talk is None:
            return None
        return datetime.combine(day + timedelta(days=1 if talk < call else 0), talk)

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal; where clocks show a time twice, ask which."""
        if isinstance(refusal, LocalTimeTwice):
            field = self.fields["fold"]
            field.widget = forms.Select(choices=field.choices)  # type: ignore[attr-defined]
            self.add_error("fold", str(refusal))
        elif isinstance(refusal, LocalTimeMissing):
            self.add_error("call_time", str(refusal))
        else:
            super().refuse(refusal)


class NewCallForm(CallForm):
    """A call that is not made yet: of which roster, with how many besides the show numbers."""

    roster = forms.ModelChoiceField(Roster.objects.none(), label=_("Roster"), empty_label=None)
    at_spot_talk = forms.IntegerField(
        label=_("Operators whose number is told at the spot talk"),
        min_value=0,
        max_value=60,
        initial=0,
        help_text=_("Before the numbers are known. Nobody is put on the call by this yet."),
    )

    def __init__(self, *args: Any, event: ShowEvent, rosters: QuerySet[Roster], **options: Any) -> None:
        super().__init__(*args, **{"initial": _usual_times(event), **options})
        field, found = self.fields["roster"], list(rosters[:2])
        field.queryset = rosters  # type: ignore[attr-defined]
        if len(found) == 1:
            field.initial, field.widget = found[0].pk, forms.HiddenInput()


def _usual_times(event: ShowEvent) -> dict[str, object]:
    """An hour and a half before the event, the spot talk 45 minutes before (common practice, no source)."""
    call, talk = event.starts_wall - timedelta(minutes=90), event.starts_wall - timedelta(minutes=45)
    return {"call_date": call.date(), "call_time": call.time(), "talk_time": talk.time()}


class ChangedCallForm(VersionedForm, CallForm):
    """A call on file."""

    def __init__(self, *args: Any, call: Call, **options: Any) -> None:
        names = ("call_date", "call_time", "place", "talk_time", "talk_place", "notes")
        options["initial"] = {name: getattr(call, name) for name in names}
        super().__init__(*args, row=call, **options)


class ReasonForm(RefusedForm):
    """Why something ends."""

    reason = forms.CharField(label=_("Why"), max_length=200)
    at_field: ClassVar[Mapping[str, str]] = {"ended_reason": "reason"}
