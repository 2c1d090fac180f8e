"""A part of the plan, typed as its corners, one a line."""

from dataclasses import dataclass
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.corner_words import corners_as_typed, read_corners
from venue.core.lengths import UnitSystem
from venue.models.coverage import CORNER_PROBLEMS, MOST_CORNERS, Outlined
from venue.wording_corners import line_sentence

HELP = gettext_lazy(
    "One corner a line, in their order along the edge, counted from where the center line meets the plaster line: "
    "12' house left, 3' upstage. House left is stage right. Also: center, 0."
)
BARE = {
    "imperial": gettext_lazy("A bare number is in feet."),
    "metric": gettext_lazy("A bare number is in meters."),
}


@dataclass(frozen=True)
class Corners:
    """Corners [x, y] in meters, and the text as typed."""

    points: list[list[float]]
    text: str


class CornersField(forms.CharField):
    """Corners in words; cleaned to Corners, or None where nothing is written. Every bad line is told at once."""

    system: UnitSystem = "metric"
    widget = forms.Textarea(attrs={"rows": 6, "autocomplete": "off"})

    def __init__(self, **options: Any) -> None:
        super().__init__(max_length=4000, **{"help_text": HELP, **options})

    def to_python(self, value: Any) -> str:
        """The lines without what browsers add to them."""
        return as_lines(super().to_python(value) or "")

    def clean(self, value: Any) -> Corners | None:
        text = super().clean(value)
        if not text:
            return None
        if len(list(filter(None, text.split("\n")))) > MOST_CORNERS:
            raise ValidationError(_("An area has at most %(most)s corners.") % {"most": MOST_CORNERS})
        read = read_corners(text, self.system)
        if read.problems:
            raise ValidationError([line_sentence(problem) for problem in read.problems])
        if len(read.corners) < 3:
            raise ValidationError(str(CORNER_PROBLEMS["too-few-corners"]))
        return Corners([[x, y] for x, y in read.corners], text)


def as_lines(text: str) -> str:
    """The text with one kind of line ends and nothing at the ends of its lines."""
    return "\n".join(line.strip() for line in text.strip().splitlines())


def use_plan_units(form: forms.BaseForm, system: str) -> None:
    """Have the form's corners read bare numbers in the house's units, and say so."""
    field = form.fields["corners"]
    field.system = "imperial" if system == "imperial" else "metric"  # type: ignore[attr-defined]
    field.help_text = f"{field.help_text} {BARE[system]}"


def corners_shown(row: Outlined, system: str) -> str:
    """What a form shows of stored corners."""
    known: UnitSystem = "imperial" if system == "imperial" else "metric"
    return corners_as_typed(row.corners, as_lines(row.corners_text), known)


def corner_columns(corners: Corners | None) -> dict[str, Any]:
    """The two columns of an outline."""
    return {"corners": corners.points, "corners_text": corners.text} if corners else {"corners": [], "corners_text": ""}
