"""How a roster's calls usually look, by what is on."""

from typing import Any

from django.core.validators import MaxValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from crew.models.rosters import Roster
from shows.models.events import EventKind
from venue.core.names import name_key
from venue.fields import KeyField
from venue.models import Ending, EndingQuerySet, Keyed, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason, in_ranges, not_empty, one_of

MINUTES = (0, 24 * 60)
PEOPLE = (0, 60)


def _minutes(words: Any, **options: Any) -> models.PositiveSmallIntegerField:
    return models.PositiveSmallIntegerField(words, validators=(MaxValueValidator(MINUTES[1]),), **options)


def _people(words: Any) -> models.PositiveSmallIntegerField:
    return models.PositiveSmallIntegerField(words, validators=(MaxValueValidator(PEOPLE[1]),), default=0)


class CallTemplate(Ref, Versioned, Keyed, Ending):
    """What a new call of a roster begins with. Times count from the event's start, the end from its end."""

    roster = models.ForeignKey(Roster, on_delete=models.PROTECT, related_name="call_templates")
    name = models.CharField(_("name"), max_length=80)
    name_key = KeyField(source="name", derive=name_key, max_length=160)
    event_kind = models.CharField(_("for"), max_length=10, choices=EventKind, blank=True)
    call_before_min = _minutes(_("call, minutes before"), default=90)
    talk_before_min = _minutes(_("spot talk, minutes before"), null=True, blank=True)
    ends_after_min = _minutes(_("released, minutes after its end"), default=30)
    meal_after_min = _minutes(_("meal, minutes after the call"), null=True, blank=True)
    place = models.CharField(_("where to come"), max_length=120, blank=True)
    talk_place = models.CharField(_("where the spot talk is"), max_length=120, blank=True)
    notes = models.CharField(_("notes for everybody"), max_length=1000, blank=True)
    head_spots = _people(_("head spots"))
    spares = _people(_("spares"))
    runners = _people(_("runners"))

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["roster", "name_key"],
                condition=NOT_ENDED,
                name="call_template_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The roster has a template of this name already."),
            ),
            not_empty("call_template_name_not_empty", "name_key", _("Write a name.")),
            one_of("call_template_event_kind_known", "event_kind", EventKind, or_blank=True),
            in_ranges(
                "call_template_numbers_in_range",
                call_before_min=MINUTES,
                talk_before_min=MINUTES,
                ends_after_min=MINUTES,
                meal_after_min=MINUTES,
                head_spots=PEOPLE,
                spares=PEOPLE,
                runners=PEOPLE,
            ),
            models.CheckConstraint(
                name="call_template_talk_after_call",
                condition=Q(talk_before_min__isnull=True) | Q(talk_before_min__lte=models.F("call_before_min")),
                violation_error_message=_("The spot talk is before the call. Write fewer minutes for it."),
            ),
            ends_with_reason("call_template_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name
