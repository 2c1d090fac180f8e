"""What a show asks: of one number, and of all of them. Not said is a choice of its own, never "no"."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, ClassVar

from django import forms
from django.forms.boundfield import BoundField
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.models import Engagement, ShowSpot
from shows.models.spots import GelBy
from shows.wording.asks import said, stored_words
from venue.core.labels import label_key
from venue.forms.base import Section, VersionedForm
from venue.forms.light import LightField, light_units, shown_light
from venue.forms.picks import Pick
from venue.models.optics import SizeName
from venue.models.units import FRAMES, FrameOneEnd

NOT_SAID = ("", gettext_lazy("not said"))
YES_NO = (("yes", gettext_lazy("yes")), ("no", gettext_lazy("no")), NOT_SAID)
_KNOWN: Mapping[bool | None, str] = {True: "yes", False: "no", None: ""}
_MEANT: Mapping[str, bool | None] = {"yes": True, "no": False, "": None}
_STAYING = ("sizes", "on_camera", "full_blackout", "strip_out", "home", "partner", "gel_by")
_FRAME = re.compile(r"frame_(\d{1,3})", re.ASCII)


def pick_field(label: Any, choices: Any = YES_NO, **options: Any) -> forms.ChoiceField:
    """One of two, yes or no unless others are given, or that nobody said."""
    widget = Pick(attrs={"class": "pick-row"})
    return forms.ChoiceField(label=label, choices=choices, required=False, widget=widget, **options)


class SaidForm(VersionedForm):
    """A form whose stored values are told in words where two people changed them."""

    def _shown(self, field: Any, value: Any) -> str:
        words = stored_words(field.name, value, self.system)
        return super()._shown(field, value) if words is None else words


class SpotAsksForm(SaidForm):
    """What one show number asks; a field a frame, and one more than anybody has a use for now.

    `partner` is the number to match: a field named as a method of the browser's elements would hide that method.
    """

    least_light = LightField(label=gettext_lazy("Least light"), required=False)
    channel = forms.CharField(label=gettext_lazy("Headset channel"), max_length=80, required=False)
    pick_up = forms.CharField(label=gettext_lazy("Pick-up"), max_length=200, required=False)
    notes = forms.CharField(
        label=gettext_lazy("Notes"), max_length=1000, required=False, widget=forms.Textarea(attrs={"rows": 2})
    )
    sizes = forms.MultipleChoiceField(
        label=gettext_lazy("Sizes that it is called for"),
        choices=SizeName.choices,
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )
    on_camera = pick_field(gettext_lazy("On camera?"))
    full_blackout = pick_field(gettext_lazy("Needs a full blackout?"))
    strip_out = pick_field(gettext_lazy("Needs a strip cut out by the shutters?"))
    home = forms.CharField(
        label=gettext_lazy("Home pick-up"),
        max_length=200,
        required=False,
        help_text=gettext_lazy("Where it goes when nobody calls it, such as: center, down."),
    )
    partner = forms.ChoiceField(label=gettext_lazy("Has to match"), required=False)
    gel_by = pick_field(gettext_lazy("Who brings the color?"), (*GelBy.choices, NOT_SAID))
    at_field: ClassVar[Mapping[str, str]] = {"least_lux": "least_light", "frames": "frame_1", "matches": "partner"}
    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("Newer paperwork overwrites these too"), ("least_light", "channel", "pick_up", "notes")),
        (gettext_lazy("Paperwork has no column for these: they stay"), _STAYING),
    )
    asked: ClassVar[Sequence[str]] = (*_STAYING, *(f"frame_{number}" for number in range(1, FRAMES[1] + 1)))

    def __init__(self, *args: Any, row: ShowSpot, others: Iterable[ShowSpot], unit_frames: int, **options: Any) -> None:
        super().__init__(*args, row=row, initial=_spot_shown(row), **options)
        house, self.frames_shown = row.engagement.house, tuple(row.frames)
        self.system = house.unit_system  # type: ignore[assignment]
        light_units(self, house.unit_system)
        self._offer_matches(row, others)
        self._tell_camera(row.engagement)
        self.frame_names = self._add_frames(row.frames, unit_frames)

    def shown_sections(self) -> Iterator[tuple[str | Promise, list[BoundField]]]:
        """The frames first, under a heading of their own."""
        yield _("Frames: newer paperwork overwrites them"), [self[name] for name in self.frame_names]
        yield from (section for section in super().shown_sections() if section[0])

    def _offer_matches(self, spot: ShowSpot, others: Iterable[ShowSpot]) -> None:
        """Nobody, the show's other numbers, and a number that the show lost, so that it is not lost here too."""
        numbers = {other.number_key: other.number for other in others if other != spot}
        choices = [(number, _("show %(number)s") % {"number": number}) for number in numbers.values()]
        if spot.matches and label_key(spot.matches) not in numbers:
            lost = _("show %(number)s, which the show does not have") % {"number": spot.matches}
            choices.append((spot.matches, lost))
        self.fields["partner"].choices = [NOT_SAID, *choices]  # type: ignore[attr-defined]
        self.fields["partner"].initial = numbers.get(label_key(spot.matches), spot.matches)

    def _tell_camera(self, engagement: Engagement) -> None:
        if engagement.on_camera is not None:
            told = _("The whole show says %(said)s, which holds while nothing is said here.")
            self.fields["on_camera"].help_text = told % {"said": said(engagement.on_camera)}

    def _add_frames(self, held: Sequence[str], unit_frames: int) -> list[str]:
        """A field for each frame of the unit and each one asked for or filled in, and one more."""
        sent = [int(match[1]) for name in self.data if (match := _FRAME.fullmatch(name)) and self.data[name]]
        used = max(unit_frames, len(held), *(number for number in [0, *sent] if number <= FRAMES[1]))
        for number in range(1, used + (2 if used < FRAMES[1] else 1)):
            self.fields[f"frame_{number}"] = forms.CharField(
                label=_("Frame %(number)d") % {"number": number},
                initial=held[number - 1] if number <= len(held) else "",
                max_length=80,
                required=False,
                widget=forms.TextInput(attrs={"class": "frame-field", "autocomplete": "off"}),
            )
        return [name for name in self.fields if name.startswith("frame_")]

    def values(self) -> dict[str, Any]:
        """Columns by name; light that nobody touched stays as exact as it is stored."""
        own = self.cleaned_data
        columns = {name: own[name] for name in ("channel", "pick_up", "notes", "sizes", "home", "gel_by")}
        columns["matches"] = own["partner"]
        columns |= {name: _MEANT[own[name]] for name in ("on_camera", "full_blackout", "strip_out")}
        columns["frames"] = self._frames()
        if "least_light" in self.changed_data:
            columns["least_lux"] = own["least_light"]
        return columns

    def _frames(self) -> list[str]:
        """What the frames hold; as stored where only empty ones at the end differ."""
        sent = _without_empty_end([self.cleaned_data[name] for name in self.frame_names])
        return list(self.frames_shown) if sent == _without_empty_end(self.frames_shown) else sent


def _without_empty_end(frames: Sequence[str]) -> list[str]:
    return list(frames[: max((number for number, text in enumerate(frames, start=1) if text), default=0)])


def _spot_shown(spot: ShowSpot) -> dict[str, Any]:
    """What the form shows of the stored row, frames left out."""
    shown = {name: getattr(spot, name) for name in ("channel", "pick_up", "notes", "sizes", "home", "gel_by")}
    shown |= {name: _KNOWN[getattr(spot, name)] for name in ("on_camera", "full_blackout", "strip_out")}
    light = shown_light(spot.least_lux, spot.engagement.house.unit_system)
    return {**shown, "least_light": light}


class ShowAsksForm(SaidForm):
    """What the show says of all its numbers."""

    on_camera = pick_field(
        gettext_lazy("On camera?"), help_text=gettext_lazy("Holds for every number that says nothing of its own.")
    )
    frame_1_end = pick_field(
        gettext_lazy("Its frame 1 is at"),
        (*FrameOneEnd.choices, NOT_SAID),
        help_text=gettext_lazy("As the show counts its frames. Each unit has its own end on file."),
    )
    caller = forms.CharField(label=gettext_lazy("Who calls the spots, and from where?"), max_length=120, required=False)
    asked = ("on_camera", "frame_1_end")

    def __init__(self, *args: Any, row: Engagement, **options: Any) -> None:
        shown = {"on_camera": _KNOWN[row.on_camera], "frame_1_end": row.frame_1_end, "caller": row.caller}
        super().__init__(*args, row=row, initial=shown, **options)

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        own = self.cleaned_data
        return {
            "on_camera": _MEANT[own["on_camera"]],
            "frame_1_end": own["frame_1_end"],
            "caller": own["caller"],
        }
