"""The arrival check: what was found at one place, what is in the way no more, who signs, how long a link works."""

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from typing import Any, ClassVar

from django import forms
from django.forms.boundfield import BoundField
from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.actions.arrival import Found
from shows.arrival import CheckedPlace
from shows.core.checking import ITEMS, ONE_BY_ONE, TOGETHER
from shows.models import Engagement
from shows.models.arrival import CheckItem, CheckResult, Signer
from venue.core.local_time import wall_time
from venue.forms.base import RefusedForm
from venue.forms.picks import Pick
from venue.forms.units import WallTimeForm, wall_field
from venue.stays import house_day_span

NAME_LENGTH = 80
NOTE_LENGTH = 220
LONGEST = timedelta(days=366)
SIDES: Mapping[str, str | Promise] = {
    Signer.HOUSE: gettext_lazy("For the house, as its head"),
    Signer.ROAD: gettext_lazy("For the road crew"),
}


class LookForm(RefusedForm):
    """What somebody found at one place. Nothing is chosen at first, so that nothing passes by accident."""

    by = forms.CharField(label=gettext_lazy("Your name"), max_length=NAME_LENGTH)
    frames_out = forms.CharField(
        label=gettext_lazy("Which frames are out?"),
        max_length=60,
        required=False,
        help_text=gettext_lazy("Their numbers, such as 2, 4."),
    )
    rest = forms.BooleanField(label=gettext_lazy("All other items pass"), required=False)
    in_the_way = forms.CharField(
        label=gettext_lazy("Anything new in the way tonight?"),
        max_length=120,
        required=False,
        help_text=gettext_lazy("Speakers, banners, a screen. It is noted for this show alone."),
    )
    at_field: ClassVar[Mapping[str, str]] = {"name": "in_the_way"}
    asked: ClassVar[tuple[str, ...]] = ("rest", *ITEMS, *(f"{item}_note" for item in ITEMS))

    def __init__(self, *args: Any, name: str, **options: Any) -> None:
        options["initial"] = {"by": name}
        super().__init__(*args, **options)
        for item in ITEMS:
            widget = Pick(attrs={"class": "pick-three"})
            label = capfirst(str(CheckItem(item).label))
            self.fields[item] = forms.ChoiceField(
                label=label, choices=CheckResult.choices, required=False, widget=widget
            )
            self.fields[f"{item}_note"] = forms.CharField(
                label=_("What fails?"), max_length=NOTE_LENGTH, required=False
            )

    def clean(self) -> dict[str, Any]:
        """A note says what it is about; what is called out of order fails."""
        cleaned = super().clean() or {}
        for item in ITEMS:
            if cleaned.get(f"{item}_note") and not cleaned.get(item):
                self.add_error(item, _("There is a note. Choose whether it passes or fails."))
        if cleaned.get("frames_out") and not cleaned.get("frames"):
            self.add_error("frames", _("Frames are listed as out. Choose whether this passes or fails."))
        return cleaned

    def found(self, checked: CheckedPlace) -> dict[str, Found]:
        """What was set. The one tap passes only what nobody looked at, and "not checked" only takes a mark back."""
        results = {each.item: each.result for each in checked.state.items}
        own = {item: self.cleaned_data[item] for item in ITEMS if self.cleaned_data[item]}
        if self.cleaned_data["rest"]:
            own |= {item: CheckResult.PASS for item in TOGETHER if item not in own and results[item] == "open"}
        kept = {item: result for item, result in own.items() if result != "open" or results[item] != "open"}
        return {item: self._found(item, result, checked) for item, result in kept.items()}

    def _found(self, item: str, result: str, checked: CheckedPlace) -> Found:
        """Frames that are out stand in a new fault; where none is opened, in the note."""
        if result != CheckResult.FAIL:
            return Found(result)
        note = self.cleaned_data[f"{item}_note"]
        frames = self.cleaned_data["frames_out"] if item == CheckItem.FRAMES else ""
        if frames and note and (checked.unit is None or item in checked.faults):
            note = _("%(note)s (frames %(frames)s)") % {"note": note, "frames": frames}
        return Found(result, note, frames)

    def one_by_one(self) -> Iterator[tuple[BoundField, BoundField]]:
        """Each item that is looked at by itself, with the field for what fails."""
        return ((self[item], self[f"{item}_note"]) for item in ONE_BY_ONE)

    def together(self) -> Iterator[tuple[BoundField, BoundField]]:
        """Each of the rest, with the field for what fails."""
        return ((self[item], self[f"{item}_note"]) for item in TOGETHER)

    @property
    def is_apart(self) -> bool:
        """Whether something was sent or refused for one of the rest by itself."""
        names = [name for item in TOGETHER for name in (item, f"{item}_note")]
        return self.is_bound and any(self[name].errors or self[name].value() for name in names)


class SignForm(RefusedForm):
    """Who signs, for which side. `sha256` is of what the person was shown."""

    side = forms.ChoiceField(label=gettext_lazy("Who signs?"), widget=Pick)
    name = forms.CharField(label=gettext_lazy("Name"), max_length=NAME_LENGTH)
    sha256 = forms.CharField(max_length=64, widget=forms.HiddenInput)

    def __init__(self, *args: Any, sides: tuple[str, ...], name: str, **options: Any) -> None:
        options["initial"] = {"name": name, "side": sides[0] if len(sides) == 1 else ""}
        super().__init__(*args, **options)
        self.fields["side"].choices = [(side, SIDES[side]) for side in sides]  # type: ignore[attr-defined]
        self.fields["sha256"].error_messages["required"] = _("Load the page anew, then sign.")


class ClearForm(RefusedForm):
    """Why something is in the way no more; a name only where nobody signed in."""

    reason = forms.CharField(label=gettext_lazy("What became of it?"), max_length=200)
    by = forms.CharField(label=gettext_lazy("Your name"), max_length=NAME_LENGTH)
    at_field: ClassVar[Mapping[str, str]] = {"ended_reason": "reason"}

    def __init__(self, *args: Any, name: str | None, **options: Any) -> None:
        options["initial"] = {"by": name or ""}
        super().__init__(*args, **options)
        if name is None:
            del self.fields["by"]


class ArrivalLinkForm(WallTimeForm):
    """Until when the road crew's link works."""

    until = wall_field(gettext_lazy("It works until"))
    wall_times = ("until",)

    def __init__(self, *args: Any, engagement: Engagement, now: datetime, **options: Any) -> None:
        house = engagement.house
        over = house_day_span(house, engagement.ends_on)[1]
        options["initial"] = {"until": wall_time(over, house.time_zone)} if over > now else {}
        super().__init__(*args, **options)
        self.zone, self.now = house.time_zone, now
        self.fields["until"].help_text = _("In the house's own time, %(zone)s.") % {"zone": self.zone}

    def clean(self) -> dict[str, Any]:
        """It ends later, and within a year."""
        cleaned = super().clean()
        until = cleaned.get("until")
        if until is not None and until <= self.now:
            self.add_error("until", _("That is over already. Write a later time."))
        elif until is not None and until > self.now + LONGEST:
            self.add_error("until", _("A link works for a year at most. Write an earlier time."))
        return cleaned
