"""Fields for lengths as people type them, and for offsets told as a distance and a side in words."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from venue.core.lengths import Length, LengthProblem, UnitSystem, exact_text, read_length, still_reads

SIDES = (
    ("", _("choose the side")),
    ("house left", _("house left · stage right")),
    ("center", _("center")),
    ("house right", _("house right · stage left")),
)
DIRECTIONS = (
    ("", _("choose the direction")),
    ("house", _("toward the house")),
    ("upstage", _("upstage, away from the house")),
)
PROBLEMS: dict[str, Any] = {
    "unreadable": _("“%(text)s” can't be read as a length. Write it as 142' 6\", 142.5 ft or 43.4 m."),
    "comma": _("The comma in “%(text)s” may mean two things. Write the number without it, or with a point."),
    "inches": _("A foot has 12 inches: after feet, inches go up to 11. Write one foot more in “%(text)s”."),
    "fraction": _("The fraction in “%(text)s” is not below one. Write one such as 1/2 or 3/4."),
}
NEGATIVE = _("Write the distance without a minus and choose the side in words.")
BARE: dict[str, str | Promise] = {
    "imperial": _("Such as 142' 6\" or 43.4 m. A bare number is in feet."),
    "metric": _("Such as 43.4 m or 142' 6\". A bare number is in meters."),
}


class LengthField(forms.CharField):
    """A length; cleaned to a Length, or None where nothing is written. The house's units are set by the form."""

    system: UnitSystem = "metric"

    def __init__(self, *, may_be_negative: bool = False, **options: Any) -> None:
        super().__init__(max_length=40, **{"required": False, **options})
        self.may_be_negative = may_be_negative
        self.widget.attrs["autocomplete"] = "off"

    def clean(self, value: Any) -> Length | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            length = read_length(text, self.system)
        except LengthProblem as problem:
            raise ValidationError(
                PROBLEMS.get(problem.code, PROBLEMS["unreadable"]), problem.code, {"text": text}
            ) from problem
        if length.meters < 0 and not self.may_be_negative:
            raise ValidationError(NEGATIVE, "negative")
        return length


def use_units(form: forms.BaseForm, system: str) -> None:
    """Have every length of the form read bare numbers in the house's units, and say so."""
    known: UnitSystem = "imperial" if system == "imperial" else "metric"
    form.system = known  # type: ignore[attr-defined]
    for field in form.fields.values():
        if isinstance(field, LengthField):
            field.system = known
            field.help_text = " ".join(filter(None, [str(field.help_text), str(BARE[system])]))


def written_back(meters: float | None, text: str, system: str) -> str:
    """What a form shows of a stored length: the text as typed, else text that reads as exactly this length."""
    if meters is None:
        return ""
    known: UnitSystem = "imperial" if system == "imperial" else "metric"
    return text if still_reads(meters, text, known) else exact_text(meters)


def columns(name: str, length: Length | None) -> dict[str, Any]:
    """The two columns of a length: `name`_m and `name`_text."""
    return {f"{name}_m": length and length.meters, f"{name}_text": length.text if length else ""}


def require_within(form: forms.Form, name: str, within: tuple[float, float], message: Any) -> None:
    """Refuse a length at its field if it lies outside the range [m]."""
    length = form.cleaned_data.get(name)
    if length is not None and not within[0] <= length.meters <= within[1]:
        form.add_error(name, message)


def signed_offset(form: forms.Form, distance: str, side: str, positive: str) -> float | None:
    """A distance and its side as one signed number; the side `positive` counts up. None: nothing written.

    A distance without a side is an error at the side, a side without a distance one at the distance; "center"
    needs none.
    """
    length, chosen = form.cleaned_data.get(distance), form.cleaned_data.get(side)
    if chosen == "center":
        if length is not None and length.meters:
            form.add_error(distance, _("The center has no distance. Leave this empty, or choose a side."))
        return 0.0
    if length is None:
        if chosen and distance not in form.errors:
            form.add_error(distance, _("Write the distance."))
        return None
    if not chosen:
        if length.meters:
            form.add_error(side, _("Choose in words where that is."))
        return 0.0
    return length.meters if chosen == positive else -length.meters
