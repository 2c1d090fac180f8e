"""What people decided for an engagement: which places are in use, and which way out was taken."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from shows.models.engagements import Engagement
from venue.models import Ending, EndingQuerySet, Place, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason, one_of


class PlaceUse(Versioned):
    """A person says whether a place is in use in the engagement; unsaid, it is where a unit stands there."""

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="place_uses")
    place = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="place_uses")
    in_use = models.BooleanField(_("in use"))

    class Meta:
        ordering = ("engagement", "place")
        constraints = (
            models.UniqueConstraint(
                fields=["engagement", "place"],
                name="place_use_unique",
                violation_error_code="already_exists",
                violation_error_message=_("Somebody said so at the same moment. Look again."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.engagement}: {self.place}"


class Way(models.TextChoices):
    TAPE = "tape", _("tape the lamps")
    MOVE = "move", _("move the operators")
    RENUMBER = "renumber", _("renumber the paperwork")


class Choice(Ref, Versioned, Ending):
    """The way out that was chosen where numbers and labels differ; it ends when another is chosen."""

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="choices")
    way = models.CharField(_("way"), max_length=8, choices=Way)
    chosen_by = models.CharField(_("chosen by"), max_length=100)
    chosen_at = models.DateTimeField(_("chosen"))

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("-chosen_at", "-pk")
        constraints = (
            one_of("choice_way_known", "way", Way),
            models.UniqueConstraint(
                fields=["engagement"],
                condition=NOT_ENDED,
                name="choice_unique",
                violation_error_code="already_exists",
                violation_error_message=_("Somebody chose at the same moment. Look again."),
            ),
            ends_with_reason("choice_ends_with_reason"),
        )

    def __str__(self) -> str:
        return str(self.get_way_display())
