"""Who may see or run a house."""

from typing import Self

from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.models import AnonymousUser
from django.db import models
from django.utils.translation import gettext_lazy as _

from venue.models.base import NOT_ENDED, Ending, EndingQuerySet, Versioned, ends_with_reason, one_of
from venue.models.house import House


class Role(models.TextChoices):
    HEAD = "head", _("head")
    READER = "reader", _("reader")


class MembershipQuerySet(EndingQuerySet):
    """Who is with which house."""

    def in_force_for(self, user: AbstractBaseUser | AnonymousUser) -> Self:
        """The user's own, none if the user may not sign in any more."""
        return self.standing().filter(user=user.pk, user__is_active=True)


class HouseMembership(Versioned, Ending):
    """A user who may see a house (reader) or run it (head)."""

    user = models.ForeignKey("venue.User", on_delete=models.PROTECT, related_name="memberships")
    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="memberships")
    role = models.CharField(_("role"), max_length=8, choices=Role)

    objects = MembershipQuerySet.as_manager()

    class Meta:
        ordering = ("house", "user")
        constraints = (
            models.UniqueConstraint(
                fields=["user", "house"],
                condition=NOT_ENDED,
                name="membership_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This person is with the house already."),
            ),
            one_of("membership_role_known", "role", Role),
            ends_with_reason("membership_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.user}, {self.get_role_display()}, {self.house}"
