"""What happened on the day: who came when and left when, and the meals between."""

from typing import ClassVar

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from crew.models.calls import CallLine
from venue.guards import Guard, NoOverlap
from venue.models import Ending, EndingQuerySet, Ref, Versioned
from venue.models.base import ends_with_reason, one_of


class Absence(models.TextChoices):
    """Why somebody on a line worked none or only a part of it."""

    NO_SHOW = "no-show", _("did not come")
    SENT_HOME = "sent-home", _("was sent home")


class Attendance(Ref, Versioned):
    """When the person of a line signed in and out. A mistaken time is corrected; the history keeps both."""

    line = models.OneToOneField(CallLine, on_delete=models.PROTECT, related_name="attendance")
    in_at = models.DateTimeField(_("in"), null=True, blank=True)
    out_at = models.DateTimeField(_("out"), null=True, blank=True)
    absence = models.CharField(_("absence"), max_length=9, choices=Absence, blank=True)
    note = models.CharField(_("note"), max_length=200, blank=True)

    class Meta:
        ordering = ("line",)
        constraints = (
            one_of("attendance_absence_known", "absence", Absence, or_blank=True),
            models.CheckConstraint(
                name="attendance_in_before_out",
                condition=Q(out_at__isnull=True) | Q(in_at__isnull=False, out_at__gt=F("in_at")),
                violation_error_message=_("The time out is not after the time in. Write a later one."),
            ),
            models.CheckConstraint(
                name="attendance_who_did_not_come_has_no_times",
                condition=~Q(absence="no-show") | Q(in_at__isnull=True, out_at__isnull=True),
                violation_error_message=_("Somebody who signed in did come: take the times out first."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.line}: {self.line.person}"


class MealBreak(Ref, Versioned, Ending):
    """A meal of somebody on a call, until it ends fully relieved. One entered by mistake ends."""

    attendance = models.ForeignKey(Attendance, on_delete=models.PROTECT, related_name="meals")
    starts_at = models.DateTimeField(_("meal from"))
    ends_at = models.DateTimeField(_("meal until"), null=True, blank=True)

    objects = EndingQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (NoOverlap("meal_break_no_overlap", by="attendance"),)

    class Meta:
        ordering = ("starts_at", "pk")
        constraints = (
            models.CheckConstraint(
                name="meal_break_ends_after_start",
                condition=Q(ends_at__isnull=True) | Q(ends_at__gte=F("starts_at")),
                violation_error_message=_("The meal ends before it starts. Write a later end."),
            ),
            models.CheckConstraint(
                name="meal_break_mistaken_is_empty",
                condition=Q(ended_at__isnull=True) | Q(ends_at=F("starts_at")),
                violation_error_message=_("A meal that was entered by mistake has no length."),
            ),
            ends_with_reason("meal_break_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.attendance}, {self.starts_at:%Y-%m-%d %H:%M}"

    def clean(self) -> None:
        super().clean()
        came, left = self.attendance.in_at, self.attendance.out_at
        if came is None or self.starts_at < came or (left is not None and (self.ends_at or left) > left):
            raise ValidationError({"starts_at": gettext("A meal lies between the times in and out.")})
