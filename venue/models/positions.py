"""Where follow spots stand: the named positions of a house."""

from datetime import datetime
from typing import Any, Self
from uuid import UUID

from django.core.validators import MaxValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from venue.core.names import name_key
from venue.core.ranges import GLASS_LOSS
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
from venue.models.house import House
from venue.models.setups import COORDINATE, Setup

LEVEL = (-100.0, 100.0)
ORDER = (0, 100_000)
ORDER_VALIDATORS = (MaxValueValidator(ORDER[1]),)
PASSAGE = (0.0, 50.0)
LOAD = (0.0, 100_000.0)
MINUTES = (0, 24 * 60)
LOSS_PCT = (0.0, 100 * GLASS_LOSS.hard[1])
SEATS = (0, 10_000)


class Zone(models.TextChoices):
    FRONT = "front", _("front")
    SIDE = "side", _("side")
    REAR = "rear", _("rear")
    OVERHEAD = "overhead", _("overhead")
    BOWL = "bowl", _("bowl")


class FallProtection(models.TextChoices):
    NONE = "none", _("none needed")
    RESTRAINT = "restraint", _("restraint: the edge can't be reached")
    HARNESS = "harness", _("full-body harness")


class Glass(models.TextChoices):
    OPEN = "open", _("open, no glass")
    SLIDING = "sliding", _("sliding pane")
    FIXED = "fixed", _("fixed glass")


class ShowExit(models.TextChoices):
    YES = "yes", _("yes")
    NO = "no", _("no")


class WhoMayOperate(models.TextChoices):
    HOUSE = "house", _("house staff only")
    LOCAL = "local", _("local crew")
    TOURING = "touring", _("touring crew allowed")


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


def _words(verbose_name: Any) -> models.CharField:
    return models.CharField(verbose_name, max_length=300, blank=True)


def _typed(verbose_name: Any) -> models.CharField:
    return models.CharField(verbose_name, max_length=40, blank=True)


class Position(Ref, Versioned, Keyed, Ending):
    """A named location in the house: booth, rail, truss 2.

    `only_for` is the reference of the one engagement that brings the position, opaque here: two tours may
    each bring a "Truss 1". `row_order` is the house's order of its positions. What is blank or None among the
    facts of getting there and working there is not recorded: it is never taken for "no". The view of its lights ends at
    `farthest_upstage_m` and `farthest_downstage_m`, upstage of the plaster line, and at two pans [degrees from straight
    upstage, positive toward stage left].
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="positions")
    name = models.CharField(_("name"), max_length=80)
    name_key = KeyField(source="name", derive=name_key, max_length=160)
    kind = models.CharField(_("kind"), max_length=40, blank=True, help_text=_("Booth, rail, truss, tower."))
    zone = models.CharField(_("zone"), max_length=10, choices=Zone, default=Zone.FRONT)
    level = number(_("level"), *LEVEL)
    row_order = models.PositiveIntegerField(_("order in the house"), default=0, validators=ORDER_VALIDATORS)
    access = _words(_("how to get there"))
    access_min = models.PositiveSmallIntegerField(
        _("minutes to get there"), null=True, blank=True, validators=(MaxValueValidator(MINUTES[1]),)
    )
    passage_m = number(_("narrowest passage on the way"), *PASSAGE)
    passage_text = models.CharField(_("passage as typed"), max_length=40, blank=True)
    load_limit_kg = number(_("load limit"), *LOAD)
    power = _words(_("power service"))
    power_switched_at = _words(_("where the power is switched off"))
    intercom = _words(_("intercom"))
    glass = models.CharField(_("glass"), max_length=8, choices=Glass, blank=True)
    glass_loss_pct = number(_("light lost in the glass, measured, percent"), *LOSS_PCT)
    other_load_kg = number(_("what else stands or hangs there"), *LOAD)
    seats_lost = models.PositiveSmallIntegerField(
        _("seats lost to it"), null=True, blank=True, validators=(MaxValueValidator(SEATS[1]),)
    )
    needs = _words(_("what else is needed there"))
    farthest_upstage_m = number(_("sees upstage as far as"), *COORDINATE)
    farthest_downstage_m = number(_("sees downstage as far as"), *COORDINATE)
    farthest_upstage_text, farthest_downstage_text = _typed(_("upstage as typed")), _typed(_("downstage as typed"))
    pan_from_deg = number(_("pans from"), *PAN)
    pan_to_deg = number(_("pans to"), *PAN)
    fall_protection = models.CharField(_("fall protection needed"), max_length=10, choices=FallProtection, blank=True)
    rescue_plan = models.TextField(_("rescue plan"), max_length=2000, blank=True)
    show_exit = models.CharField(_("a way out during the show"), max_length=3, choices=ShowExit, blank=True)
    show_exit_words = _words(_("the way out, in words"))
    who_may_operate = models.CharField(_("who may operate here"), max_length=8, choices=WhoMayOperate, blank=True)
    checked_on = models.DateField(_("checked on"), null=True, blank=True)
    checked_by = models.CharField(_("checked by"), max_length=100, blank=True)
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
            one_of("position_fall_protection_known", "fall_protection", FallProtection, or_blank=True),
            one_of("position_glass_known", "glass", Glass, or_blank=True),
            one_of("position_show_exit_known", "show_exit", ShowExit, or_blank=True),
            one_of("position_who_may_operate_known", "who_may_operate", WhoMayOperate, or_blank=True),
            models.CheckConstraint(
                name="position_checked_on_and_by",
                condition=Q(checked_on__isnull=True, checked_by="") | (Q(checked_on__isnull=False) & ~Q(checked_by="")),
                violation_error_message=_("Write both when the position was checked and by whom, or neither."),
            ),
            in_ranges(
                "position_numbers_in_range",
                level=LEVEL,
                row_order=ORDER,
                access_min=MINUTES,
                passage_m=PASSAGE,
                load_limit_kg=LOAD,
                glass_loss_pct=LOSS_PCT,
                other_load_kg=LOAD,
                seats_lost=SEATS,
                farthest_upstage_m=COORDINATE,
                farthest_downstage_m=COORDINATE,
                pan_from_deg=PAN,
                pan_to_deg=PAN,
            ),
            pans_together("position_pans_together"),
            models.CheckConstraint(
                name="position_sees_some_depth",
                condition=Q(farthest_upstage_m__isnull=True)
                | Q(farthest_downstage_m__isnull=True)
                | Q(farthest_downstage_m__lt=F("farthest_upstage_m")),
                violation_error_message=_("The farthest point downstage lies downstage of the farthest upstage."),
            ),
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
