"""The road crew of an engagement."""

from datetime import datetime
from typing import Self

from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.models import AnonymousUser
from django.db import models
from django.utils.translation import gettext_lazy as _

from venue.models import Versioned


class RoadAccessQuerySet(models.QuerySet):
    """Who is with which show."""

    def in_force_for(self, user: AbstractBaseUser | AnonymousUser, now: datetime) -> Self:
        """The user's own that have not run out."""
        return self.filter(user=user.pk, user__is_active=True, until__gt=now)


class RoadAccess(Versioned):
    """A member of the road crew sees and changes one engagement, until an instant (not included)."""

    user = models.ForeignKey("venue.User", on_delete=models.PROTECT, related_name="road_access")
    engagement = models.ForeignKey("shows.Engagement", on_delete=models.PROTECT, related_name="road_access")
    until = models.DateTimeField(_("until"))

    objects = RoadAccessQuerySet.as_manager()

    class Meta:
        ordering = ("engagement", "user")
        constraints = (
            models.UniqueConstraint(
                fields=["user", "engagement"],
                name="road_access_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This person is with the show already."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.user}, {self.engagement}"
