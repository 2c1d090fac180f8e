"""Calls: who is to come when and where for an event of a show, and on which number."""

from datetime import datetime
from typing import ClassVar

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from crew.models.call_times import call_problems, own_problems
from crew.models.rosters import Person, Roster
from shows.models import Engagement, ShowEvent
from venue.core.labels import label_key, stored_sort_key
from venue.fields import KeyField
from venue.guards import Guard, NoOverlap
from venue.models import Ending, EndingQuerySet, Keyed, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason, one_of


class Call(Ref, Versioned, Ending):
    """The call for one event: the instants, and the wall times and the zone from which they were reckoned.

    `talk_*` is the spot talk, the briefing before the event; a call may have none. `ends_*` is when everybody is
    expected to be released, until when they are booked; `meal_*` when a meal is due, if one is planned.
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
    ends_at = models.DateTimeField(editable=False)
    ends_date = models.DateField(_("day of the expected end"))
    ends_time = models.TimeField(_("expected end"))
    meal_at = models.DateTimeField(null=True, blank=True, editable=False)
    meal_date = models.DateField(_("day of the meal"), null=True, blank=True)
    meal_time = models.TimeField(_("meal"), null=True, blank=True)
    weather = models.CharField(
        _("weather"), max_length=200, blank=True, help_text=_("For work outdoors: what is expected, what to bring.")
    )
    notes = models.CharField(_("notes for everybody"), max_length=1000, blank=True)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("call_at", "pk")
        indexes = (
            models.Index(fields=["call_at"], name="call_by_time"),
            models.Index(fields=["roster", "call_at"], name="call_by_roster"),
        )
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
            models.CheckConstraint(
                name="call_ends_after_call",
                condition=Q(ends_at__gt=F("call_at")),
                violation_error_message=_("It ends before the call time. Write a later end."),
            ),
            models.CheckConstraint(
                name="call_meal_all_or_none",
                condition=Q(meal_at__isnull=True, meal_date__isnull=True, meal_time__isnull=True)
                | Q(meal_at__isnull=False, meal_date__isnull=False, meal_time__isnull=False),
                violation_error_message=_("Write the day and the time of the meal, or neither."),
            ),
            models.CheckConstraint(
                name="call_meal_within_call",
                condition=Q(meal_at__isnull=True) | Q(meal_at__gte=F("call_at"), meal_at__lte=F("ends_at")),
                violation_error_message=_("The meal is outside the call. Write a time between the call and its end."),
            ),
            ends_with_reason("call_ends_with_reason"),
        )

    def __str__(self) -> str:
        return gettext("call for %(event)s") % {"event": self.event}

    def clean(self) -> None:
        super().clean()
        if self.event.engagement_id != self.engagement_id:
            raise ValidationError({"event": gettext("Choose an event of this show.")})
        problems = {} if self.has_ended else call_problems(self)
        if problems:
            raise ValidationError(problems)

    def is_over(self, now: datetime) -> bool:
        """Whether everybody was released by now, as was expected; one that was called off never took place."""
        return not self.has_ended and self.ends_at <= now

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

    @property
    def ends_wall(self) -> datetime:
        """What the house's clocks show when everybody is expected to be released."""
        return datetime.combine(self.ends_date, self.ends_time)

    @property
    def meal_wall(self) -> datetime | None:
        """What the house's clocks show when a meal is due, if one is planned."""
        if self.meal_date is None or self.meal_time is None:
            return None
        return datetime.combine(self.meal_date, self.meal_time)


class LineRole(models.TextChoices):
    """What somebody does on a call."""

    OPERATOR = "operator", _("spot operator")
    HEAD = "head", _("head spot")
    SPARE = "spare", _("spare")
    RUNNER = "runner", _("runner")


class CallLine(Ref, Versioned, Keyed, Ending):
    """One person wanted on a call, on a show number or, where `number` is empty, on one told at the spot talk.

    Without a person the line is still to fill. Several people may share the number of a team: `seat` counts
    them from 1. `own_*` is a call time of this line alone. From `starts_at` (included) to `ends_at` (not included)
    its person is booked; a line that ended or whose call is off books nobody: its span is empty. `follows` is the
    line whose person was replaced by this one's.
    """

    call = models.ForeignKey(Call, on_delete=models.PROTECT, related_name="lines")
    number = models.CharField(_("show number"), max_length=40, blank=True)
    number_key = KeyField(source="number", derive=label_key, max_length=80)
    sort_key = KeyField(source="number", derive=stored_sort_key, max_length=320)
    seat = models.PositiveSmallIntegerField(default=1)
    role = models.CharField(_("as"), max_length=8, choices=LineRole, default=LineRole.OPERATOR)
    person = models.ForeignKey(Person, on_delete=models.PROTECT, null=True, blank=True, related_name="call_lines")
    own_at = models.DateTimeField(null=True, blank=True, editable=False)
    own_date = models.DateField(_("day of the own call"), null=True, blank=True)
    own_time = models.TimeField(_("own call time"), null=True, blank=True)
    starts_at = models.DateTimeField(editable=False)
    ends_at = models.DateTimeField(editable=False)
    follows = models.OneToOneField("self", on_delete=models.PROTECT, null=True, blank=True, related_name="followed_by")

    objects = EndingQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (NoOverlap("call_line_no_overlap_by_person", by="person"),)

    class Meta:
        ordering = ("call", "sort_key", "seat", "pk")
        indexes = (models.Index(fields=["person", "starts_at"], name="call_line_by_person"),)
        constraints = (
            one_of("call_line_role_known", "role", LineRole),
            models.CheckConstraint(
                name="call_line_own_all_or_none",
                condition=Q(own_at__isnull=True, own_date__isnull=True, own_time__isnull=True)
                | Q(own_at__isnull=False, own_date__isnull=False, own_time__isnull=False),
                violation_error_message=_("Write the day and the time of the own call, or neither."),
            ),
            models.CheckConstraint(
                name="call_line_ends_after_start",
                condition=Q(ends_at__gte=F("starts_at")),
                violation_error_message=_("It ends before the call time. Write an earlier call."),
            ),
            models.CheckConstraint(
                name="call_line_ended_books_nobody",
                violation_error_message=_("A line that ended books nobody."),
                condition=Q(ended_at__isnull=True) | Q(ends_at=F("starts_at")),
            ),
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
            return gettext("at spot talk") if self.role == LineRole.OPERATOR else str(self.get_role_display())
        return gettext("show %(number)s") % {"number": self.number}

    def clean(self) -> None:
        super().clean()
        if self.person is not None and self.person.roster_id != self.call.roster_id:
            raise ValidationError({"person": gettext("Choose somebody of this roster.")})
        problems = {} if self.has_ended or self.call.has_ended else own_problems(self)
        if problems:
            raise ValidationError(problems)

    def book(self, call: Call) -> None:
        """Its span as the call has it; empty where the line or the call has ended. Still to be stored."""
        self.starts_at = self.own_at or call.call_at
        self.ends_at = self.starts_at if self.has_ended or call.has_ended else call.ends_at

    @property
    def own_wall(self) -> datetime | None:
        """What the house's clocks show at the own call time, if it has one."""
        if self.own_date is None or self.own_time is None:
            return None
        return datetime.combine(self.own_date, self.own_time)

    @property
    def zone(self) -> str:
        """The call's time zone, in which a refusal states times."""
        return self.call.zone
