"""Rosters, the houses that they serve, the persons on them, who dispatches. No weight or height is kept."""

from typing import Self

from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.models import AnonymousUser
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from venue.models import Ending, EndingQuerySet, House, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason, in_ranges, one_of


class RosterQuerySet(models.QuerySet):
    """Rosters by who may see them."""

    def of_dispatcher(self, user: AbstractBaseUser | AnonymousUser) -> Self:
        """Those that the user dispatches."""
        return self.filter(pk__in=DispatchMembership.objects.in_force_for(user).values("roster"))


class ReferralOrder(models.TextChoices):
    """In which order people are asked, where nothing else tells them apart."""

    ALPHABET = "alphabet", _("by the alphabet")
    SENIORITY = "seniority", _("by seniority")
    SKILL = "skill", _("by skill")


MINUTES = (0, 48 * 60)
ON_THE_LIST = (1, 100_000)
GRADES = (1, 9)


class Roster(Ref, Versioned):
    """The people that one dispatch office calls. It serves one house or several.

    `rest_min` between two calls and `late_after_min` past the call time are minutes; their defaults, 8 hours and
    half an hour, are common practice, no source. Where the list is strict, passing somebody over takes a reason.
    """

    name = models.CharField(_("name"), max_length=120)
    referral_order = models.CharField(
        _("people are asked"), max_length=9, choices=ReferralOrder, default=ReferralOrder.ALPHABET
    )
    is_strict = models.BooleanField(
        _("the order is strict"),
        default=False,
        help_text=_("Passing somebody over then takes a reason, which is kept."),
    )
    late_tell = models.CharField(
        _("who is told by somebody who is late"),
        max_length=200,
        blank=True,
        help_text=_("Printed on every call sheet: a desk and its number, nobody's own."),
    )
    rest_min = models.PositiveSmallIntegerField(
        _("turnaround, minutes of rest between two calls"), default=480, validators=(MaxValueValidator(MINUTES[1]),)
    )
    late_after_min = models.PositiveSmallIntegerField(
        _("late after, minutes"), default=30, validators=(MaxValueValidator(MINUTES[1]),)
    )

    objects = RosterQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")
        constraints = (
            one_of("roster_referral_order_known", "referral_order", ReferralOrder),
            in_ranges("roster_minutes_in_range", rest_min=MINUTES, late_after_min=MINUTES),
        )

    def __str__(self) -> str:
        return self.name


class RosterHouse(Versioned, Ending):
    """The roster serves the house."""

    roster = models.ForeignKey(Roster, on_delete=models.PROTECT, related_name="roster_houses")
    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="roster_houses")

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("roster", "house")
        constraints = (
            models.UniqueConstraint(
                fields=["roster", "house"],
                condition=NOT_ENDED,
                name="roster_house_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The roster serves this house already."),
            ),
            ends_with_reason("roster_house_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.roster}, {self.house}"


class Experience(models.TextChoices):
    """On follow spots."""

    NONE = "none", _("none yet")
    SOME = "some", _("some shows")
    LEAD = "lead", _("has led")


class Person(Ref, Versioned, Ending):
    """Somebody on a roster who works calls. Two may share a name.

    `phone` and `email` are for dispatch alone; they never enter the history and are emptied when the person is
    forgotten. `seniority` is the place on the list, 1 the longest; `skill` a grade of the roster's own, 1 the best.
    """

    roster = models.ForeignKey(Roster, on_delete=models.PROTECT, related_name="persons")
    name = models.CharField(_("name"), max_length=120)
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    email = models.EmailField(_("e-mail"), max_length=200, blank=True)
    experience = models.CharField(_("on follow spots"), max_length=4, choices=Experience, blank=True)
    units_known = models.CharField(
        _("units known"), max_length=300, blank=True, help_text=_("Tags or kinds of units, with commas between.")
    )
    seniority = models.PositiveIntegerField(
        _("place on the list"), null=True, blank=True, validators=(MinValueValidator(1), MaxValueValidator(100_000))
    )
    skill = models.PositiveSmallIntegerField(
        _("grade"),
        null=True,
        blank=True,
        validators=(MinValueValidator(1), MaxValueValidator(9)),
        help_text=_("From 1, the best, to 9."),
    )
    notes = models.CharField(_("notes"), max_length=1000, blank=True)
    forgotten_at = models.DateTimeField(_("forgotten"), null=True, blank=True, editable=False)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")
        indexes = (models.Index(fields=["roster", "name"], name="person_by_name"),)
        constraints = (
            one_of("person_experience_known", "experience", Experience, or_blank=True),
            in_ranges("person_numbers_in_range", seniority=ON_THE_LIST, skill=GRADES),
            models.CheckConstraint(
                name="person_forgotten_without_contact",
                condition=Q(forgotten_at__isnull=True) | Q(ended_at__isnull=False, phone="", email="", notes=""),
                violation_error_message=_("Somebody who is forgotten has left the roster and keeps no contact."),
            ),
            ends_with_reason("person_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name


class DispatchQuerySet(EndingQuerySet):
    """Who dispatches which roster."""

    def in_force_for(self, user: AbstractBaseUser | AnonymousUser) -> Self:
        """The user's own, none if the user may not sign in any more."""
        return self.standing().filter(user=user.pk, user__is_active=True)


class DispatchMembership(Versioned, Ending):
    """A user who fills the calls of a roster."""

    user = models.ForeignKey("venue.User", on_delete=models.PROTECT, related_name="dispatch")
    roster = models.ForeignKey(Roster, on_delete=models.PROTECT, related_name="dispatch")

    objects = DispatchQuerySet.as_manager()

    class Meta:
        ordering = ("roster", "user")
        constraints = (
            models.UniqueConstraint(
                fields=["user", "roster"],
                condition=NOT_ENDED,
                name="dispatch_membership_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This person dispatches the roster already."),
            ),
            ends_with_reason("dispatch_membership_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.user}, {self.roster}"
