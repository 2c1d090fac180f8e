"""Who was passed over where the referral list is strict, and why. Added to, never changed."""

from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from crew.models.calls import CallLine
from crew.models.rosters import Person
from venue.guards import AppendOnly, Guard
from venue.models.base import Kept


class PassedOver(Kept):
    """Somebody who came earlier on the list, and could have come, was not put on the line."""

    line = models.ForeignKey(CallLine, on_delete=models.PROTECT, related_name="passed_over")
    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="passed_over")
    reason = models.CharField(_("why"), max_length=200)
    at = models.DateTimeField()
    by = models.CharField(max_length=120)

    guards: ClassVar[tuple[Guard, ...]] = (AppendOnly("passed_over_append_only"),)

    class Meta:
        ordering = ("at", "pk")
        verbose_name_plural = "passed over"
        constraints = (
            models.CheckConstraint(
                name="passed_over_for_a_reason",
                condition=~Q(reason=""),
                violation_error_message=_("Write why somebody earlier on the list is passed over."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.person}: {self.line}"
