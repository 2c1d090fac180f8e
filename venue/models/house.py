"""Houses."""

from datetime import time
from typing import Any, ClassVar, Self

from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.models import AnonymousUser
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from venue.guards import Guard, Unchanging
from venue.models.base import Ref, Versioned, one_of
from venue.validators import validate_time_zone


class UnitSystem(models.TextChoices):
    IMPERIAL = "imperial", _("feet and foot-candles")
    METRIC = "metric", _("meters and lux")


def _minutes(verbose_name: Any, default: int, low: int, high: int) -> models.PositiveSmallIntegerField:
    within = (MinValueValidator(low), MaxValueValidator(high))
    return models.PositiveSmallIntegerField(verbose_name, default=default, validators=within)


class HouseQuerySet(models.QuerySet):
    """Houses by who may see them."""

    def of_member(self, user: AbstractBaseUser | AnonymousUser) -> Self:
        """Those that the user heads or reads. Being staff or a superuser opens none."""
        own = Q(memberships__user=user.pk, memberships__user__is_active=True, memberships__ended_at__isnull=True)
        return self.filter(own)


class House(Ref, Versioned):
    """A theater or arena. Its slug stands in addresses and never changes."""

    name = models.CharField(_("name"), max_length=120)
    slug = models.SlugField(_("short name in addresses"), max_length=60)
    time_zone = models.CharField(
        _("time zone"), max_length=60, default="America/New_York", validators=[validate_time_zone]
    )
    unit_system = models.CharField(_("units"), max_length=10, choices=UnitSystem, default=UnitSystem.IMPERIAL)
    day_turns_at = models.TimeField(
        _("the day turns at"),
        default=time(5),
        help_text=_("Until then, after midnight, “tonight” is still last night's show."),
    )

    burn_before_min = _minutes(_("lamps burn from so many minutes before an event"), 30, 0, 600)
    usual_event_min = _minutes(_("minutes of an event whose end is not on file"), 180, 1, 1440)
    use_window_days = models.PositiveSmallIntegerField(
        _("past days that tell the usual use"), default=28, validators=(MinValueValidator(1), MaxValueValidator(366))
    )

    tech_note = models.TextField(
        _("what a tour should know"),
        max_length=2000,
        blank=True,
        help_text=_("Stands on the technical sheet. Name nobody here."),
    )

    objects = HouseQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (Unchanging("house_slug_unchanging", "slug"),)

    class Meta:
        ordering = ("name", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["slug"],
                name="house_slug_unique",
                violation_error_code="already_exists",
                violation_error_message=_("Another house has this short name. Choose another."),
            ),
            one_of("house_unit_system_known", "unit_system", UnitSystem),
        )

    def __str__(self) -> str:
        return self.name
