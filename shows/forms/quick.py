"""The fastest door: how many, and how do they count?"""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.forms.engagements import date_field
from venue.forms.positions import RowForm
from venue.models import Position
from venue.models.positions import Zone

OWN_WORDS = "own words"
FROM_LABEL = ("clockwise from house label", "counterclockwise from house label")
NEEDS_BEARINGS = "counterclockwise from 12 o'clock"
"""In a bowl known by order alone nobody knows whether the first place stands at 12 o'clock or after it."""
MOST_SPOTS = 60
COUNTS = (
    ("house left to house right", gettext_lazy("house left to house right · stage right to stage left")),
    ("house right to house left", gettext_lazy("house right to house left · stage left to stage right")),
    ("odd house left, even house right", gettext_lazy("odd house left, even house right")),
    ("odd house right, even house left", gettext_lazy("odd house right, even house left")),
    ("outward from center, house left first", gettext_lazy("from the center outward, house left first")),
    ("outward from center, house right first", gettext_lazy("from the center outward, house right first")),
    ("clockwise from 12 o'clock", gettext_lazy("clockwise seen from above, from 12 o'clock")),
    (FROM_LABEL[0], gettext_lazy("clockwise seen from above, from a house label, below")),
    (FROM_LABEL[1], gettext_lazy("counterclockwise seen from above, from a house label, below")),
    (NEEDS_BEARINGS, gettext_lazy("counterclockwise seen from above, from 12 o'clock")),
    (OWN_WORDS, gettext_lazy("in the tour's own words, below")),
)
"""Statements that are read back, with whole words for each."""


class QuickForm(RowForm):
    """A row of places, or positions on file, and a show's count on them."""

    zone = forms.ChoiceField(
        label=gettext_lazy("Row or bowl?"),
        choices=((Zone.FRONT, gettext_lazy("a row")), (Zone.BOWL, gettext_lazy("all round a bowl"))),
    )
    positions = forms.MultipleChoiceField(
        label=gettext_lazy("Positions on file"), required=False, widget=forms.CheckboxSelectMultiple
    )
    how_many_spots = forms.IntegerField(
        label=gettext_lazy("How many spots has the show?"), min_value=1, max_value=MOST_SPOTS
    )
    counts = forms.ChoiceField(label=gettext_lazy("How do they count?"), choices=COUNTS)
    own_words = forms.CharField(
        label=gettext_lazy("In the tour's own words, or the house label at which number 1 stands"),
        help_text=gettext_lazy("Only where the line above asks for it."),
        required=False,
        max_length=600,
    )
    field_order = ("positions", "zone", "how_many", "labels", "how_many_spots", "counts", "own_words")
    asked = ("positions", "how_many", "own_words", "row_name")

    def __init__(self, *args: Any, positions: Sequence[Position] = (), **options: Any) -> None:
        super().__init__(*args, **options)
        del self.fields["name"]
        self.on_file = {str(position.ref): position for position in positions}
        if positions:
            named = [(ref, position.name) for ref, position in self.on_file.items()]
            self.fields["positions"].choices = named  # type: ignore[attr-defined]
            self.fields["how_many"].required = False
            self.fields["how_many"].help_text = _("Only for a row that is not on file.")
        else:
            del self.fields["positions"]
            told = [(value, label) for value, label in COUNTS if value != NEEDS_BEARINGS]
            self.fields["counts"].choices = told  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """Positions on file, or a row; words where words were promised."""
        cleaned = super().clean() or {}
        if not cleaned.get("positions") and not cleaned.get("how_many") and "how_many" not in self.errors:
            self.add_error("how_many", _("Say how many places there are."))
        if cleaned.get("counts") in {OWN_WORDS, *FROM_LABEL} and not cleaned.get("own_words", "").strip():
            self.add_error("own_words", _("Write how the show counts, or the label at which it starts."))
        return cleaned

    @property
    def statement(self) -> str:
        """How the show counts, in words that are read."""
        counts: str = self.cleaned_data["counts"]
        own: str = self.cleaned_data["own_words"].strip()
        if counts in FROM_LABEL:
            return f"{counts} {own}"
        return own if counts == OWN_WORDS else counts

    @property
    def numbers(self) -> list[str]:
        return [str(number) for number in range(1, self.cleaned_data["how_many_spots"] + 1)]

    def chosen(self) -> list[Position]:
        """The positions on file that were chosen."""
        return [self.on_file[ref] for ref in self.cleaned_data.get("positions", ())]


class KeepForm(QuickForm):
    """The same, with a name for what is kept."""

    show = forms.CharField(label=gettext_lazy("Show"), max_length=120)
    starts_on = date_field(gettext_lazy("First day in the house"))
    ends_on = date_field(gettext_lazy("Last day"))
    row_name = forms.CharField(
        label=gettext_lazy("Name of the row"),
        max_length=80,
        required=False,
        help_text=gettext_lazy("Only for a row that is not on file yet."),
    )

    def clean(self) -> dict[str, Any]:
        """A new row has a name."""
        cleaned = super().clean() or {}
        if not cleaned.get("positions") and not cleaned.get("row_name", "").strip():
            self.add_error("row_name", _("Name the row, such as Rear booth."))
        return cleaned

    def row(self) -> dict[str, Any] | None:
        """The new row as `add_row` takes it; None where positions on file were chosen."""
        own = self.cleaned_data
        if own.get("positions"):
            return None
        return {"name": own["row_name"], "zone": own["zone"], "labels_from_house_left": own["labels"]}
