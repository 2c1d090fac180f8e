"""What somebody decided where a show and the house do not fit."""

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shows.models.engagements import Engagement
from shows.models.spots import ShowSpot
from venue.fields import BinaryCharField
from venue.models import Ending, EndingQuerySet, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason


class Decision(Ref, Versioned, Ending):
    """A finding of the fit that a named person decided: what is done instead, and why.

    `code` is the finding's kind, `about` what tells it from others of its kind on the same spot (a frame, a lamp).
    `facts` is the finding's own fingerprint when it was decided: it counts only as long as the finding is that one.
    `way` is what is done, by its code; `reason` in words.
    """

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="decisions")
    spot = models.ForeignKey(ShowSpot, on_delete=models.PROTECT, null=True, blank=True, related_name="decisions")
    code = models.CharField(max_length=40)
    about = models.CharField(max_length=200, blank=True)
    facts = BinaryCharField(max_length=64)
    way = models.CharField(_("what is done"), max_length=40)
    reason = models.CharField(_("why"), max_length=500)
    decided_by = models.CharField(_("decided by"), max_length=100)
    decided_at = models.DateTimeField(_("decided"))

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("-decided_at", "-pk")
        constraints = (
            models.UniqueConstraint(
                fields=["spot", "code", "about"],
                condition=NOT_ENDED & Q(spot__isnull=False),
                name="decision_unique_on_spot",
                violation_error_code="already_exists",
                violation_error_message=_("Somebody decided this at the same moment. Look again."),
            ),
            models.UniqueConstraint(
                fields=["engagement", "code", "about"],
                condition=NOT_ENDED & Q(spot__isnull=True),
                name="decision_unique_on_show",
                violation_error_code="already_exists",
                violation_error_message=_("Somebody decided this at the same moment. Look again."),
            ),
            models.CheckConstraint(
                name="decision_by_somebody_for_a_reason",
                condition=~Q(decided_by="") & ~Q(reason="") & ~Q(way=""),
                violation_error_message=_("Write what is done, why, and who decides."),
            ),
            ends_with_reason("decision_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.code}: {self.way}"
