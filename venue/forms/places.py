"""Places: the label, and where the lens is, in one of three ways."""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar
from uuid import UUID

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.lengths import written
from venue.core.throws import Point, ThrowProblem, is_far_off, lens_by_throw, side_of, throw_to
from venue.forms.base import Section, VersionedForm
from venue.forms.houses import direction_of
from venue.forms.lengths import DIRECTIONS, SIDES, LengthField, columns, signed_offset, use_units, written_back
from venue.forms.units import places_of
from venue.models import Circuit, Place, Position, Setup
from venue.models.places import HEIGHT, ThrowEnd
from venue.models.positions import Zone
from venue.throw_ends import end_y_in, is_placed_by_throw

WAYS = (
    ("measured", gettext_lazy("measured from the center line and the plaster line")),
    ("throw", gettext_lazy("by throw, height and distance from the center line")),
    ("order", gettext_lazy("not measured: only its order")),
)
NO_THROW: dict[str, Any] = {
    "throw_m": None,
    "throw_text": "",
    "throw_end": "",
    "throw_mark": "",
    "throw_end_y_m": None,
    "throw_end_text": "",
}
NOWHERE: dict[str, Any] = {"x_m": None, "y_m": None, "z_m": None, "x_text": "", "y_text": "", "z_text": ""}
THROW_PROBLEMS: dict[str, tuple[str, Any]] = {
    "too-high": ("height", gettext_lazy("The lens can't be higher than the throw is long. Check both.")),
    "too-far-from-center": (
        "from_center",
        gettext_lazy("The lens can't be farther from the center line than the throw reaches. Check both."),
    ),
}
TEXTS = {"x": "from_center", "y": "from_plaster", "z": "height", "throw": "throw"}
"""Columns with a text, and the field in which it is typed."""
PLACE_SECTIONS: tuple[Section, ...] = (
    (gettext_lazy("Side and height of the lens, unless only its order is known"), ("from_center", "side", "height")),
    (gettext_lazy("If it was measured"), ("from_plaster", "direction")),
    (
        gettext_lazy("Throw, needed where the lens is placed by it"),
        ("throw", "throw_end", "throw_mark", "end_from_plaster", "end_direction", "lens_stands", "keep_throw"),
    ),
    (gettext_lazy("Order, needed where nothing is measured"), ("row_order", "goes_before", "bearing_deg")),
    (gettext_lazy("Supply and operator"), ("circuit", "operated_from")),
)


class PlaceForm(VersionedForm):
    """A place in a position. Sides and directions are words; no number has a sign but a height."""

    label = forms.CharField(label=gettext_lazy("Label painted there"), max_length=40)
    way = forms.ChoiceField(
        label=gettext_lazy("How is it known where the lens is?"), choices=WAYS, widget=forms.RadioSelect
    )
    from_center = LengthField(label=gettext_lazy("Distance from the center line"))
    side = forms.ChoiceField(label=gettext_lazy("Side"), choices=SIDES, required=False)
    height = LengthField(
        label=gettext_lazy("Height above the stage deck"),
        may_be_negative=True,
        help_text=gettext_lazy("Above the stage, not above the floor of the house; with a minus if below the deck."),
    )
    from_plaster = LengthField(label=gettext_lazy("Distance from the plaster line"))
    direction = forms.ChoiceField(label=gettext_lazy("Direction"), choices=DIRECTIONS, required=False)
    throw = LengthField(label=gettext_lazy("Throw, straight from the lens"))
    throw_end = forms.ChoiceField(
        label=gettext_lazy("To which point on the center line?"),
        choices=[("", gettext_lazy("choose the point")), *ThrowEnd.choices],
        required=False,
    )
    throw_mark = forms.CharField(label=gettext_lazy("The mark, in words"), max_length=60, required=False)
    end_from_plaster = LengthField(
        label=gettext_lazy("How far is that point from the plaster line?"),
        help_text=gettext_lazy("May stay empty where the usual set-up says it: the lip, center stage."),
    )
    end_direction = forms.ChoiceField(label=gettext_lazy("In which direction?"), choices=DIRECTIONS, required=False)
    lens_stands = forms.ChoiceField(
        label=gettext_lazy("The lens is"),
        choices=[
            ("house", gettext_lazy("on the house's side of that point")),
            ("upstage", gettext_lazy("upstage of that point")),
        ],
        required=False,
    )
    keep_throw = forms.BooleanField(label=gettext_lazy("Both are right: keep the throw as written"), required=False)
    row_order = forms.IntegerField(
        label=gettext_lazy("Which one is it, counted from house left?"), min_value=1, max_value=100_000, required=False
    )
    goes_before = forms.BooleanField(
        label=gettext_lazy("It goes before that one: from there on each counts one higher"), required=False
    )
    bearing_deg = forms.FloatField(
        label=gettext_lazy("Bearing, degrees clockwise from the stage end"), min_value=0, max_value=360, required=False
    )
    operated_from = forms.ModelChoiceField(
        label=gettext_lazy("Where its operator is, if the unit is run from another place"),
        queryset=Place.objects.none(),
        required=False,
        empty_label=gettext_lazy("not run from elsewhere"),
    )
    circuit = forms.ModelChoiceField(
        label=gettext_lazy("Circuit that its unit is plugged to"),
        queryset=Circuit.objects.none(),
        required=False,
        empty_label=gettext_lazy("not recorded"),
    )
    sections: ClassVar[Sequence[Section]] = PLACE_SECTIONS
    asked = (
        "from_center", "side", "height", "from_plaster", "direction", "throw", "throw_end", "throw_mark",
        "end_from_plaster", "end_direction", "lens_stands", "keep_throw", "row_order", "goes_before",
        "bearing_deg",
    )  # fmt: skip
    at_field: ClassVar[Mapping[str, str]] = {
        "x_m": "from_center",
        "y_m": "from_plaster",
        "z_m": "height",
        "throw_m": "throw",
        "throw_end_y_m": "end_from_plaster",
    }

    def __init__(self, *args: Any, row: Place, setup: Setup, zone: str, **options: Any) -> None:
        house = row.position.house
        super().__init__(*args, row=row, initial=_initial(row, zone, house.unit_system), **options)
        self.place, self.setup, self.zone = row, setup, zone
        use_units(self, house.unit_system)
        elsewhere = places_of(house).exclude(pk=row.pk)
        self.fields["operated_from"].queryset = elsewhere  # type: ignore[attr-defined]
        self.fields["circuit"].queryset = house.circuits.standing()  # type: ignore[attr-defined]
        if row._state.adding:
            del self.fields["version"]
        if zone == Zone.BOWL:
            self.fields["row_order"].label = _("Which one is it, counted clockwise from the stage end?")
        elif row.bearing_deg is None:
            del self.fields["bearing_deg"]
        self._if_asked = {name: self.fields[name] for name in ("keep_throw", "goes_before")}
        for name in self._if_asked:
            if not self.data.get(name):
                del self.fields[name]  # until it is asked

    def clean(self) -> dict[str, Any]:
        """The columns of where the lens is and of the throw, in `placed`."""
        cleaned = super().clean() or {}
        self.placed = {**NOWHERE, **self._throw()}
        way = cleaned.get("way")
        if way == "order":
            self._require_order()
        elif way in {"measured", "throw"}:
            self._place(is_by_throw=way == "throw")
        self._require_own_order()
        return cleaned

    def _throw(self) -> dict[str, Any]:
        throw, end = self.cleaned_data.get("throw"), self.cleaned_data.get("throw_end")
        if throw is None:
            if end:
                self.add_error("throw", _("Write the throw to this point, or choose no point."))
            return NO_THROW
        if not end:
            self.add_error("throw_end", _("Say to which point the throw goes: a throw without it says nothing."))
        mark = self.cleaned_data.get("throw_mark", "") if end == ThrowEnd.MARK else ""
        if end == ThrowEnd.MARK and not mark:
            self.add_error("throw_mark", _("Say in words what the mark is."))
        typed = self.cleaned_data.get("end_from_plaster")
        found = {"throw_end": end, "throw_mark": mark, "throw_end_text": typed.text if typed else ""}
        return {**columns("throw", throw), **found, "throw_end_y_m": self._end_y(end)}

    def _end_y(self, end: str | None) -> float | None:
        typed = signed_offset(self, "end_from_plaster", "end_direction", "upstage")
        if end == ThrowEnd.PLASTER and typed:
            self.add_error("end_from_plaster", _("The plaster line is what is counted from. Leave this empty."))
        return end_y_in(self.setup, end or "") if typed is None else typed

    def _place(self, *, is_by_throw: bool) -> None:
        x = signed_offset(self, "from_center", "side", "house right")
        height = self._height()
        if x is None:
            self._required("from_center", _("Write the distance from the center line, or choose center."))
        if is_by_throw:
            self._place_by_throw(x, height)
            return
        y = signed_offset(self, "from_plaster", "direction", "upstage")
        if y is None:
            self._required("from_plaster", _("Write the distance from the plaster line."))
        if x is not None and y is not None and height is not None:
            self._put(Point(x, y, height), self.cleaned_data.get("from_plaster"))
            self._ask_about_throw(Point(x, y, height))

    def _place_by_throw(self, x: float | None, height: float | None) -> None:
        throw = self._required("throw", _("Write the throw."))
        end_y = self.placed["throw_end_y_m"]
        if end_y is None and self.placed["throw_end"] and "end_from_plaster" not in self.errors:
            self.add_error("end_from_plaster", _("The set-up does not say where that point is. Write it here."))
        if x is None or height is None or throw is None or end_y is None:
            return
        try:
            is_upstage = self.cleaned_data.get("lens_stands") == "upstage"
            self._put(lens_by_throw(throw, height, x, end_y, is_upstage=is_upstage), None)
        except ThrowProblem as problem:
            self.add_error(*THROW_PROBLEMS[problem.code])

    def _height(self) -> float | None:
        height = self._required("height", _("Write the height of the lens above the deck."))
        if height is None or HEIGHT[0] <= height <= HEIGHT[1]:
            return height
        self.add_error("height", _("A lens is from 10 feet (3 m) below the deck to 300 feet (91 m) above it."))
        return None

    def _required(self, name: str, message: str) -> float | None:
        length = self.cleaned_data.get(name)
        if length is None and name not in self.errors:
            self.add_error(name, message)
        return None if length is None else length.meters

    def _put(self, lens: Point, along: Any) -> None:
        across, height = self.cleaned_data.get("from_center"), self.cleaned_data["height"]
        self.placed |= {"x_m": lens.x_m, "y_m": lens.y_m, **columns("z", height)}
        self.placed |= {"x_text": across.text if across else "", "y_text": along.text if along else ""}

    def _ask_about_throw(self, lens: Point) -> None:
        throw, end_y = self.placed["throw_m"], self.placed["throw_end_y_m"]
        if throw is None or end_y is None or self.cleaned_data.get("keep_throw"):
            return
        computed = throw_to(lens, end_y)
        if not is_far_off(throw, computed):
            return
        self.fields["keep_throw"] = self._if_asked["keep_throw"]
        found = {"throw": self.placed["throw_text"], "computed": written(computed, self.system)}
        message = _(
            "The throw is written as %(throw)s, but the measures give %(computed)s: over 5 %% apart. Correct one of "
            "them, or say below that both are right."
        )
        self.add_error("throw", message % found)

    def _require_order(self) -> None:
        has_bearing = self.cleaned_data.get("bearing_deg") is not None
        if self.cleaned_data.get("row_order") is None and not has_bearing and "row_order" not in self.errors:
            self.add_error("row_order", _("Write which one it is: 1 is the first."))

    def _require_own_order(self) -> None:
        order = self.cleaned_data.get("row_order")
        if order is None:
            return
        beside = _beside(self.place.position, self.place.only_for)
        same = beside.filter(row_order=order).exclude(pk=self.place.pk).first()
        if same is None or self._goes_before:
            return
        found = {"label": same.label, "order": order}
        if not self.place._state.adding:
            message = _(
                "Place %(label)s is number %(order)s already. Choose another number, or change that place first."
            )
        else:
            self.fields["goes_before"] = self._if_asked["goes_before"]
            message = _(
                "Place %(label)s is number %(order)s already. Choose another number, or say below that this one goes "
                "before it."
            )
        self.add_error("row_order", message % found)

    @property
    def _goes_before(self) -> bool:
        """Whether a new place takes the number of one that is there, which counts on."""
        return self.place._state.adding and bool(self.cleaned_data.get("goes_before"))

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        names = ("label", "row_order", "operated_from", "circuit")
        own = {name: self.cleaned_data[name] for name in names}
        own |= {"goes_before": True} if self._goes_before else {}
        return {**own, "bearing_deg": self.cleaned_data.get("bearing_deg"), **self.placed, **self._kept_texts()}

    def _kept_texts(self) -> dict[str, str]:
        """Stored texts of lengths that stay: an untouched field only shows what is stored."""
        return {
            f"{name}_text": getattr(self.place, f"{name}_text")
            for name, field in TEXTS.items()
            if field not in self.changed_data
            if self.placed[f"{name}_m"] is not None and self.placed[f"{name}_m"] == getattr(self.place, f"{name}_m")
        }


def place_form(data: Mapping[str, Any] | None, place: Place, setup: Setup) -> PlaceForm:
    """The form of a place where its position stands in the set-up."""
    zone = setup.zones.filter(position=place.position).values_list("zone", flat=True).first()
    return PlaceForm(data, row=place, setup=setup, zone=zone or place.position.zone)


def next_place(position: Position, only_for: UUID | None = None) -> Place:
    """A new place, proposed as the next in the order where all have one; `only_for` one engagement."""
    orders = list(_beside(position, only_for).values_list("row_order", flat=True))
    known = [order for order in orders if order is not None]
    row_order = max(known, default=0) + 1 if len(known) == len(orders) else None
    return Place(position=position, row_order=row_order, only_for=only_for)


def _beside(position: Position, only_for: UUID | None) -> Any:
    """The position's places of the house and, where given, of the engagement."""
    places = position.places.standing()
    return places.of_house() if only_for is None else places.open_to(only_for)


def _initial(place: Place, zone: str, system: str) -> dict[str, Any]:
    end_y = place.throw_end_y_m
    return {
        "label": place.label,
        "row_order": place.row_order,
        "bearing_deg": place.bearing_deg,
        "operated_from": place.operated_from_id,
        "circuit": place.circuit_id,
        "way": _way_of(place),
        "throw": written_back(place.throw_m, place.throw_text, system),
        "throw_end": place.throw_end,
        "throw_mark": place.throw_mark,
        "end_from_plaster": written_back(abs(end_y), place.throw_end_text, system) if end_y else "",
        "end_direction": direction_of(end_y or 0.0),
        "lens_stands": "upstage" if zone == Zone.REAR else "house",
        **_lens(place, system),
    }


def _lens(place: Place, system: str) -> dict[str, Any]:
    x, y, z = place.x_m, place.y_m, place.z_m
    if x is None or y is None or z is None:
        return {}
    return {
        "from_center": written_back(abs(x), place.x_text, system) if x else "",
        "side": side_of(x),
        "height": written_back(z, place.z_text, system),
        "from_plaster": written_back(abs(y), place.y_text, system),
        "direction": direction_of(y),
        "lens_stands": "upstage" if y > (place.throw_end_y_m or 0.0) else "house",
    }


def _way_of(place: Place) -> str:
    if place.x_m is None:
        return "order" if place.row_order or place.bearing_deg is not None else "measured"
    return "throw" if is_placed_by_throw(place) else "measured"
