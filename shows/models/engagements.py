"""A show in a house for some days: its set-up and what it brings."""

from datetime import datetime
from typing import Self

from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Exists, F, OuterRef, Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from shows.models.road import RoadAccess
from venue.models import (
    Ending,
    EndingQuerySet,
    House,
    HouseMembership,
    Place,
    Position,
    Ref,
    Setup,
    Versioned,
)
from venue.models.base import NOT_ENDED, ends_with_reason, one_of
from venue.models.memberships import Role
from venue.models.units import FrameOneEnd


class EngagementQuerySet(EndingQuerySet):
    """Engagements by who may see them."""

    def seen_by(self, user: AbstractBaseUser | AnonymousUser, now: datetime) -> Self:
        """Those in the user's houses, and those whose road crew the user belongs to now.

        `may_write` tells each whether the user may change it: the house head and the road crew may.
        """
        memberships = HouseMembership.objects.in_force_for(user).filter(house=OuterRef("house"))
        road = RoadAccess.objects.in_force_for(user, now).filter(engagement=OuterRef("pk"))
        seen = self.annotate(
            is_member=Exists(memberships),
            may_write=Exists(memberships.filter(role=Role.HEAD)) | Exists(road),
        )
        return seen.filter(Q(is_member=True) | Q(may_write=True))


class Engagement(Ref, Versioned, Ending):
    """A show in a house from one day to another, in one of the house's set-ups.

    `statement` is how the paperwork says that its numbers run, in its own words; `earlier` is the visit, here or in
    another house, that it was copied from.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="engagements")
    setup = models.ForeignKey(Setup, on_delete=models.PROTECT, related_name="engagements")
    name = models.CharField(_("show"), max_length=120)
    starts_on = models.DateField(_("first day"))
    ends_on = models.DateField(_("last day"))
    statement = models.CharField(_("how its numbers run"), max_length=1000, blank=True)
    on_camera = models.BooleanField(_("on camera"), null=True, blank=True)
    frame_1_end = models.CharField(
        _("its frame 1 is at"),
        max_length=4,
        choices=FrameOneEnd,
        blank=True,
        help_text=_("As the show counts its frames. Each unit has its own end on file."),
    )
    caller = models.CharField(_("who calls the spots, and from where"), max_length=120, blank=True)
    earlier = models.ForeignKey(
        "self", on_delete=models.PROTECT, null=True, blank=True, editable=False, related_name="later"
    )

    may_write: bool
    """Whether a visitor may change the engagement; set on rows of `seen_by` only."""

    objects = EngagementQuerySet.as_manager()

    class Meta:
        ordering = ("starts_on", "name", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["house", "name", "starts_on"],
                condition=NOT_ENDED,
                name="engagement_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The house has this show from that day already."),
            ),
            models.CheckConstraint(
                name="engagement_ends_after_start",
                condition=Q(ends_on__gte=F("starts_on")),
                violation_error_message=_("The last day is before the first. Write a later one."),
            ),
            one_of("engagement_frame_1_end_known", "frame_1_end", FrameOneEnd, or_blank=True),
            ends_with_reason("engagement_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        super().clean()
        if self.setup_id and self.house_id and self.setup.house_id != self.house_id:
            raise ValidationError({"setup": gettext("Choose a set-up of this house.")})


class EngagementPosition(models.Model):
    """A position that one engagement brings and takes away: tour truss, tower, lift."""

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="own_positions")
    position = models.OneToOneField(Position, on_delete=models.PROTECT, related_name="+")

    def __str__(self) -> str:
        return f"{self.engagement}: {self.position}"


class EngagementPlace(models.Model):
    """A place of one engagement in a position of the house: a floor stand beside the booth's own."""

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="own_places")
    place = models.OneToOneField(Place, on_delete=models.PROTECT, related_name="+")

    def __str__(self) -> str:
        return f"{self.engagement}: {self.place}"
