"""Calls: who is to come when and where for an event of a show, and on which number."""

from datetime import datetime

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from crew.models.rosters import Person, Roster
from shows.models import Engagement, ShowEvent
from venue.core.labels import label_key, stored_sort_key
from venue.fields import KeyField
from venue.models import Ending, EndingQuerySet, Keyed, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason


class Call(Ref, Versioned, Ending):
    """The call for one event: the instants, and the wall times and the zone from which they were reckoned.

    `talk_*` is the spot talk, the briefing before the event; a call may have none.
    """

    roster = models.ForeignKey(Roster, on_delete=models.PROTECT, related_name="calls")
    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="calls")
    event = models.ForeignKey(ShowEvent, on_delete=models.PROTECT, related_name="calls")
    zone = models.CharField(max_length=60, editable=False)
    call_at = models.DateTimeField(editable=False)
    call_date = models.DateField(_("day of the call"))
    call_time = models.TimeField(_("call time"))
    place = models.CharField(_("where to come"), max_length=120, blank=True)
    talk_at = models.DateTimeField(null=True, blank=True, editable=False)
    talk_date = models.DateField(_("day of the spot talk"), null=True, blank=True)
    talk_time = models.TimeField(_("spot talk"), null=True, blank=True)
    talk_place = models.CharField(_("where the spot talk is"), max_length=120, blank=True)
    notes = models.CharField(_("notes for everybody"), max_length=1000, blank=True)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("call_at", "pk")
        indexes = (models.Index(fields=["call_at"], name="call_by_time"),)
        constraints = (
            models.UniqueConstraint(
                fields=["event", "roster"],
                condition=NOT_ENDED,
                name="call_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This roster has a call for the event already."),
            ),
            models.CheckConstraint(
                name="call_talk_all_or_none",
                condition=Q(talk_at__isnull=True, talk_date__isnull=True, talk_time__isnull=True)
                | Q(talk_at__isnull=False, talk_date__isnull=False, talk_time__isnull=False),
                violation_error_message=_("Write the day and the time of the spot talk, or neither."),
            ),
            models.CheckConstraint(
                name="call_talk_after_call",
                condition=Q(talk_at__isnull=True) | Q(talk_at__gte=F("call_at")),
                violation_error_message=_("The spot talk is before the call. Write a later time for it."),
            ),
            ends_with_reason("call_ends_with_reason"),
        )

    def __str__(self) -> str:
        return gettext("call for %(event)s") % {"event": self.event}

    def clean(self) -> None:
        super().clean()
        if self.event.engagement_id != self.engagement_id:
            raise ValidationError({"event": gettext("Choose an event of this show.")})

    @property
    def call_wall(self) -> datetime:
        """What the house's clocks show when the crew is to be there."""
        return datetime.combine(self.call_date, self.call_time)

    @property
    def talk_wall(self) -> datetime | None:
        """What the house's clocks show at the spot talk, if there is one."""
        if self.talk_date is None or self.talk_time is None:
            return None
        return datetime.combine(self.talk_date, self.talk_time)


class CallLine(Ref, Versioned, Keyed, Ending):
    """One operator of a call, on a show number or, where `number` is empty, on one told at the spot talk.

    Without a person the line is still to fill. Several people may share the number of a team: `seat` counts
    them from 1.
    """

    call = models.ForeignKey(Call, on_delete=models.PROTECT, related_name="lines")
    number = models.CharField(_("show number"), max_length=40, blank=True)
    number_key = KeyField(source="number", derive=label_key, max_length=80)
    sort_key = KeyField(source="number", derive=stored_sort_key, max_length=320)
    seat = models.PositiveSmallIntegerField(default=1)
    person = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, blank=True, related_name="call_lines")

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("call", "sort_key", "seat", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["call", "number_key", "seat"],
                condition=NOT_ENDED,
                name="call_line_number_unique",
                violation_error_code="already_exists",
                violation_error_message=_("Somebody is on this number already."),
            ),
            models.UniqueConstraint(
                fields=["call", "person"],
                condition=NOT_ENDED,
                name="call_line_person_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This person is on the call already."),
            ),
            ends_with_reason("call_line_ends_with_reason"),
        )

    def __str__(self) -> str:
        if not self.number_key:
            return gettext("at spot talk")
        return gettext("show %(number)s") % {"number": self.number}

    def clean(self) -> None:
        super().clean()
        if self.person is not None and self.person.roster_id != self.call.roster_id:
            raise ValidationError({"person": gettext("Choose somebody of this roster.")})
