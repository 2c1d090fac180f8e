"""What was done to the units, what is to be done when, and how much light they gave."""

from decimal import Decimal
from typing import Any, ClassVar, Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from venue.core.names import name_key
from venue.fields import KeyField
from venue.models.base import (
    Ending,
    EndingQuerySet,
    Ref,
    Versioned,
    ends_with_reason,
    hour_count,
    in_ranges,
    number,
    one_of,
)
from venue.models.house import House
from venue.models.lamps import Fitting
from venue.models.meters import Entry, StruckQuerySet, struck_with_reason
from venue.models.units import Unit

LUX = (0.0, 10_000_000.0)
DISTANCE = (0.1, 500.0)
MAX_BYTES = 5 * 1024 * 1024


class LogKind(models.TextChoices):
    """What was done."""

    CLEAN = "clean", _("clean")
    ALIGN = "align", _("align")
    RELAMP = "relamp", _("relamp")
    REPAIR = "repair", _("repair")
    INSPECT = "inspect", _("inspect")
    TEST = "electrical-test", _("electrical test")
    LIGHT = "light-reading", _("light reading")
    OTHER = "other", _("something else")


class LogQuerySet(StruckQuerySet):
    """Log entries by what is left to say."""

    def to_answer(self) -> Self:
        """Relamps whose questions are still open."""
        return self.counting().filter(is_open=True)


class LogEntry(Entry, Versioned):
    """What was done to a unit, or to something that is no unit (`accessory`), when and by whom.

    `meter_h` is what the unit's meter showed. A relamp stays open until its questions are answered: was the
    supply isolated, the lamp house cool, the person protected, the lamp aligned? None: not answered.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="log", db_index=False)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, null=True, blank=True, related_name="log", db_index=False)
    accessory = models.CharField(_("what, if it is no unit"), max_length=80, blank=True)
    at = models.DateTimeField(_("done"))
    kind = models.CharField(_("what was done"), max_length=16, choices=LogKind)
    by = models.CharField(_("by"), max_length=120, blank=True)
    text = models.CharField(_("in words"), max_length=2000, blank=True)
    meter_h = hour_count(_("meter showed"), null=True, blank=True)
    parts = models.CharField(_("parts"), max_length=300, blank=True)
    before_lux = number(_("light before"), *LUX)
    after_lux = number(_("light after"), *LUX)
    fitting = models.ForeignKey(Fitting, on_delete=models.PROTECT, null=True, editable=False, related_name="log")
    is_open = models.BooleanField(default=False, editable=False)
    is_isolated = models.BooleanField(_("the supply was isolated"), null=True, blank=True)
    is_cooled = models.BooleanField(_("the lamp house was cool"), null=True, blank=True)
    is_protected = models.BooleanField(_("face, hands and body were protected"), null=True, blank=True)
    is_aligned = models.BooleanField(_("the new lamp is aligned"), null=True, blank=True)

    objects: ClassVar[Any] = LogQuerySet.as_manager()

    class Meta:
        ordering = ("at", "pk")
        indexes = (
            models.Index(fields=["house", "at"], name="log_by_house"),
            models.Index(fields=["unit", "at"], name="log_by_unit"),
            models.Index(fields=["house"], name="log_open", condition=Q(is_open=True)),
        )
        constraints = (
            one_of("log_kind_known", "kind", LogKind),
            models.CheckConstraint(
                name="log_about_a_unit_or_an_accessory",
                condition=Q(unit__isnull=False, accessory="") | (Q(unit__isnull=True) & ~Q(accessory="")),
                violation_error_message=_("Choose a unit, or write what it was if it was no unit."),
            ),
            models.CheckConstraint(
                name="log_only_a_relamp_stays_open",
                condition=Q(is_open=False) | Q(kind="relamp"),
                violation_error_message=_("Only a relamp waits for answers."),
            ),
            in_ranges("log_light_in_range", before_lux=LUX, after_lux=LUX),
            struck_with_reason("log_struck_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {self.unit or self.accessory}"


class Attachment(Ref):
    """A picture or a page that belongs to a log entry, kept as it came."""

    entry = models.ForeignKey(LogEntry, on_delete=models.PROTECT, related_name="attachments")
    name = models.CharField(max_length=120)
    content_type = models.CharField(max_length=40)
    size = models.PositiveIntegerField(validators=(MaxValueValidator(MAX_BYTES),))
    content = models.BinaryField()
    added_at = models.DateTimeField(default=timezone.now)
    added_by = models.CharField(max_length=120, blank=True)

    class Meta:
        ordering = ("added_at", "pk")

    def __str__(self) -> str:
        return self.name

    @property
    def is_picture(self) -> bool:
        return self.content_type.startswith("image/")


class Covers(models.TextChoices):
    """For what a care plan is."""

    UNIT = "unit", _("one unit")
    SOURCE = "source", _("all units of one source")
    ALL = "all", _("all units")
    ACCESSORY = "accessory", _("something that is no unit")


class CarePlan(Ref, Versioned, Ending):
    """What is to be done every so many lamp hours or days, whichever comes first."""

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="care_plans")
    what = models.CharField(_("what to do"), max_length=120)
    covers = models.CharField(_("for"), max_length=10, choices=Covers)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, null=True, blank=True, related_name="care_plans")
    source = models.CharField(_("source"), max_length=40, blank=True)
    accessory = models.CharField(_("what, if it is no unit"), max_length=80, blank=True)
    every_h = hour_count(
        _("every so many lamp hours"), null=True, blank=True, validators=(MinValueValidator(Decimal(1)),)
    )
    every_days = models.PositiveIntegerField(
        _("every so many days"), null=True, blank=True, validators=(MinValueValidator(1), MaxValueValidator(3660))
    )
    log_kind = models.CharField(_("goes into the log as"), max_length=16, choices=LogKind, default=LogKind.INSPECT)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("what", "pk")
        constraints = (
            one_of("care_plan_covers_known", "covers", Covers),
            one_of("care_plan_log_kind_known", "log_kind", LogKind),
            models.CheckConstraint(
                name="care_plan_hours_or_days",
                condition=Q(every_h__isnull=False) | Q(every_days__isnull=False),
                violation_error_message=_("Write after how many lamp hours or days it is due."),
            ),
            models.CheckConstraint(
                name="care_plan_names_what_it_covers",
                condition=(Q(covers="unit", unit__isnull=False, source="", accessory=""))
                | (Q(covers="source", unit__isnull=True, accessory="") & ~Q(source=""))
                | Q(covers="all", unit__isnull=True, source="", accessory="")
                | (Q(covers="accessory", unit__isnull=True, source="", every_h__isnull=True) & ~Q(accessory="")),
                violation_error_message=_("Choose the unit or the source, or write what it is. Hours are for units."),
            ),
            ends_with_reason("care_plan_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.what


class CareItemQuerySet(models.QuerySet):
    """What is due, by whether it still is."""

    def standing(self) -> Self:
        """Those whose plan goes on."""
        return self.filter(ended_at__isnull=True)


class CareItem(Ref, Versioned):
    """One plan for one unit (None: an accessory's): when it was done last, and when it is due.

    `due_on` is derived by `venue.care` from the days and, by the unit's use, from the hours; `due_h` are unit
    hours. A tap records it done by the log entry `entry`: the item ends and the next one begins, so that striking
    out the entry leads back.
    """

    plan = models.ForeignKey(CarePlan, on_delete=models.PROTECT, related_name="items")
    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="+", db_index=False)
    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, null=True, related_name="care_items")
    entry = models.ForeignKey(LogEntry, on_delete=models.PROTECT, null=True, editable=False, related_name="care_items")
    last_done_at = models.DateTimeField(null=True)
    last_done_h = hour_count(_("unit hours when last done"), null=True)
    due_on = models.DateField(null=True)
    due_h = hour_count(_("due at unit hours"), null=True)
    ended_at = models.DateTimeField(null=True)

    objects = CareItemQuerySet.as_manager()

    class Meta:
        ordering = ("due_on", "pk")
        indexes = (
            models.Index(fields=["house", "due_on"], name="care_item_by_due", condition=Q(ended_at__isnull=True)),
        )
        constraints = (
            models.UniqueConstraint(
                fields=["plan", "unit"],
                condition=Q(ended_at__isnull=True),
                name="care_item_once_a_unit",
                violation_error_message=_("The plan has an item for this unit already."),
            ),
            models.UniqueConstraint(
                fields=["plan"],
                condition=Q(ended_at__isnull=True, unit__isnull=True),
                name="care_item_once_an_accessory",
                violation_error_message=_("The plan has an item for this already."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.plan}: {self.unit or self.plan.accessory}"


class LightReading(Entry):
    """Illuminance on the axis [lx] at a named distance [m] and setting; candela follow from both."""

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="light_readings", db_index=False)
    entry = models.ForeignKey(LogEntry, on_delete=models.PROTECT, null=True, related_name="light_readings")
    at = models.DateTimeField(_("measured"))
    lux = number(_("light"), *LUX, default=0.0)
    distance_m = number(_("at a distance of"), *DISTANCE, default=1.0)
    distance_text = models.CharField(_("distance as typed"), max_length=40, blank=True)
    setting = models.CharField(
        _("setting"), max_length=80, help_text=_("Iris open, flat field, no color: the same each time.")
    )
    setting_key = KeyField(source="setting", derive=name_key, max_length=160)

    class Meta:
        ordering = ("at", "pk")
        indexes = (
            models.Index(fields=["unit", "at"], name="light_reading_by_unit"),
            models.Index(fields=["setting_key", "at"], name="light_reading_by_setting"),
        )
        constraints = (
            in_ranges("light_reading_in_range", lux=LUX, distance_m=DISTANCE),
            struck_with_reason("light_reading_struck_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.lux:g} lx"

    @property
    def candela(self) -> float:
        """Luminous intensity on the axis [cd], by the inverse square."""
        return self.lux * self.distance_m**2
