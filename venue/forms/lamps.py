"""Lamps and their kinds: put on file, fitted, taken out, ended, decided about; spares counted."""

from collections.abc import Sequence
from decimal import Decimal
from typing import Any, ClassVar

from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.sources import RATED_H_ALLOWED
from venue.errors import AlreadyExists, DomainError, Overlap
from venue.forms.base import RefusedForm, Section, VersionedForm
from venue.forms.hours import MOST_STRIKES, UnitTimeForm, count_field, hours_field
from venue.forms.units import wall_field
from venue.models import Fitting, House, Lamp, LampKind
from venue.models.lamps import MAX_COUNT, Fate
from venue.relamps import RelampAnswers

ANSWERS = (("", gettext_lazy("not answered yet")), ("yes", gettext_lazy("yes")), ("no", gettext_lazy("no")))
QUESTIONS = {
    "isolated": gettext_lazy("Was the supply isolated, and locked or tagged?"),
    "cooled": gettext_lazy("Was the lamp house cool, after the fan had run on?"),
    "protected": gettext_lazy("Were face, eyes, hands and body protected?"),
    "aligned": gettext_lazy("Is the new lamp aligned?"),
}


class LampKindFacts(forms.ModelForm):
    """The columns of a lamp kind."""

    class Meta:
        model = LampKind
        fields = (
            "name", "source", "rated_h", "warn_at", "stop_at",
            "warm_up_min", "run_down_min", "restrike_min", "opening_min", "least_burn_min", "longest_burn_min",
            "lead_days", "keep_at_least",
        )  # fmt: skip
        labels: ClassVar[dict[str, Any]] = {
            "rated_h": gettext_lazy("Rated hours"),
            "warn_at": gettext_lazy("Warn at, share of the rated hours"),
            "stop_at": gettext_lazy("Stop at, share of the rated hours"),
            "warm_up_min": gettext_lazy("Warm-up, minutes to full light"),
            "run_down_min": gettext_lazy("Fan runs on, minutes"),
            "restrike_min": gettext_lazy("Wait before striking again, minutes"),
            "opening_min": gettext_lazy("Wait before opening, minutes"),
            "least_burn_min": gettext_lazy("Burn at least, minutes"),
            "longest_burn_min": gettext_lazy("Longest burn of one trim, minutes"),
        }
        help_texts: ClassVar[dict[str, Any]] = {
            "source": gettext_lazy("Short-arc, metal halide, tungsten halogen, LED, carbon arc."),
            "warn_at": gettext_lazy("0.8 is 80 %."),
            "stop_at": gettext_lazy("1.0 is 100 %, or the maker's lower figure."),
            "opening_min": gettext_lazy("The maker's figure; where it is not known, at least 10 with the fan on."),
            "longest_burn_min": gettext_lazy("Carbon arc only."),
            "keep_at_least": gettext_lazy("Below this many on the shelf or on order, it is time to order."),
        }


class LampKindForm(VersionedForm, LampKindFacts):
    """A kind of lamp that the house uses."""

    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("Life"), ("rated_h", "warn_at", "stop_at")),
        (
            gettext_lazy("Waits, from the maker's sheet"),
            ("warm_up_min", "run_down_min", "restrike_min", "opening_min", "least_burn_min", "longest_burn_min"),
        ),
        (gettext_lazy("Spares"), ("spares", "on_order", "lead_days", "keep_at_least")),
    )

    def __init__(self, *args: Any, instance: LampKind, **options: Any) -> None:
        super().__init__(*args, row=instance, instance=instance, **options)
        low, high = (float(bound) for bound in RATED_H_ALLOWED)
        self.fields["rated_h"].validators += [MinValueValidator(low), MaxValueValidator(high)]
        if instance._state.adding:
            del self.fields["version"]
            self.fields["spares"] = count_field(_("Spares on the shelf without a serial on file"), MAX_COUNT, initial=0)

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: value for name, value in self.cleaned_data.items() if name != "version"}


class SparesForm(VersionedForm):
    """What lies on the shelf."""

    spares = count_field(gettext_lazy("Spares on the shelf without a serial on file"), MAX_COUNT)
    on_order = count_field(gettext_lazy("On order"), MAX_COUNT)

    def __init__(self, *args: Any, row: LampKind, **options: Any) -> None:
        super().__init__(*args, row=row, initial={"spares": row.spares, "on_order": row.on_order}, **options)


class LampForm(RefusedForm):
    """A lamp comes onto the shelf under its serial."""

    kind = forms.ModelChoiceField(
        label=gettext_lazy("Kind"), queryset=LampKind.objects.none(), empty_label=gettext_lazy("choose the kind")
    )
    serial = forms.CharField(label=gettext_lazy("Serial"), max_length=80)
    is_from_spares = forms.BooleanField(label=gettext_lazy("It is one of the spares counted already"), required=False)
    came_with_h = hours_field(gettext_lazy("Hours that it came with"), initial=Decimal(0))
    came_with_strikes = count_field(gettext_lazy("Strikes that it came with"), MOST_STRIKES, initial=0)

    def __init__(self, *args: Any, house: House, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["kind"].queryset = house.lamp_kinds.standing()  # type: ignore[attr-defined]

    def refuse(self, refusal: DomainError) -> None:
        """A serial that is there already is shown at the serial."""
        if isinstance(refusal, AlreadyExists):
            self.add_error("serial", str(refusal))
        else:
            super().refuse(refusal)


class LampEndForm(RefusedForm):
    """What became of a lamp on the shelf."""

    fate = forms.ChoiceField(
        label=gettext_lazy("What became of it?"),
        choices=[("", gettext_lazy("choose"))] + [one for one in Fate.choices if one[0] != Fate.SHELF],
    )
    reason = forms.CharField(label=gettext_lazy("In words"), max_length=160, required=False)


class DecisionForm(RefusedForm):
    """A named person lets a lamp burn past its stop."""

    by = forms.CharField(
        label=gettext_lazy("Who decides?"), max_length=120, help_text=gettext_lazy("First and last name.")
    )
    makers_source = forms.CharField(
        label=gettext_lazy("What does the maker say, and where?"),
        max_length=300,
        help_text=gettext_lazy("The maker's sheet with its page, or the letter with its date."),
    )
    reason = forms.CharField(label=gettext_lazy("Why?"), max_length=300)
    until_h = hours_field(gettext_lazy("Until how many lamp hours?"))


def _choice(label: Any) -> forms.ChoiceField:
    return forms.ChoiceField(label=label, choices=ANSWERS, required=False)


class LampTimeForm(UnitTimeForm):
    """A lamp comes out of a unit, or goes in, at a time and a reading."""

    by = forms.CharField(label=gettext_lazy("By whom"), max_length=120, required=False)
    at = wall_field(gettext_lazy("When"))
    meter_out_h = hours_field(gettext_lazy("The meter shows, hours"), required=False)
    strikes = count_field(gettext_lazy("Strikes so far"), MOST_STRIKES, required=False)
    out_reason = forms.CharField(label=gettext_lazy("Why does it come out?"), max_length=200, required=False)
    fate = forms.ChoiceField(
        label=gettext_lazy("What becomes of it?"), choices=[("", gettext_lazy("choose")), *Fate.choices]
    )
    hours_at = "meter_out_h"

    def __init__(self, *args: Any, fitting: Fitting | None, last_h: Decimal | None, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fitting, self.last_h = fitting, last_h
        if last_h is None:
            for name in ("meter_out_h", "meter_in_h", "was_reset", "strikes"):
                self.fields.pop(name, None)
        self.fields["at"].required = True


class TakeOutForm(LampTimeForm):
    """The lamp comes out and none goes in."""

    field_order = ("at", "meter_out_h", "strikes", "out_reason", "fate", "by")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if "meter_out_h" in self.fields:
            self.fields["meter_out_h"].required = True


class RelampForm(LampTimeForm):
    """A lamp goes in, and the one inside comes out."""

    hours_at = "meter_in_h"
    asked = ("lamp", "kind", "serial")
    lamp = forms.ModelChoiceField(
        label=gettext_lazy("Lamp from the shelf"), queryset=Lamp.objects.none(), required=False, empty_label="—"
    )
    kind = forms.ModelChoiceField(
        label=gettext_lazy("Or a spare of this kind"), queryset=LampKind.objects.none(), required=False, empty_label="—"
    )
    serial = forms.CharField(label=gettext_lazy("with this serial"), max_length=80, required=False)
    meter_in_h = hours_field(gettext_lazy("The meter shows, hours"), required=False)
    was_reset = forms.BooleanField(label=gettext_lazy("The meter was reset or changed at this relamp"), required=False)
    meter_out_h = hours_field(
        gettext_lazy("Only after a reset: before it the meter showed, hours"),
        required=False,
        help_text=gettext_lazy("Left empty: hours since its last reading are not known."),
    )
    reason = forms.CharField(label=gettext_lazy("Why this lamp"), max_length=200, required=False)
    isolated, cooled = _choice(QUESTIONS["isolated"]), _choice(QUESTIONS["cooled"])
    protected, aligned = _choice(QUESTIONS["protected"]), _choice(QUESTIONS["aligned"])
    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("The lamp that goes in"), ("lamp", "kind", "serial", "reason")),
        (gettext_lazy("The lamp that comes out"), ("out_reason", "fate")),
        (gettext_lazy("Meter"), ("meter_in_h", "strikes", "was_reset", "meter_out_h")),
        (gettext_lazy("Before it may be closed"), ("isolated", "cooled", "protected", "aligned")),
        (gettext_lazy("When and by whom"), ("at", "by")),
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        house = options["unit"].house
        self.fields["lamp"].queryset = house.lamps.on_shelf().select_related("kind")  # type: ignore[attr-defined]
        self.fields["kind"].queryset = house.lamp_kinds.standing()  # type: ignore[attr-defined]
        if self.fitting is None:
            del self.fields["out_reason"], self.fields["fate"]
        if not self.traits.is_under_pressure:
            for name in QUESTIONS:
                del self.fields[name]
        if "meter_in_h" in self.fields:
            self.fields["meter_in_h"].required = True

    def clean(self) -> dict[str, Any]:
        """One lamp goes in; what the meter showed before a reset needs one."""
        cleaned = super().clean() or {}
        lamp, kind, serial = (cleaned.get(name) for name in ("lamp", "kind", "serial"))
        if lamp and (kind or serial):
            self.add_error("lamp", _("Choose a lamp from the shelf, or a kind with a new serial, not both."))
        elif not lamp and not kind and not {"lamp", "kind"} & self.errors.keys():
            self.add_error("lamp", _("Choose the lamp that goes in, or below its kind with a new serial."))
        elif kind and not serial:
            self.add_error("serial", _("Write the serial of the spare that goes in."))
        self._check_reset(cleaned)
        return cleaned

    def _check_reset(self, cleaned: dict[str, Any]) -> None:
        if cleaned.get("meter_out_h") is not None and not cleaned.get("was_reset"):
            self.add_error("meter_out_h", _("Write this only if the meter was reset, and tick that it was."))

    def refuse(self, refusal: DomainError) -> None:
        """What is wrong with the lamp is shown at the lamp."""
        if isinstance(refusal, AlreadyExists):
            self.add_error("serial", str(refusal))
        elif isinstance(refusal, Overlap):
            self.add_error("lamp", str(refusal))
        else:
            super().refuse(refusal)

    def answers(self) -> RelampAnswers:
        """What was answered; None where nothing was said."""
        said = {"yes": True, "no": False}
        return RelampAnswers(**{name: said.get(self.cleaned_data.get(name) or "") for name in QUESTIONS})
