"""What is on when in an engagement."""

from datetime import datetime

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from shows.models.engagements import Engagement
from venue.models import Ending, EndingQuerySet, Ref, Versioned
from venue.models.base import ends_with_reason, one_of


class EventKind(models.TextChoices):
    LOAD_IN = "load-in", _("load-in")
    FOCUS = "focus", _("focus")
    REHEARSAL = "rehearsal", _("rehearsal")
    SHOW = "show", _("show")
    LOAD_OUT = "load-out", _("load-out")


class ShowEvent(Ref, Versioned, Ending):
    """What is on when: the instants, and the wall times and the zone from which they were reckoned.

    The wall time is what people agreed on; `zone` is the house's when the event was made.
    """

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="events")
    kind = models.CharField(_("what"), max_length=10, choices=EventKind)
    name = models.CharField(_("name"), max_length=120, blank=True)
    starts_at = models.DateTimeField(editable=False)
    ends_at = models.DateTimeField(null=True, blank=True, editable=False)
    zone = models.CharField(max_length=60, editable=False)
    starts_date = models.DateField(_("day"))
    starts_time = models.TimeField(_("from"))
    ends_date = models.DateField(_("last day"), null=True, blank=True)
    ends_time = models.TimeField(_("until"), null=True, blank=True)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("starts_at", "pk")
        constraints = (
            one_of("show_event_kind_known", "kind", EventKind),
            models.CheckConstraint(
                name="show_event_ends_after_start",
                condition=Q(ends_at__isnull=True) | Q(ends_at__gt=F("starts_at")),
                violation_error_message=_("It ends before it starts. Write a later end."),
            ),
            models.CheckConstraint(
                name="show_event_end_all_or_none",
                condition=Q(ends_at__isnull=True, ends_date__isnull=True, ends_time__isnull=True)
                | Q(ends_at__isnull=False, ends_date__isnull=False, ends_time__isnull=False),
                violation_error_message=_("Write the day and the time of the end, or neither."),
            ),
            ends_with_reason("show_event_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.name or self.get_kind_display()}, {self.starts_wall:%Y-%m-%d %H:%M}"

    @property
    def starts_wall(self) -> datetime:
        """What the house's clocks show at the start."""
        return datetime.combine(self.starts_date, self.starts_time)

    @property
    def ends_wall(self) -> datetime | None:
        """What the house's clocks show at the end, if it is known."""
        if self.ends_date is None or self.ends_time is None:
            return None
        return datetime.combine(self.ends_date, self.ends_time)
