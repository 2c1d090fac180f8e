"""Rosters, the houses that they serve, the persons on them, who dispatches. No weight or height is kept."""

from typing import Self

from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.models import AnonymousUser
from django.db import models
from django.utils.translation import gettext_lazy as _

from venue.models import Ending, EndingQuerySet, House, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason


class RosterQuerySet(models.QuerySet):
    """Rosters by who may see them."""

    def of_dispatcher(self, user: AbstractBaseUser | AnonymousUser) -> Self:
        """Those that the user dispatches."""
        return self.filter(pk__in=DispatchMembership.objects.in_force_for(user).values("roster"))


class Roster(Ref, Versioned):
    """The people that one dispatch office calls. It serves one house or several."""

    name = models.CharField(_("name"), max_length=120)

    objects = RosterQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")

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


class Person(Ref, Versioned, Ending):
    """Somebody on a roster who works calls. Two may share a name."""

    roster = models.ForeignKey(Roster, on_delete=models.PROTECT, related_name="persons")
    name = models.CharField(_("name"), max_length=120)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("name", "pk")
        constraints = (ends_with_reason("person_ends_with_reason"),)

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
