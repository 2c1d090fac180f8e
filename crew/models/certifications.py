"""What somebody is certified for, until when, and days on which somebody does not work."""

from datetime import date
from typing import Self

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from crew.models.rosters import Person, Roster
from venue.core.names import name_key
from venue.fields import KeyField
from venue.models import Ending, EndingQuerySet, House, Keyed, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason, not_empty, one_of


class NeededFor(models.TextChoices):
    """Which work asks for a certification; a kind that none of these asks for is only noted."""

    CLIMB = "climb", _("positions with fall protection: climb and harness")
    LIFT = "lift", _("positions on a lift or platform")
    ARC_LAMP = "arc-lamp", _("units with an arc lamp")
    HOUSE = "house", _("every call in a house: its orientation")


class CertificationKind(Ref, Versioned, Keyed, Ending):
    """A kind of certification that a roster keeps.

    `is_required`: nobody without it may be put on work that asks for it; otherwise that is told and no more.
    """

    roster = models.ForeignKey(Roster, on_delete=models.PROTECT, related_name="certification_kinds")
    name = models.CharField(_("name"), max_length=80)
    name_key = KeyField(source="name", derive=name_key, max_length=160)
    needed_for = models.CharField(_("asked for by"), max_length=8, choices=NeededFor, blank=True)
    is_required = models.BooleanField(
        _("nobody works there without it"),
        default=False,
        help_text=_("Otherwise dispatch is told who lacks it, and decides."),
    )

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["roster", "name_key"],
                condition=NOT_ENDED,
                name="certification_kind_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The roster has a certification of this name already."),
            ),
            not_empty("certification_kind_name_not_empty", "name_key", _("Write a name.")),
            one_of("certification_kind_needed_for_known", "needed_for", NeededFor, or_blank=True),
            ends_with_reason("certification_kind_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name


class CertificationQuerySet(EndingQuerySet):
    """Certifications by day."""

    def valid_on(self, day: date) -> Self:
        """Those that have not expired by the day; the last day counts."""
        return self.standing().filter(Q(expires_on__isnull=True) | Q(expires_on__gte=day))


class Certification(Ref, Versioned, Ending):
    """Somebody holds a certification, in one house where it is an orientation. `expires_on` is its last day."""

    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="certifications")
    kind = models.ForeignKey(CertificationKind, on_delete=models.PROTECT, related_name="certifications")
    house = models.ForeignKey(House, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    expires_on = models.DateField(
        _("valid through"), null=True, blank=True, help_text=_("Its last day; none: for good.")
    )

    objects = CertificationQuerySet.as_manager()

    class Meta:
        ordering = ("person", "kind", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["person", "kind"],
                condition=NOT_ENDED & Q(house__isnull=True),
                name="certification_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This certification is on file already: change its last day."),
            ),
            models.UniqueConstraint(
                fields=["person", "kind", "house"],
                condition=NOT_ENDED & Q(house__isnull=False),
                name="certification_unique_in_house",
                violation_error_code="already_exists",
                violation_error_message=_("This certification is on file for the house already: change its last day."),
            ),
            ends_with_reason("certification_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.person}, {self.kind}"

    def clean(self) -> None:
        super().clean()
        if self.kind.roster_id != self.person.roster_id:
            raise ValidationError({"kind": gettext("Choose a certification that this roster keeps.")})
        if (self.kind.needed_for == NeededFor.HOUSE) != (self.house_id is not None):
            raise ValidationError(
                {"house": gettext("An orientation is of one house, any other certification of none.")}
            )


class DaysOff(Ref, Versioned, Ending):
    """Days on which somebody does not work, by the calendar, both ends included."""

    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="days_off")
    first_day = models.DateField(_("first day off"))
    last_day = models.DateField(_("last day off"))
    words = models.CharField(_("note"), max_length=120, blank=True)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("first_day", "pk")
        constraints = (
            models.CheckConstraint(
                name="days_off_end_after_start",
                condition=Q(last_day__gte=F("first_day")),
                violation_error_message=_("The last day is before the first. Write a later one."),
            ),
            ends_with_reason("days_off_end_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.person}, {self.first_day:%Y-%m-%d}–{self.last_day:%Y-%m-%d}"
