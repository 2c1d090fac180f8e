"""The day of a call: in, out, meals for one or several; extra hands."""

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime, time
from functools import partial
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.actions.day import Marked, add_meal, begin_meal, end_meal, mark_not_come, sign_in, sign_out
from crew.core.day import wall_of
from crew.errors import FarFromCall
from crew.forms.candidates import PersonField
from crew.forms.lines import PassingForm
from crew.models import Call, CallLine, Person
from crew.wording.day import DO_WORDS
from crew.wording.people import apart_words
from venue.errors import DomainError, LiesAhead
from venue.forms.units import WallTimeForm
from venue.history import Actor

NO_TIME = {"not-come"}
WITH_NOTE = {"not-come", "sent-home"}
MEAL = "meal"


def clock_field(label: Any, **options: Any) -> forms.TimeField:
    """A time of day as the house's clocks show it."""
    widget = forms.TimeInput(format="%H:%M", attrs={"type": "time"})
    errors = {"invalid": gettext_lazy("Write a time of day, such as 18:30.")}
    return forms.TimeField(label=label, required=False, widget=widget, error_messages=errors, **options)


class TimesOfDayForm(WallTimeForm):
    """A form with times of day, each on the day of the call or on the day after; without one it is now."""

    wall_times = ()
    clocks: Sequence[str] = ("at",)

    def __init__(self, *args: Any, call: Call, now: datetime, **options: Any) -> None:
        super().__init__(*args, **options)
        self.call, self.zone = call, call.zone
        self.now = now.replace(second=0, microsecond=0)

    def clean(self) -> dict[str, Any]:
        """Each time of day becomes its instant."""
        cleaned = super().clean() or {}
        for name in self.clocks:
            if isinstance(cleaned.get(name), time):
                wall = wall_of(cleaned[name].replace(second=0, microsecond=0), self.call.call_wall)
                cleaned[name] = self._instant(name, wall)
        return cleaned

    def refuse(self, refusal: DomainError) -> None:
        """A time that can't be stands at its field."""
        if isinstance(refusal, LiesAhead | FarFromCall) and self.clocks and self.clocks[0] in self.fields:
            self.add_error(self.clocks[0], str(refusal))
        else:
            super().refuse(refusal)


class DayForm(TimesOfDayForm):
    """What happened to those on these lines."""

    do = forms.ChoiceField(choices=list(DO_WORDS.items()), widget=forms.HiddenInput)
    line = forms.MultipleChoiceField(
        widget=forms.MultipleHiddenInput,
        error_messages={"required": gettext_lazy("Nobody is ticked. Go back and tick who is meant.")},
    )
    at = clock_field(gettext_lazy("At"), help_text=gettext_lazy("Left empty: now."))
    starts = clock_field(gettext_lazy("Meal from"))
    ends = clock_field(gettext_lazy("Meal until"))
    note = forms.CharField(label=gettext_lazy("Note"), max_length=200, required=False)
    clocks: Sequence[str] = ("at", "starts", "ends")
    asked = ("starts", "ends")

    def __init__(self, *args: Any, lines: Iterable[CallLine], **options: Any) -> None:
        super().__init__(*args, **options)
        self.lines = {str(line.ref): line for line in lines}
        self.fields["line"].choices = [(ref, ref) for ref in self.lines]  # type: ignore[attr-defined]
        self.does = self.data.get("do", "")
        unused = ("at",) if self.does == MEAL else ("starts", "ends")
        for name in {*unused, *(["at"] if self.does in NO_TIME else [])}:
            del self.fields[name]
        if self.does not in WITH_NOTE:
            del self.fields["note"]
        self.clocks = tuple(name for name in self.clocks if name in self.fields)

    @property
    def chosen(self) -> list[CallLine]:
        """The lines that were sent and are of the call."""
        sent = dict.fromkeys(self.data.getlist("line"))  # type: ignore[attr-defined]
        return [self.lines[ref] for ref in sent if ref in self.lines]

    def clean(self) -> dict[str, Any]:
        """A meal has both times."""
        cleaned = super().clean()
        for name in ("starts", "ends"):
            if name in self.fields and not cleaned.get(name) and name not in self.errors:
                self.add_error(name, _("Write both times of the meal."))
        return cleaned

    def mark(self, actor: Actor) -> Marked:
        """Do it. Raises as the verbs of the day."""
        given: dict[str, Any] = self.cleaned_data
        at, note = given.get("at") or self.now, given.get("note", "")
        acts: dict[str, Callable[..., Marked]] = {
            "in": partial(sign_in, at=at),
            "out": partial(sign_out, at=at),
            "sent-home": partial(sign_out, at=at, home=True, note=note),
            "not-come": partial(mark_not_come, note=note),
            "meal-begins": partial(begin_meal, at=at),
            "meal-ends": partial(end_meal, at=at),
            MEAL: partial(add_meal, starts=given.get("starts") or at, ends=given.get("ends") or at),
        }
        return acts[given["do"]](actor=actor, call=self.call, lines=self.chosen, now=self.now)


class ExtraHandForm(PassingForm, TimesOfDayForm):
    """Somebody more on the call; why others are passed over where the list is strict."""

    person = PersonField(
        Person.objects.none(),
        label=gettext_lazy("Who else came"),
        to_field_name="ref",
        empty_label=gettext_lazy("choose somebody of the roster"),
        error_messages={"invalid_choice": gettext_lazy("Choose somebody of the roster who is not on the call yet.")},
    )
    is_here = forms.BooleanField(label=gettext_lazy("Is here: sign in too"), required=False, initial=True)
    at = clock_field(gettext_lazy("In at"), help_text=gettext_lazy("Left empty: now."))
    asked = ("is_here",)

    def __init__(self, *args: Any, persons: QuerySet[Person], **options: Any) -> None:
        super().__init__(*args, **options)
        field, roster = self.fields["person"], self.call.roster
        field.queryset, field.apart = persons, apart_words(roster.persons.standing())  # type: ignore[attr-defined]
        self.ask_of(roster)
        self.order_fields(["person", "is_here", "at", "passing"])

    @property
    def in_at(self) -> datetime | None:
        """When the person came; None where nobody said so."""
        return (self.cleaned_data["at"] or self.now) if self.cleaned_data["is_here"] else None
