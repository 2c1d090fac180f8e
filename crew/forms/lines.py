"""Forms about one line of a call: one more, somebody else, a time of its own, a number."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any, ClassVar

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from crew.forms.calls import ClockForm, TimeInput, day_field
from crew.line_errors import PassesOver
from crew.models import Call, CallLine, Person, Roster
from crew.models.calls import LineRole
from crew.wording.people import apart_words, name_apart
from venue.errors import DomainError
from venue.forms.base import RefusedForm, VersionedForm

NOBODY = ("", _("nobody yet"))
MOST_WORDS = 200
"""Characters of a reason."""


class PersonField(forms.ChoiceField):
    """Somebody of those given, or nobody yet; cleaned to the person."""

    def __init__(self, **options: Any) -> None:
        super().__init__(required=False, **options)
        self.persons: dict[str, Person] = {}

    def offer(self, persons: Iterable[Person], roster: Roster) -> None:
        """Let one of these be chosen; who shares a name with somebody of the roster is told apart."""
        self.persons = {str(person.ref): person for person in persons}
        apart = apart_words(roster.persons.standing())
        self.choices = [NOBODY, *((ref, name_apart(person, apart)) for ref, person in self.persons.items())]

    def clean(self, value: Any) -> Person | None:
        return self.persons.get(super().clean(value))


class PassingForm(RefusedForm):
    """A form that puts somebody on a call; where the list is strict, it asks why others are passed over."""

    passing = forms.CharField(
        label=_("Why others on the list are passed over"),
        max_length=MOST_WORDS,
        required=False,
        help_text=_("If any are; without a reason you are told who."),
    )

    def ask_of(self, roster: Roster) -> None:
        if not roster.is_strict:
            self.fields["passing"].widget = forms.HiddenInput()

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal; who would be passed over stands at the reason."""
        if isinstance(refusal, PassesOver):
            self.fields["passing"].widget = forms.TextInput({"maxlength": MOST_WORDS})
            self.add_error("passing", str(refusal))
        else:
            super().refuse(refusal)


class NewLineForm(PassingForm):
    """One more on the call."""

    role = forms.ChoiceField(
        label=_("As"),
        choices=[
            (LineRole.OPERATOR.value, _("Spot operator, number told at the spot talk")),
            *((role.value, capfirst(str(role.label))) for role in (LineRole.HEAD, LineRole.SPARE, LineRole.RUNNER)),
        ],
    )
    person = PersonField(label=_("Who"))

    def __init__(self, *args: Any, call: Call, persons: Iterable[Person], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["person"].offer(persons, call.roster)  # type: ignore[attr-defined]
        self.ask_of(call.roster)
        self.order_fields(["role", "person", "passing"])


class ReplaceForm(VersionedForm, PassingForm):
    """Somebody else on the line."""

    person = PersonField(
        label=_("Who comes instead"), help_text=_("Who is on this call without a number moves up to this line.")
    )
    reason = forms.CharField(label=_("Why"), max_length=200, help_text=_("Sick, double-booked. The history keeps it."))
    at_field: ClassVar[Mapping[str, str]] = {"ended_reason": "reason"}

    def __init__(self, *args: Any, line: CallLine, persons: Iterable[Person], **options: Any) -> None:
        super().__init__(*args, row=line, **options)
        self.fields["person"].offer(persons, line.call.roster)  # type: ignore[attr-defined]
        self.ask_of(line.call.roster)
        self.order_fields(["person", "reason", "passing"])


class OwnTimeForm(VersionedForm, ClockForm):
    """A call time of one line alone."""

    own_time = forms.TimeField(
        label=_("Own call time"),
        widget=TimeInput(),
        required=False,
        help_text=_("Left empty, this one comes with everybody."),
    )
    own_date = day_field(
        label=_("Day of the own call"),
        required=False,
        help_text=_("Left empty, the day of the call."),
    )

    def __init__(self, *args: Any, line: CallLine, **options: Any) -> None:
        self.call = line.call
        day = line.own_date if line.own_date != line.call.call_date else None
        super().__init__(*args, row=line, initial={"own_time": line.own_time, "own_date": day}, **options)

    @property
    def own(self) -> datetime | None:
        """The time by the clocks of the call, if there is one."""
        data = self.cleaned_data
        return datetime.combine(data["own_date"] or self.call.call_date, data["own_time"]) if data["own_time"] else None

    @property
    def walls(self) -> dict[str, datetime | None]:
        return {"own_time": self.own}


class NumberForm(VersionedForm):
    """The light that somebody runs, one of those that nobody is on."""

    light = forms.ChoiceField(label=_("Show number"))

    def __init__(self, *args: Any, line: CallLine, lights: Iterable[tuple[str, int, str]], **options: Any) -> None:
        super().__init__(*args, row=line, **options)
        offered = {f"{seat}:{number}": (number, seat, words) for number, seat, words in lights}
        self.lights = {value: (number, seat) for value, (number, seat, _words) in offered.items()}
        choices = [(value, words) for value, (_number, _seat, words) in offered.items()]
        self.fields["light"].choices = choices  # type: ignore[attr-defined]
        self.fields["light"].error_messages["invalid_choice"] = _("Somebody is on that number now. Choose another one.")

    @property
    def chosen(self) -> tuple[str, int]:
        """The number and which light of its team."""
        return self.lights[self.cleaned_data["light"]]
