"""What is still open with the tour before it comes: what, by whom, by when."""

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shows.models.engagements import Engagement
from venue.models import Ending, EndingQuerySet, Ref, Versioned
from venue.models.base import ends_with_reason, one_of


class OwedBy(models.TextChoices):
    HOUSE = "house", _("the house")
    TOUR = "tour", _("the tour")


class AdvanceItem(Ref, Versioned, Ending):
    """Something to be agreed with the tour. Done when somebody says so, with name and time."""

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="advance_items")
    what = models.CharField(_("what is open"), max_length=200)
    owed_by = models.CharField(_("by whom"), max_length=5, choices=OwedBy)
    due_on = models.DateField(_("by when"), null=True, blank=True)
    answer = models.CharField(_("the answer"), max_length=500, blank=True)
    done_at = models.DateTimeField(_("done"), null=True, blank=True, editable=False)
    done_by = models.CharField(_("done by"), max_length=100, blank=True, editable=False)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("due_on", "pk")
        constraints = (
            one_of("advance_item_owed_by_known", "owed_by", OwedBy),
            models.CheckConstraint(
                name="advance_item_says_what",
                condition=~Q(what=""),
                violation_error_message=_("Write what is open."),
            ),
            models.CheckConstraint(
                name="advance_item_done_by_somebody",
                condition=Q(done_at__isnull=True, done_by="") | (Q(done_at__isnull=False) & ~Q(done_by="")),
                violation_error_message=_("Write who did it."),
            ),
            ends_with_reason("advance_item_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.what
