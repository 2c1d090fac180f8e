"""Show spots: the lights by the numbers that the caller says, and the places that they are bound to."""

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from shows.models.engagements import Engagement
from venue.core.labels import label_key, stored_sort_key
from venue.fields import KeyField
from venue.models import Ending, EndingQuerySet, Keyed, Place, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason, in_ranges, not_empty, one_of
from venue.models.optics import SizeName
from venue.validators import validate_finite

LUX = (0.0, 1e7)


def _words(verbose_name: Any, max_length: int = 80) -> models.CharField:
    return models.CharField(verbose_name, max_length=max_length, blank=True)


class GelBy(models.TextChoices):
    """Who brings the color."""

    SHOW = "show", _("the show")
    HOUSE = "house", _("the house")


class ShowSpot(Ref, Versioned, Keyed, Ending):
    """One show number and what the paperwork asks of it, in the paperwork's own words.

    `frames` lists what frame 1, 2, … hold, empty text for an empty frame; several colors in one frame are joined by
    "+". What nobody said is None or empty, never "no". `sizes` are usual sizes that the number is called for;
    `matches` is the number that it has to match. What the paperwork has no column for stays when new paperwork comes.
    """

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="spots")
    number = models.CharField(_("show number"), max_length=40)
    number_key = KeyField(source="number", derive=label_key, max_length=80)
    sort_key = KeyField(source="number", derive=stored_sort_key, max_length=320)
    house_label = _words(_("house label"))
    position_words = _words(_("position"))
    side = _words(_("side"))
    nth = _words(_("which from that side"))
    whose_left = _words(_("whose left"))
    frames = models.JSONField(_("frames"), default=list, blank=True)
    channel = _words(_("headset channel"))
    pick_up = _words(_("pick-up"), 200)
    least_lux = models.FloatField(
        _("least light"), null=True, blank=True, validators=(validate_finite, MinValueValidator(LUX[0]))
    )
    notes = _words(_("notes"), 1000)
    home = _words(_("home pick-up"), 200)
    sizes = models.JSONField(_("sizes"), default=list, blank=True)
    matches = _words(_("has to match show number"), 40)
    gel_by = models.CharField(_("who brings the color"), max_length=5, choices=GelBy, blank=True)
    on_camera = models.BooleanField(_("on camera"), null=True, blank=True)
    full_blackout = models.BooleanField(_("needs a full blackout"), null=True, blank=True)
    strip_out = models.BooleanField(_("needs a strip cut out by the shutters"), null=True, blank=True)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("engagement", "sort_key", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["engagement", "number_key"],
                condition=NOT_ENDED,
                name="show_spot_number_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The show has this number already."),
            ),
            not_empty("show_spot_number_not_empty", "number_key", _("Write a show number.")),
            in_ranges("show_spot_numbers_in_range", least_lux=LUX),
            one_of("show_spot_gel_by_known", "gel_by", GelBy, or_blank=True),
            ends_with_reason("show_spot_ends_with_reason"),
        )

    def __str__(self) -> str:
        return gettext("show %(number)s") % {"number": self.number}

    def clean(self) -> None:
        super().clean()
        if not isinstance(self.frames, list) or not all(isinstance(held, str) for held in self.frames):
            raise ValidationError({"frames": gettext("Write what each frame holds, as a list of texts.")})
        if not isinstance(self.sizes, list) or not set(self.sizes) <= set(SizeName.values):
            raise ValidationError({"sizes": gettext("Choose among the usual sizes.")})


class Source(models.TextChoices):
    """What put a number on its place."""

    HAND = "hand", _("by hand")
    PROPOSAL = "proposal", _("by a proposal that somebody took")
    LABEL = "label", _("house label in the paperwork")
    PLACE = "place", _("place in the paperwork's words")
    STATEMENT = "statement", _("how the show counts")


PUT_BY_PEOPLE = frozenset({Source.HAND, Source.PROPOSAL})
"""What new paperwork leaves where it is."""


class SpotPlace(Versioned, Ending):
    """A show spot stands at a place. A team is one number at several places; `team_order` 1 stands for it.

    `engagement` is the spot's own, kept here so that no place gets two numbers in one engagement. What
    people put there, by hand or by taking a proposal, survives new paperwork.
    """

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="spot_places")
    spot = models.ForeignKey(ShowSpot, on_delete=models.PROTECT, related_name="spot_places")
    place = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="spot_places")
    team_order = models.PositiveSmallIntegerField(default=1)
    source = models.CharField(max_length=9, choices=Source, default=Source.HAND)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("spot", "team_order", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["engagement", "place"],
                condition=NOT_ENDED,
                name="spot_place_unique",
                violation_error_code="already_exists",
                violation_error_message=_("Another show number is at this place already."),
            ),
            models.UniqueConstraint(
                fields=["spot", "team_order"],
                condition=NOT_ENDED,
                name="spot_place_team_order_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The team has somebody in this order already."),
            ),
            models.CheckConstraint(
                name="spot_place_team_order_from_1",
                condition=Q(team_order__gte=1),
                violation_error_message=_("A team is counted from 1."),
            ),
            one_of("spot_place_source_known", "source", Source),
            ends_with_reason("spot_place_ends_with_reason"),
        )

    def __str__(self) -> str:
        return gettext("%(spot)s at %(place)s") % {"spot": self.spot, "place": self.place}

    def clean(self) -> None:
        super().clean()
        if self.spot.engagement_id != self.engagement_id:
            raise ValidationError({"spot": gettext("Choose a spot of this show.")})
        if not self._is_open_to_engagement():
            raise ValidationError({"place": gettext("Choose a place of this house or of this show.")})

    def _is_open_to_engagement(self) -> bool:
        position = self.place.position
        owners = {self.place.only_for, position.only_for} - {None}
        return position.house_id == self.engagement.house_id and owners <= {self.engagement.ref}
