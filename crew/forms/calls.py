"""Making and changing a call, calling it off."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any, ClassVar

from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from crew.facts import CallFacts
from crew.line_errors import CantComeThen
from crew.models import Call, CallTemplate, Roster
from crew.models.calls import LineRole
from crew.usual_call import beginning, day_of_time
from shows.models import ShowEvent
from venue.errors import DomainError, LocalTimeMissing, LocalTimeTwice
from venue.forms.base import RefusedForm, VersionedForm


class DateInput(forms.DateInput):
    """The browser's own field for a day."""

    input_type = "date"

    def __init__(self) -> None:
        super().__init__(format="%Y-%m-%d")


DAYS = (MinValueValidator(date(1900, 1, 1)), MaxValueValidator(date(9000, 12, 31)))
"""Days of which every zone's clocks can be told."""


def day_field(**options: Any) -> forms.DateField:
    """A field for a day."""
    return forms.DateField(widget=DateInput(), validators=DAYS, **options)


class TimeInput(forms.TimeInput):
    """The browser's own field for a time."""

    input_type = "time"

    def __init__(self) -> None:
        super().__init__(format="%H:%M")


class ClockForm(RefusedForm):
    """A form with times by the house's clocks, each of which may be shown twice or never."""

    fold = forms.TypedChoiceField(
        label=_("Clocks go back that night: which of the two"),
        choices=(("", _("not said")), ("0", _("the first")), ("1", _("the second"))),
        coerce=int,
        empty_value=None,
        required=False,
        widget=forms.HiddenInput,
    )

    @property
    def walls(self) -> Mapping[str, datetime | None]:
        """The wall time of each field that holds one; a form without such fields has none."""
        return {}

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal; where clocks show a time twice, ask which."""
        if isinstance(refusal, LocalTimeTwice):
            field = self.fields["fold"]
            field.widget = forms.Select(choices=field.choices)  # type: ignore[attr-defined]
            self.add_error("fold", str(refusal))
        elif isinstance(refusal, LocalTimeMissing):
            named = (name for name, wall in self.walls.items() if wall == refusal.wall)
            self.add_error(next(named, None), str(refusal))
        else:
            super().refuse(refusal)


class CallForm(ClockForm):
    """When and where the crew is to come. Times are those of the house's clocks."""

    call_date = day_field(label=_("Day of the call"))
    call_time = forms.TimeField(label=_("Call time"), widget=TimeInput())
    place = forms.CharField(
        label=_("Where to come"), max_length=120, required=False, help_text=_("Stage door, loading dock.")
    )
    talk_time = forms.TimeField(
        label=_("Spot talk"),
        widget=TimeInput(),
        required=False,
        help_text=_("When the caller briefs the operators. Earlier than the call time means the day after."),
    )
    talk_place = forms.CharField(label=_("Where the spot talk is"), max_length=120, required=False)
    meal_time = forms.TimeField(
        label=_("Meal"),
        widget=TimeInput(),
        required=False,
        help_text=_("When one is planned. Earlier than the call time means the day after."),
    )
    ends_time = forms.TimeField(
        label=_("Expected end"),
        widget=TimeInput(),
        required=False,
        help_text=_(
            "Until then everybody is booked. Earlier than the call time means the day after; left empty, half an hour "
            "after the event, or four hours where its end is not known."
        ),
    )
    ends_date = day_field(
        label=_("Day of the expected end"),
        required=False,
        help_text=_("Only where it is later than the day after."),
    )
    weather = forms.CharField(
        label=_("Weather, for work outdoors"),
        max_length=200,
        required=False,
        help_text=_("What is expected, what to bring. Wind limits are the maker's and the local code's."),
    )
    notes = forms.CharField(
        label=_("Notes for everybody"), max_length=1000, required=False, widget=forms.Textarea({"rows": 3})
    )
    at_field: ClassVar[Mapping[str, str]] = {
        "talk_at": "talk_time",
        "call_at": "call_time",
        "meal_at": "meal_time",
        "ends_at": "ends_time",
        "own_time": "ends_time",
        "own_date": "call_date",
    }

    def clean(self) -> dict[str, Any]:
        """A day of the end goes with its time."""
        data: dict[str, Any] = super().clean() or {}
        if data.get("ends_date") and not data.get("ends_time") and "ends_time" not in self.errors:
            self.add_error("ends_time", _("Write the time of the expected end too."))
        return data

    @property
    def walls(self) -> dict[str, datetime | None]:
        data = self.cleaned_data
        call = datetime.combine(data["call_date"], data["call_time"])
        return {
            "call_time": call,
            "talk_time": day_of_time(call, data["talk_time"]),
            "meal_time": day_of_time(call, data["meal_time"]),
            "ends_time": day_of_time(call, data["ends_time"], data["ends_date"]),
        }

    @property
    def facts(self) -> CallFacts:
        """What the cleaned form says."""
        data, walls = self.cleaned_data, self.walls
        assert walls["call_time"] is not None
        return CallFacts(
            call=walls["call_time"],
            talk=walls["talk_time"],
            meal=walls["meal_time"],
            ends=walls["ends_time"],
            **{name: data[name] for name in ("place", "talk_place", "weather", "notes")},
            **dict.fromkeys(("call_fold", "talk_fold", "meal_fold", "ends_fold"), data["fold"]),
        )


def _how_many(label: Any, help_text: Any = "") -> forms.IntegerField:
    return forms.IntegerField(label=label, help_text=help_text, min_value=0, max_value=60, required=False, initial=0)


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
    head_spots = _how_many(_("Head spots"), _("They lead the others; without a number, or with one given later."))
    spares = _how_many(_("Spares"))
    runners = _how_many(_("Runners"))

    def __init__(
        self,
        *args: Any,
        event: ShowEvent,
        rosters: QuerySet[Roster],
        template: CallTemplate | None = None,
        **options: Any,
    ) -> None:
        super().__init__(*args, **{"initial": beginning(event, template), **options})
        field, found = self.fields["roster"], list(rosters[:2])
        field.queryset = rosters  # type: ignore[attr-defined]
        if len(found) == 1:
            field.initial, field.widget = found[0].pk, forms.HiddenInput()

    @property
    def wanted(self) -> dict[str, int]:
        """How many of each role besides the operators."""
        fields = {LineRole.HEAD: "head_spots", LineRole.SPARE: "spares", LineRole.RUNNER: "runners"}
        return {role.value: self.cleaned_data[name] or 0 for role, name in fields.items()}


class ChangedCallForm(VersionedForm, CallForm):
    """A call on file. Where people can't come at the new times, who may fill the call may take them off with it."""

    take_off = forms.BooleanField(
        label=_("Take off who can't come then"),
        required=False,
        widget=forms.HiddenInput,
        help_text=_("They are told, and their lines are to fill again."),
    )
    asked = ("take_off",)

    def __init__(self, *args: Any, call: Call, may_fill: bool, **options: Any) -> None:
        times = ("call_date", "call_time", "talk_time", "meal_time", "ends_time")
        names = (*times, "place", "talk_place", "weather", "notes")
        options["initial"] = {name: getattr(call, name) for name in names}
        if day_of_time(call.call_wall, call.ends_time) != call.ends_wall:
            options["initial"]["ends_date"] = call.ends_date
        super().__init__(*args, row=call, **options)
        if not may_fill:
            del self.fields["take_off"]
        elif self.is_bound and self["take_off"].data not in {None, "", "False"}:
            self._offer_to_take_off()

    @property
    def takes_off(self) -> bool:
        """Whether who can't come is to be taken off."""
        return bool(self.cleaned_data.get("take_off"))

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal; who can't come stands a line each, and may be taken off."""
        if not isinstance(refusal, CantComeThen):
            super().refuse(refusal)
            return
        for line in refusal.lines():
            self.add_error(None, line)
        if "take_off" in self.fields:
            self._offer_to_take_off()

    def _offer_to_take_off(self) -> None:
        self.fields["take_off"].widget = forms.CheckboxInput()
        self.order_fields(["take_off"])


class ReasonForm(RefusedForm):
    """Why something ends."""

    reason = forms.CharField(label=_("Why"), max_length=200)
    at_field: ClassVar[Mapping[str, str]] = {"ended_reason": "reason"}
