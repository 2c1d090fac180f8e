"""Asking people for a line, answering, and what becomes of a message."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any, ClassVar

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.forms.lines import PassingForm
from crew.models import CallLine, Person
from crew.models.offers import Answer
from venue.core.local_time import wall_time
from venue.forms.base import RefusedForm, VersionedForm
from venue.forms.picks import Pick
from venue.forms.units import WallTimeForm, wall_field

USUAL_TIME = timedelta(hours=24)
"""To answer, where the call is far enough away (common practice, no source)."""
MOST_AT_ONCE = 60
ALL, IN_TURN = "all", "in-turn"


class AskForm(PassingForm, WallTimeForm):
    """Whom to ask, together or one after the other, and by when the answer is wanted; why others are passed over."""

    people = forms.ModelMultipleChoiceField(
        Person.objects.none(),
        to_field_name="ref",
        label=gettext_lazy("Whom to ask"),
        widget=forms.CheckboxSelectMultiple,
        error_messages={
            "required": gettext_lazy("Tick at least one person."),
            "invalid_choice": gettext_lazy("Somebody ticked is not on the roster any more. Tick others."),
        },
    )
    way = forms.ChoiceField(
        label=gettext_lazy("How"),
        widget=Pick,
        initial=ALL,
        choices=(
            (ALL, gettext_lazy("all at once: the first yes takes it")),
            (IN_TURN, gettext_lazy("one after the other, in the order of this list: each has as long as the first")),
        ),
    )
    answer_by = wall_field(gettext_lazy("Answer by"))
    wall_times = ("answer_by",)

    def __init__(self, *args: Any, line: CallLine, persons: QuerySet[Person], now: datetime, **options: Any) -> None:
        self.zone = line.zone
        options["initial"] = {"answer_by": wall_time(usual_answer_by(line.starts_at, now), self.zone)}
        super().__init__(*args, **options)
        self.fields["people"].queryset = persons  # type: ignore[attr-defined]
        help_text = _("By the clocks of %(zone)s. Whoever says nothing until then did not answer.")
        self.fields["answer_by"].help_text = help_text % {"zone": self.zone}
        self.ask_of(line.call.roster)

    def clean_people(self) -> list[Person]:
        """In the order in which they stand on the page."""
        chosen = {str(person.ref): person for person in self.cleaned_data["people"]}
        if len(chosen) > MOST_AT_ONCE:
            raise forms.ValidationError(_("Ask %(most)s people at once at most.") % {"most": MOST_AT_ONCE})
        return [chosen[ref] for ref in dict.fromkeys(map(str.lower, self.sent_refs())) if ref in chosen]

    def sent_refs(self) -> Sequence[str]:
        """The people ticked, as they were sent."""
        name = self.add_prefix("people")
        return self.data.getlist(name) if hasattr(self.data, "getlist") else list(self.data.get(name, ()))

    @property
    def in_turn(self) -> bool:
        return bool(self.cleaned_data["way"] == IN_TURN)


def usual_answer_by(starts_at: datetime, now: datetime) -> datetime:
    """A day from now, or halfway to the call where that is sooner; on a full minute."""
    found = min(now + USUAL_TIME, now + (starts_at - now) / 2)
    return found.replace(second=0, microsecond=0)


class AnswerForm(RefusedForm):
    """A yes or a no, with a few words."""

    answer = forms.ChoiceField(
        choices=((Answer.ACCEPTED, gettext_lazy("yes")), (Answer.DECLINED, gettext_lazy("no"))),
        error_messages={"required": gettext_lazy("Say yes or no.")},
    )
    note = forms.CharField(label=gettext_lazy("A word to dispatch"), max_length=200, required=False)
    at_field: ClassVar[Mapping[str, str]] = {}


class WrittenAnswerForm(AnswerForm):
    """What dispatch was told by phone, or that nobody is to be asked any more."""

    answer = forms.ChoiceField(
        choices=(
            (Answer.ACCEPTED, gettext_lazy("said yes")),
            (Answer.DECLINED, gettext_lazy("said no")),
            (Answer.WITHDRAWN, gettext_lazy("take the question back")),
        )
    )


class MessageForm(VersionedForm):
    """What becomes of a message."""

    what = forms.ChoiceField(
        choices=(
            ("told", gettext_lazy("It was sent, or told by hand")),
            ("again", gettext_lazy("Send it again")),
            ("drop", gettext_lazy("Nobody needs it any more")),
        )
    )
