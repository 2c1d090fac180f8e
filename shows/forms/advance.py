"""The advance: a point that is open, its answer, a confirmation, how long the tour's link works."""

from datetime import datetime
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.forms.arrival import NAME_LENGTH, ArrivalLinkForm
from shows.models import AdvanceItem, Engagement
from shows.models.advance import OwedBy
from venue.core.local_time import wall_time
from venue.forms.base import RefusedForm, VersionedForm
from venue.forms.picks import Pick
from venue.stays import house_day_span

ANSWER_LENGTH = 500


class PointForm(VersionedForm):
    """What is open, by whom and by when."""

    what = forms.CharField(label=gettext_lazy("What is open?"), max_length=200)
    owed_by = forms.ChoiceField(label=gettext_lazy("By whom?"), choices=OwedBy.choices, widget=Pick)
    due_on = forms.DateField(
        label=gettext_lazy("By when?"),
        required=False,
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
    )

    def __init__(self, *args: Any, row: AdvanceItem, **options: Any) -> None:
        options["initial"] = {"what": row.what, "owed_by": row.owed_by, "due_on": row.due_on}
        super().__init__(*args, row=row, **options)
        if row._state.adding:
            del self.fields["version"]

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: self.cleaned_data[name] for name in ("what", "owed_by", "due_on")}


class AnswerForm(VersionedForm):
    """What came of a point, and who says so. The tour, which answers by its link, writes an answer."""

    answer = forms.CharField(
        label=gettext_lazy("The answer"), max_length=ANSWER_LENGTH, widget=forms.Textarea(attrs={"rows": 3})
    )
    by = forms.CharField(label=gettext_lazy("Your name"), max_length=NAME_LENGTH)

    def __init__(self, *args: Any, row: AdvanceItem, name: str, is_by_link: bool, **options: Any) -> None:
        options["initial"] = {"by": name, "answer": row.answer}
        super().__init__(*args, row=row, **options)
        if not is_by_link:
            self.fields["answer"].required = False
            self.fields["by"].label = _("Who did it, or said so?")


class AgainForm(VersionedForm):
    """A point is opened again."""


class ConfirmForm(RefusedForm):
    """Who confirms. `sha256` is of what the person was shown."""

    name = forms.CharField(label=gettext_lazy("Your name"), max_length=NAME_LENGTH)
    sha256 = forms.CharField(max_length=64, widget=forms.HiddenInput)

    def __init__(self, *args: Any, name: str, **options: Any) -> None:
        options["initial"] = {"name": name}
        super().__init__(*args, **options)
        self.fields["sha256"].error_messages["required"] = _("Load the page anew, then confirm.")


class AdvanceLinkForm(ArrivalLinkForm):
    """Until when the tour's link works: the end of the show's first day in the house, as long as that is ahead."""

    def __init__(self, *args: Any, engagement: Engagement, now: datetime, **options: Any) -> None:
        super().__init__(*args, engagement=engagement, now=now, **options)
        over = house_day_span(engagement.house, engagement.starts_on)[1]
        if over > now:
            self.initial = {"until": wall_time(over, engagement.house.time_zone)}
