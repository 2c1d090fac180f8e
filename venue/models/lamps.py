"""Lamps as things of their own: what kinds the house uses, each lamp by its serial, and where it was fitted."""

from decimal import Decimal
from typing import Any, ClassVar, Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Exists, F, OuterRef, Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from venue.core.names import name_key
from venue.fields import KeyField
from venue.guards import AppendOnly, Guard, NoOverlap
from venue.models.base import (
    Ending,
    EndingQuerySet,
    Keyed,
    Ref,
    Versioned,
    ends_with_reason,
    hour_count,
    in_ranges,
    not_empty,
    number,
    one_of,
)
from venue.models.house import House
from venue.models.meters import Reading
from venue.models.units import Unit

RATED_H = (1.0, 100_000.0)
SHARE = (0.01, 2.0)
MINUTES = (0.0, 1440.0)
MAX_COUNT = 10_000


def _minutes(verbose_name: Any) -> models.FloatField:
    return number(verbose_name, *MINUTES)


def _count(verbose_name: Any) -> models.PositiveIntegerField:
    return models.PositiveIntegerField(verbose_name, default=0, validators=(MaxValueValidator(MAX_COUNT),))


class LampKind(Ref, Versioned, Keyed, Ending):
    """A kind of lamp that the house uses, with its life and its waits, and the spares on the shelf.

    `warn_at` and `stop_at` are shares of `rated_h` [h]. Waits in minutes; None: the maker's is not recorded.
    `run_down_min` is how long the fan runs on, `restrike_min` how long to wait before striking again,
    `opening_min` before opening the lamp house; `least_burn_min` how long it burns at least before it is put
    out, `longest_burn_min` how long a trimmed carbon arc lasts. `spares` are those without a serial on file.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="lamp_kinds")
    name = models.CharField(_("name"), max_length=80)
    name_key = KeyField(source="name", derive=name_key, max_length=160)
    source = models.CharField(_("source"), max_length=40, blank=True)
    rated_h = number(_("rated hours"), *RATED_H)
    warn_at = number(_("warn at, share of the rated hours"), *SHARE, default=0.8)
    stop_at = number(_("stop at, share of the rated hours"), *SHARE, default=1.0)
    warm_up_min = _minutes(_("warm-up"))
    run_down_min = _minutes(_("fan runs on"))
    restrike_min = _minutes(_("wait before striking again"))
    opening_min = _minutes(_("wait before opening"))
    least_burn_min = _minutes(_("burn at least"))
    longest_burn_min = _minutes(_("longest burn of one trim"))
    spares = _count(_("spares on the shelf without a serial on file"))
    on_order = _count(_("on order"))
    lead_days = models.PositiveIntegerField(
        _("days from order to delivery"), null=True, blank=True, validators=(MaxValueValidator(1000),)
    )
    keep_at_least = models.PositiveIntegerField(
        _("keep at least"), null=True, blank=True, validators=(MaxValueValidator(MAX_COUNT),)
    )

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("name_key", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["house", "name_key"],
                name="lamp_kind_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The house has a lamp kind of this name already."),
            ),
            not_empty("lamp_kind_name_not_empty", "name_key", _("Write a name.")),
            in_ranges(
                "lamp_kind_numbers_in_range",
                rated_h=RATED_H,
                warn_at=SHARE,
                stop_at=SHARE,
                warm_up_min=MINUTES,
                run_down_min=MINUTES,
                restrike_min=MINUTES,
                opening_min=MINUTES,
                least_burn_min=MINUTES,
                longest_burn_min=MINUTES,
            ),
            models.CheckConstraint(
                name="lamp_kind_warns_before_stop",
                condition=Q(warn_at__lte=F("stop_at")),
                violation_error_message=_("The warning comes no later than the stop. Write a smaller share."),
            ),
            ends_with_reason("lamp_kind_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name

    @property
    def warn_h(self) -> Decimal | None:
        """Lamp hours from which it is warned of; None where no rated hours are on file."""
        return self._share(self.warn_at)

    @property
    def stop_h(self) -> Decimal | None:
        """Lamp hours at which it is to come out; None where no rated hours are on file."""
        return self._share(self.stop_at)

    def _share(self, share: float) -> Decimal | None:
        return None if self.rated_h is None else Decimal(str(round(self.rated_h * share, 2)))


class LampQuerySet(EndingQuerySet):
    """Lamps by where they are."""

    def on_shelf(self) -> Self:
        """Those that are neither fitted nor gone."""
        fitted = Fitting.objects.still_open().filter(lamp=OuterRef("pk"))
        return self.standing().filter(~Exists(fitted))


class Lamp(Ref, Versioned, Keyed, Ending):
    """One lamp, by its serial. `came_with_h` are hours that it had burned before it came into the book."""

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="lamps")
    kind = models.ForeignKey(LampKind, on_delete=models.PROTECT, related_name="lamps")
    serial = models.CharField(_("serial"), max_length=80)
    serial_key = KeyField(source="serial", derive=name_key, max_length=160)
    came_with_h = hour_count(_("hours that it came with"), default=Decimal(0))
    came_with_strikes = models.PositiveIntegerField(_("strikes that it came with"), default=0)

    objects = LampQuerySet.as_manager()

    class Meta:
        ordering = ("serial_key", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["house", "serial_key"],
                name="lamp_serial_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The house has a lamp of this serial already."),
            ),
            not_empty("lamp_serial_not_empty", "serial_key", _("Write a serial.")),
            models.CheckConstraint(
                name="lamp_came_with_hours",
                condition=Q(came_with_h__gte=0),
                violation_error_message=_("Hours are never below zero."),
            ),
            ends_with_reason("lamp_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.serial


class Fate(models.TextChoices):
    """What became of a lamp that was taken out."""

    SHELF = "shelf", _("back on the shelf")
    SPENT = "spent", _("spent: put into its closed sleeve for disposal")
    BROKEN = "broken", _("broken or burst")
    RETURNED = "returned", _("sent back to its maker")


class FittingQuerySet(models.QuerySet):
    """Fittings by time."""

    def still_open(self) -> Self:
        """Those whose lamp is in its unit."""
        return self.filter(until_at__isnull=True)

    def real(self) -> Self:
        """All but those that were taken back, whose span is empty."""
        return self.exclude(until_at=F("from_at"))


class Fitting(Ref, Versioned):
    """A lamp in a unit from `from_at` until `until_at` (None: still in it).

    The readings at both ends belong to the unit's meter; None in a unit without one.
    """

    lamp = models.ForeignKey(Lamp, on_delete=models.PROTECT, related_name="fittings")
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="fittings")
    from_at = models.DateTimeField(_("fitted"))
    until_at = models.DateTimeField(_("taken out"), null=True, blank=True)
    from_reading = models.ForeignKey(Reading, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    until_reading = models.ForeignKey(Reading, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    reason = models.CharField(_("why it was fitted"), max_length=200, blank=True)
    out_reason = models.CharField(_("why it was taken out"), max_length=200, blank=True)
    fate = models.CharField(_("what became of it"), max_length=10, choices=Fate, blank=True)

    objects = FittingQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (
        NoOverlap("fitting_no_overlap_by_lamp", by="lamp", starts="from_at", ends="until_at"),
        NoOverlap("fitting_no_overlap_by_unit", by="unit", starts="from_at", ends="until_at"),
    )

    class Meta:
        ordering = ("from_at", "pk")
        constraints = (
            models.CheckConstraint(
                name="fitting_ends_after_start",
                condition=Q(until_at__isnull=True) | Q(until_at__gte=F("from_at")),
                violation_error_message=_("It is taken out before it was fitted. Write a later time."),
            ),
            one_of("fitting_fate_known", "fate", Fate, or_blank=True),
            models.CheckConstraint(
                name="fitting_out_all_or_none",
                condition=Q(until_at__isnull=False) | Q(until_reading__isnull=True, fate="", out_reason=""),
                violation_error_message=_("Say when it was taken out."),
            ),
        )

    def __str__(self) -> str:
        return gettext("lamp %(lamp)s in %(unit)s") % {"lamp": self.lamp, "unit": self.unit}

    @property
    def zone(self) -> str:
        """The house's time zone, in which a refusal states times."""
        return self.unit.house.time_zone


class LampDecision(Ref):
    """A named person's decision to burn a lamp past its stop, with the maker's source. Never changed.

    It holds until `until_h` lamp hours.
    """

    lamp = models.ForeignKey(Lamp, on_delete=models.PROTECT, related_name="decisions")
    at = models.DateTimeField(_("decided"))
    by = models.CharField(_("decided by"), max_length=120)
    makers_source = models.CharField(_("what the maker says, and where"), max_length=300)
    reason = models.CharField(_("why"), max_length=300)
    until_h = hour_count(_("until lamp hours"), validators=(MinValueValidator(Decimal(0)),))

    guards: ClassVar[tuple[Guard, ...]] = (AppendOnly("lamp_decision_append_only"),)

    class Meta:
        ordering = ("at", "pk")
        constraints = (
            models.CheckConstraint(
                name="lamp_decision_has_name_and_source",
                condition=~Q(by="") & ~Q(makers_source="") & ~Q(reason=""),
                violation_error_message=_("Write who decides, why, and where the maker says so."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.lamp}: {self.until_h}"


class LampTally(models.Model):
    """What the readings add up to for one lamp: derived by `venue.tallies`, never edited.

    `left_h` is the stop less the hours, negative past it; None where the kind has no rated hours. `unit` is
    where the lamp is fitted now. `counted_to` is the last reading's instant.
    """

    lamp = models.OneToOneField(Lamp, on_delete=models.PROTECT, primary_key=True, related_name="tally")
    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="+", db_index=False)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, null=True, related_name="+")
    hours = hour_count(_("lamp hours"))
    strikes = models.PositiveIntegerField(null=True)
    left_h = hour_count(_("hours left"), null=True)
    counted_to = models.DateTimeField(null=True)

    class Meta:
        indexes = (
            models.Index(fields=["house", "left_h"], name="lamp_tally_by_left", condition=Q(unit__isnull=False)),
        )

    def __str__(self) -> str:
        return f"{self.lamp_id}: {self.hours}"
