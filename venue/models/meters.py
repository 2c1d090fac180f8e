"""Hour meters, what was read on them, and hours added where none stands."""

from decimal import Decimal
from typing import Any, ClassVar, Self

from django.db import models
from django.db.models import F, Q
from django.utils import timezone
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from venue.guards import Guard, NoOverlap
from venue.models.base import Ref, Versioned, hour_count, one_of
from venue.models.house import House
from venue.models.units import Unit


class Counts(models.TextChoices):
    """What makes a meter run."""

    LAMP = "lamp", _("hours of the lamp")
    POWER = "power", _("hours of the power")


class MeterQuerySet(models.QuerySet):
    """Meters by time."""

    def still_open(self) -> Self:
        return self.filter(ends_at__isnull=True)


class Meter(Ref, Versioned):
    """An hour meter on a unit from `starts_at`, when it showed `starts_h`, until `ends_at` (None: still there).

    A meter that is reset ends, and another starts at what it shows then.
    """

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="meters")
    counts = models.CharField(_("counts"), max_length=5, choices=Counts, default=Counts.LAMP)
    starts_at = models.DateTimeField(_("from"))
    ends_at = models.DateTimeField(_("until"), null=True, blank=True)
    starts_h = hour_count(_("shows at the start"), default=Decimal(0))
    note = models.CharField(_("why it was put there"), max_length=200, blank=True)

    objects = MeterQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (NoOverlap("meter_no_overlap_by_unit", by="unit"),)

    class Meta:
        ordering = ("starts_at", "pk")
        constraints = (
            one_of("meter_counts_known", "counts", Counts),
            models.CheckConstraint(
                name="meter_ends_after_start",
                condition=Q(ends_at__isnull=True) | Q(ends_at__gte=F("starts_at")),
                violation_error_message=_("It ends before it starts. Write a later end."),
            ),
            models.CheckConstraint(
                name="meter_starts_at_zero_or_more",
                condition=Q(starts_h__gte=0),
                violation_error_message=_("Hours are never below zero."),
            ),
        )

    def __str__(self) -> str:
        return gettext("meter of %(unit)s") % {"unit": self.unit}

    @property
    def zone(self) -> str:
        """The house's time zone, in which a refusal states times."""
        return self.unit.house.time_zone


class Cause(models.TextChoices):
    """How a reading came into the book."""

    BOOTH = "booth", _("from the booth")
    FORM = "form", _("typed in")
    FILE = "file", _("from a file")
    FITTING = "fitting", _("at a relamp")
    METER = "meter", _("as the meter was replaced")


class StruckQuerySet(models.QuerySet):
    """Entries, of which some were struck out."""

    def counting(self) -> Self:
        """Those that were not struck out."""
        return self.filter(struck_at__isnull=True)


class Entry(Ref):
    """Something written into the book: by whom and when; struck out with a reason if it was a mistake."""

    entered_at = models.DateTimeField(default=timezone.now, editable=False)
    entered_by = models.CharField(max_length=120, blank=True, editable=False)
    struck_at = models.DateTimeField(null=True, editable=False)
    struck_by = models.CharField(max_length=120, blank=True, editable=False)
    struck_reason = models.CharField(max_length=200, blank=True, editable=False)

    objects: ClassVar[Any] = StruckQuerySet.as_manager()

    class Meta:
        abstract = True

    @property
    def is_struck(self) -> bool:
        return self.struck_at is not None


def struck_with_reason(name: str) -> models.CheckConstraint:
    """An entry has a reason exactly if it was struck out."""
    return models.CheckConstraint(
        name=name,
        condition=Q(struck_at__isnull=True, struck_reason="") | (Q(struck_at__isnull=False) & ~Q(struck_reason="")),
        violation_error_message=_("Say why it is struck out."),
    )


class Reading(Entry):
    """What a meter showed at an instant. `strikes` counts since the meter started, where somebody counts them.

    That a meter never runs backward is kept by the verbs under a lock on the meter, since no row can tell.
    """

    meter = models.ForeignKey(Meter, on_delete=models.PROTECT, related_name="readings", db_index=False)
    at = models.DateTimeField(_("read at"))
    hours = hour_count(_("meter shows"))
    strikes = models.PositiveIntegerField(_("strikes so far"), null=True, blank=True)
    cause = models.CharField(max_length=8, choices=Cause, default=Cause.FORM)

    class Meta:
        ordering = ("at", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["meter", "at"],
                condition=Q(struck_at__isnull=True),
                name="reading_once_an_instant",
                violation_error_code="already_exists",
                violation_error_message=_("The meter was read at this time already."),
            ),
            one_of("reading_cause_known", "cause", Cause),
            models.CheckConstraint(
                name="reading_zero_or_more",
                condition=Q(hours__gte=0),
                violation_error_message=_("Hours are never below zero."),
            ),
            struck_with_reason("reading_struck_with_reason"),
        )
        indexes = (models.Index(fields=["meter", "-at"], name="reading_by_meter"),)

    def __str__(self) -> str:
        return f"{self.hours} h"


class HoursAdded(Entry):
    """Hours that a unit burned without a meter to tell them, up to an instant; strikes likewise."""

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="hours_added", db_index=False)
    at = models.DateTimeField(_("until"))
    hours = hour_count(_("hours"))
    strikes = models.PositiveIntegerField(_("strikes"), null=True, blank=True)
    why = models.CharField(_("from what"), max_length=200, blank=True)

    class Meta:
        ordering = ("at", "pk")
        constraints = (
            models.CheckConstraint(
                name="hours_added_more_than_none",
                condition=Q(hours__gt=0),
                violation_error_message=_("Write more than zero hours."),
            ),
            struck_with_reason("hours_added_struck_with_reason"),
        )
        indexes = (models.Index(fields=["unit", "at"], name="hours_added_by_unit"),)

    def __str__(self) -> str:
        return f"{self.hours} h"


class UnitTally(models.Model):
    """What the readings add up to for one unit: derived by `venue.tallies`, never edited.

    `hours` and `strikes` run over all meters and hours added; `meter_h` is what the meter showed last, at
    `counted_to`; `meter_h` is None without a meter.
    """

    unit = models.OneToOneField(Unit, on_delete=models.PROTECT, primary_key=True, related_name="tally")
    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="+")
    hours = hour_count(_("unit hours"))
    strikes = models.PositiveIntegerField(null=True)
    meter_h = hour_count(_("meter shows"), null=True)
    counted_to = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"{self.unit_id}: {self.hours}"
