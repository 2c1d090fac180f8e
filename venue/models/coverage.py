"""What lights have to reach, and what is in the way: parts of the plan."""

from collections.abc import Sequence
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from venue.core.names import name_key
from venue.core.polygons import Polygon, PolygonProblem, convex_pieces
from venue.fields import KeyField
from venue.models.base import (
    NOT_ENDED,
    PAN,
    Ending,
    EndingQuerySet,
    Keyed,
    Ref,
    Versioned,
    ends_with_reason,
    in_ranges,
    not_empty,
    number,
    one_of,
    pans_together,
)
from venue.models.places import Place
from venue.models.positions import OwnQuerySet, Position
from venue.models.setups import COORDINATE, Setup

MOST_CORNERS = 40
CORNER_PROBLEMS = {
    "too-few-corners": _("An area has three corners or more."),
    "no-area": _("These corners lie on one line: they enclose nothing."),
    "crosses-itself": _("The edge crosses itself. Write the corners in their order along the edge."),
}


class AreaKind(models.TextChoices):
    STAGE = "stage", _("part of the stage")
    PIT = "pit", _("pit")
    AISLE = "aisle", _("aisle")
    HOUSE = "house", _("part of the house")


class Outlined(models.Model):
    """A part of the plan: `corners` (x, y) in meters along its edge, `corners_text` as typed. No corners: in words."""

    corners = models.JSONField(_("corners"), default=list, blank=True)
    corners_text = models.TextField(_("corners as typed"), max_length=4000, blank=True)

    class Meta:
        abstract = True

    @property
    def polygon(self) -> Polygon:
        """The corners as (x, y) [m]."""
        return tuple((float(x), float(y)) for x, y in self.corners)

    def clean(self) -> None:
        super().clean()
        problem = _problem_of(self.corners)
        if problem:
            raise ValidationError({"corners": problem})


def _problem_of(corners: Any) -> str:
    """What is wrong with the corners; "" for none at all and for an area."""
    if not isinstance(corners, list) or not all(map(_is_corner, corners)):
        return gettext("Each corner is x and y in meters, none over 1000.")
    if len(corners) > MOST_CORNERS:
        return gettext("An area has at most %(most)s corners.") % {"most": MOST_CORNERS}
    try:
        if corners:
            convex_pieces(tuple((float(x), float(y)) for x, y in corners))
    except PolygonProblem as problem:
        return str(CORNER_PROBLEMS[problem.code])
    return ""


def _is_corner(corner: Any) -> bool:
    is_pair = isinstance(corner, Sequence) and not isinstance(corner, str) and len(corner) == 2
    return is_pair and all(_is_coordinate(value) for value in corner)


def _is_coordinate(value: Any) -> bool:
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    return is_number and COORDINATE[0] <= value <= COORDINATE[1]


class Area(Ref, Versioned, Keyed, Ending, Outlined):
    """A named part of the plan that lights may have to reach in a set-up: pit, aisle, a part of the house."""

    setup = models.ForeignKey(Setup, on_delete=models.PROTECT, related_name="areas")
    name = models.CharField(_("name"), max_length=60)
    name_key = KeyField(source="name", derive=name_key, max_length=120)
    kind = models.CharField(_("what it is"), max_length=5, choices=AreaKind, default=AreaKind.HOUSE)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("name_key", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["setup", "name_key"],
                condition=NOT_ENDED,
                name="area_name_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The set-up has an area of this name already."),
            ),
            not_empty("area_name_not_empty", "name_key", _("Write a name.")),
            one_of("area_kind_known", "kind", AreaKind),
            ends_with_reason("area_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        super().clean()
        if not self.corners:
            raise ValidationError({"corners": str(CORNER_PROBLEMS["too-few-corners"])})


class Blockage(Ref, Versioned, Ending, Outlined):
    """What keeps the lights of a position from a part of the house: a zone, pans, or only words.

    `place` is set where it stands in the way of that place alone; `only_for` is the reference of the one
    engagement whose scenery or speakers it is. Pans in degrees from straight upstage, positive toward stage left,
    from the first to the second clockwise seen from above.
    """

    position = models.ForeignKey(Position, on_delete=models.PROTECT, related_name="blockages")
    place = models.ForeignKey(Place, on_delete=models.PROTECT, null=True, blank=True, related_name="blockages")
    name = models.CharField(_("what is in the way"), max_length=120)
    pan_from_deg = number(_("pan from"), *PAN)
    pan_to_deg = number(_("pan to"), *PAN)
    noted_on = models.DateField(_("noted on"), null=True, blank=True)
    only_for = models.UUIDField(null=True, blank=True, editable=False)

    objects = OwnQuerySet.as_manager()

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.CheckConstraint(
                name="blockage_named",
                condition=~Q(name=""),
                violation_error_message=_("Write what is in the way."),
            ),
            pans_together("blockage_pans_together"),
            in_ranges("blockage_numbers_in_range", pan_from_deg=PAN, pan_to_deg=PAN),
            ends_with_reason("blockage_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        super().clean()
        if self.place and self.place.position_id != self.position_id:
            raise ValidationError({"place": gettext("Choose a place of this position.")})
