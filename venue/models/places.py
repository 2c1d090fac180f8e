"""The places in a position, each for one unit."""

from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from venue.core.labels import label_key, stored_sort_key
from venue.core.ranges import HEIGHT_M, THROW_M
from venue.fields import KeyField
from venue.models.base import Ending, Keyed, Ref, Versioned, ends_with_reason, in_ranges, not_empty, number, one_of
from venue.models.circuits import Circuit
from venue.models.positions import ORDER, ORDER_VALIDATORS, OwnQuerySet, Position, unique_among_standing
from venue.models.setups import BEARING, COORDINATE

HEIGHT, THROW = HEIGHT_M.hard, THROW_M.hard
"""Of a lens above the stage deck, and of a follow spot's light [m]: what lies outside was mistyped."""


class ThrowEnd(models.TextChoices):
    """To which point a throw is told; a throw without it says nothing."""

    LIP = "lip", _("the lip of the stage")
    CURTAIN = "curtain", _("the curtain line")
    PLASTER = "plaster", _("the plaster line")
    CENTER = "center", _("center stage")
    MARK = "mark", _("a mark of our own")


def _typed(verbose_name: Any) -> models.CharField:
    return models.CharField(verbose_name, max_length=40, blank=True)


class Place(Ref, Versioned, Keyed, Ending):
    """A place for one unit in a position, under the label painted there.

    It carries the lens in meters (x_m, y_m, z_m, in the frame of `Setup`), or a bearing, or only its order:
    1 is nearest house left in its position, in a bowl clockwise from the stage end. The `_text` columns keep
    what was typed (142' 6"). The throw goes from the lens to `throw_end` on the center line, which lies
    `throw_end_y_m` upstage of the plaster line. `operated_from` is where the operator of a remote-run unit is.
    """

    position = models.ForeignKey(Position, on_delete=models.PROTECT, related_name="places")
    label = models.CharField(_("label"), max_length=40)
    label_key = KeyField(source="label", derive=label_key, max_length=80)
    sort_key = KeyField(source="label", derive=stored_sort_key, max_length=320)
    x_m = number(_("x"), *COORDINATE)
    y_m = number(_("y"), *COORDINATE)
    z_m = number(_("z"), *COORDINATE)
    x_text, y_text, z_text = _typed(_("x as typed")), _typed(_("y as typed")), _typed(_("z as typed"))
    throw_m = number(_("throw"), *THROW)
    throw_text = _typed(_("throw as typed"))
    throw_end = models.CharField(_("throw to"), max_length=8, choices=ThrowEnd, blank=True)
    throw_mark = models.CharField(_("the mark, in words"), max_length=60, blank=True)
    throw_end_y_m = number(_("that point, upstage of the plaster line"), *COORDINATE)
    throw_end_text = _typed(_("that point as typed"))
    bearing_deg = number(_("bearing"), *BEARING)
    row_order = models.PositiveIntegerField(_("order"), null=True, blank=True, validators=ORDER_VALIDATORS)
    operated_from = models.ForeignKey("self", on_delete=models.PROTECT, null=True, blank=True, related_name="operates")
    circuit = models.ForeignKey(Circuit, on_delete=models.PROTECT, null=True, blank=True, related_name="places")
    only_for = models.UUIDField(null=True, blank=True, editable=False)

    objects = OwnQuerySet.as_manager()

    class Meta:
        ordering = ("position__row_order", "position", "sort_key", "pk")
        constraints = (
            *unique_among_standing(
                ["position", "label_key"], "place_label", _("The position has a place of this label already.")
            ),
            not_empty("place_label_not_empty", "label_key", _("Write a label with at least one letter or digit.")),
            models.CheckConstraint(
                name="place_coordinates_all_or_none",
                condition=Q(x_m__isnull=True, y_m__isnull=True, z_m__isnull=True)
                | Q(x_m__isnull=False, y_m__isnull=False, z_m__isnull=False),
                violation_error_message=_("Write x, y and z, or none of them."),
            ),
            one_of("place_throw_end_known", "throw_end", ThrowEnd, or_blank=True),
            models.CheckConstraint(
                name="place_throw_with_its_end",
                condition=Q(throw_m__isnull=True, throw_end="") | (Q(throw_m__isnull=False) & ~Q(throw_end="")),
                violation_error_message=_("Say to which point the throw goes: a throw without it says nothing."),
            ),
            in_ranges(
                "place_numbers_in_range",
                throw_m=THROW,
                throw_end_y_m=COORDINATE,
                x_m=COORDINATE,
                y_m=COORDINATE,
                z_m=COORDINATE,
                bearing_deg=BEARING,
                row_order=ORDER,
            ),
            models.CheckConstraint(
                name="place_operated_from_elsewhere",
                condition=Q(operated_from__isnull=True) | ~Q(operated_from=F("pk")),
                violation_error_message=_("A place that is run from itself needs no other place."),
            ),
            ends_with_reason("place_ends_with_reason"),
        )

    def clean(self) -> None:
        super().clean()
        if self.operated_from and self.operated_from.position.house_id != self.position.house_id:
            raise ValidationError({"operated_from": gettext("Choose a place of this house.")})
        if self.circuit and self.circuit.house_id != self.position.house_id:
            raise ValidationError({"circuit": gettext("Choose a circuit of this house.")})

    def __str__(self) -> str:
        return gettext("%(position)s, place %(label)s") % {"position": self.position, "label": self.label}
