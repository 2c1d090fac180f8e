"""What is wrong with a unit, and what that means for its use."""

from typing import Self

from django.db import models
from django.db.models import Case, F, Q, When
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from venue.models.base import Ref, Versioned, one_of
from venue.models.units import Unit


class Means(models.TextChoices):
    """What a fault means for use."""

    USABLE = "usable", _("usable, with a note")
    LIMITED = "limited", _("limited")
    OUT = "out", _("out of service")


class Danger(models.TextChoices):
    """Faults that keep a unit out of service until a named person closes them."""

    INTERLOCK = "interlock", _("interlock bypassed")
    GLASS = "glass", _("cracked heat or UV glass")
    GROUND = "ground", _("no ground, or a frayed lead")
    CABLE = "cable", _("safety cable missing")
    LAMP = "lamp", _("lamp past its end of life")


class Limit(models.TextChoices):
    """What the unit can't do."""

    FRAMES = "frames", _("frames out")
    BLACKOUT = "blackout", _("no full blackout")
    IRIS = "iris", _("fixed iris")
    CAMERA = "camera", _("not on camera")
    SHUTTERS = "shutters", _("shutters taped")
    OTHER = "other", _("something else")


class FaultQuerySet(models.QuerySet):
    """Faults by whether they stand."""

    def standing(self) -> Self:
        """Those that nobody closed."""
        return self.filter(closed_at__isnull=True)

    def by_gravity(self) -> Self:
        """Dangers first, then what stops a unit, what limits it, and notes; the latest first among them."""
        stops = When(means=Means.OUT, then=1)
        gravity = Case(When(~Q(danger=""), then=0), stops, When(means=Means.LIMITED, then=2), default=3)
        return self.order_by(gravity, "-opened_at", "-pk")


class Fault(Ref, Versioned):
    """A fault of a unit's part from when it was seen until a log entry closed it.

    `frames_out` lists frame numbers ("2, 4") where the limit is `frames`; `limit` says the limit in own words,
    such as the size of a fixed iris. A danger means out of service.
    """

    unit = models.ForeignKey(Unit, on_delete=models.PROTECT, related_name="faults")
    part = models.CharField(_("part"), max_length=80, blank=True)
    means = models.CharField(_("for use it means"), max_length=8, choices=Means)
    danger = models.CharField(_("danger"), max_length=10, choices=Danger, blank=True)
    limit_kind = models.CharField(_("the limit"), max_length=10, choices=Limit, blank=True)
    frames_out = models.CharField(_("frames that are out"), max_length=60, blank=True)
    limit = models.CharField(_("the limit in words"), max_length=2000, blank=True)
    opened_at = models.DateTimeField(_("seen"))
    opened_by = models.CharField(_("seen by"), max_length=120, blank=True)
    closed_at = models.DateTimeField(_("closed"), null=True, blank=True, editable=False)
    closed_by = models.CharField(_("closed by"), max_length=120, blank=True, editable=False)
    closing = models.ForeignKey(
        "venue.LogEntry", on_delete=models.PROTECT, null=True, blank=True, editable=False, related_name="closes"
    )

    objects = FaultQuerySet.as_manager()

    class Meta:
        ordering = ("opened_at", "pk")
        indexes = (models.Index(fields=["unit"], name="fault_standing", condition=Q(closed_at__isnull=True)),)
        constraints = (
            one_of("fault_means_known", "means", Means),
            one_of("fault_danger_known", "danger", Danger, or_blank=True),
            one_of("fault_limit_known", "limit_kind", Limit, or_blank=True),
            models.CheckConstraint(
                name="fault_danger_is_out",
                condition=Q(danger="") | Q(means="out"),
                violation_error_message=_("With this danger the unit is out of service."),
            ),
            models.CheckConstraint(
                name="fault_limited_says_how",
                condition=~Q(means="limited") | ~Q(limit_kind="") | ~Q(limit=""),
                violation_error_message=_("Say what the unit can't do."),
            ),
            models.CheckConstraint(
                name="fault_danger_closed_by_name",
                condition=Q(danger="") | Q(closed_at__isnull=True) | ~Q(closed_by=""),
                violation_error_message=_("Write who closes it: a danger is closed by a named person."),
            ),
            models.CheckConstraint(
                name="fault_closes_after_it_opens",
                condition=Q(closed_at__isnull=True) | Q(closed_at__gte=F("opened_at")),
                violation_error_message=_("It is closed before it was seen. Write a later time."),
            ),
        )

    def __str__(self) -> str:
        return gettext("%(unit)s, %(part)s") % {"unit": self.unit, "part": self.part or self.get_means_display()}
