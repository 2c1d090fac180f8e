"""Where follow spots stand: the named positions of a house."""

from datetime import datetime
from typing import Any, Self
from uuid import UUID

from django.core.validators import MaxValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from venue.core.names import name_key
from venue.fields import KeyField
from venue.models.base import (
    NOT_ENDED,
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
)
from venue.models.house import House
from venue.models.setups import Setup

LEVEL = (-100.0, 100.0)
ORDER = (0, 100_000)
ORDER_VALIDATORS = (MaxValueValidator(ORDER[1]),)


class Zone(models.TextChoices):
    FRONT = "front", _("front")
    SIDE = "side", _("side")
    REAR = "rear", _("rear")
    OVERHEAD = "overhead", _("overhead")
    BOWL = "bowl", _("bowl")


class OwnQuerySet(EndingQuerySet):
    """Rows of the house or, where `only_for` is set, of one engagement in it."""

    def of_house(self) -> Self:
        """Those that stay when the tour has left."""
        return self.filter(only_for__isnull=True)

    def open_to(self, engagement_ref: UUID) -> Self:
        """The house's own and those that the engagement brings."""
        return self.filter(Q(only_for__isnull=True) | Q(only_for=engagement_ref))

    def at(self, instant: datetime) -> Self:
        """Those that have not ended by the instant."""
        return self.filter(Q(ended_at__isnull=True) | Q(ended_at__gt=instant))


def unique_among_standing(fields: list[str], name: str, message: Any) -> list[models.UniqueConstraint]:
    """Unique among rows that have not ended: the house's own, and each engagement's own."""
    common: dict[str, Any] = {"violation_error_code": "already_exists", "violation_error_message": message}
    return [
        models.UniqueConstraint(
            fields=fields, condition=NOT_ENDED & Q(only_for__isnull=True), name=f"{name}_unique", **common
        ),
        models.UniqueConstraint(
            fields=[*fields, "only_for"],
            condition=NOT_ENDED & Q(only_for__isnull=False),
            name=f"{name}_unique_in_engagement",
            **common,
        ),
    ]


class Position(Ref, Versioned, Keyed, Ending):
    """A named location in the house: booth, rail, truss 2.

    `only_for` is the reference of the one engagement that brings the position, opaque here: two tours may
    each bring a "Truss 1". `row_order` is the house's order of its positions.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="positions")
    name = models.CharField(_("name"), max_length=80)
    name_key = KeyField(source="name", derive=name_key, max_length=160)
    kind = models.CharField(_("kind"), max_length=40, blank=True, help_text=_("Booth, rail, truss, tower."))
    zone = models.CharField(_("zone"), max_length=10, choices=Zone, default=Zone.FRONT)
    level = number(_("level"), *LEVEL)
    row_order = models.PositiveIntegerField(_("order in the house"), default=0, validators=ORDER_VALIDATORS)
    only_for = models.UUIDField(null=True, blank=True, editable=False)

    objects = OwnQuerySet.as_manager()

    class Meta:
        ordering = ("row_order", "pk")
        constraints = (
            *unique_among_standing(
                ["house", "name_key"], "position_name", _("The house has a position of this name already.")
            ),
            not_empty("position_name_not_empty", "name_key", _("Write a name.")),
            one_of("position_zone_known", "zone", Zone),
            in_ranges("position_numbers_in_range", level=LEVEL, row_order=ORDER),
            ends_with_reason("position_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name


class SetupZone(Versioned):
    """The zone of a position where a set-up changes it: an end-stage front is a bowl in the round."""

    setup = models.ForeignKey(Setup, on_delete=models.PROTECT, related_name="zones")
    position = models.ForeignKey(Position, on_delete=models.PROTECT, related_name="setup_zones")
    zone = models.CharField(_("zone"), max_length=10, choices=Zone)

    class Meta:
        ordering = ("setup", "position")
        constraints = (
            models.UniqueConstraint(
                fields=["setup", "position"],
                name="setup_zone_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This set-up has a zone for the position already."),
            ),
            one_of("setup_zone_known", "zone", Zone),
        )

    def __str__(self) -> str:
        return f"{self.setup}: {self.position}, {self.get_zone_display()}"
