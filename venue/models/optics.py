"""What the house has for the light itself: its own sizes of pick-ups, its color and correction filters."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from venue.core.filters import Filter
from venue.core.names import name_key
from venue.fields import KeyField
from venue.models.base import (
    NOT_ENDED,
    Ending,
    EndingQuerySet,
    Keyed,
    Ref,
    Versioned,
    ends_with_reason,
    in_ranges,
    not_empty,
    number,
    one_of,
)
from venue.models.house import House

DIAMETER = (0.1, 20.0)
TRANSMISSION = (0.0, 100.0)
SHIFT = (-1000.0, 1000.0)


class SizeName(models.TextChoices):
    """The usual sizes, by the words that core and files know them under."""

    HEAD = "head", _("head")
    SHOULDERS = "head and shoulders", _("head and shoulders")
    WAIST = "waist", _("waist")
    KNEES = "knees", _("knees")
    FULL_BODY = "full body", _("full body")


class PickUpSize(Versioned):
    """The house's own diameter of a usual size; without it the default of `venue.core.pick_ups` holds."""

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="pick_up_sizes")
    size = models.CharField(_("size"), max_length=20, choices=SizeName)
    diameter_m = number(_("diameter"), *DIAMETER, default=1.0)
    diameter_text = models.CharField(_("diameter as typed"), max_length=40, blank=True)

    class Meta:
        ordering = ("house", "diameter_m")
        constraints = (
            models.UniqueConstraint(
                fields=["house", "size"],
                name="pick_up_size_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The house has this size already."),
            ),
            one_of("pick_up_size_known", "size", SizeName),
            in_ranges("pick_up_size_in_range", diameter_m=DIAMETER),
        )

    def __str__(self) -> str:
        return str(self.get_size_display())


class ColorFilter(Ref, Versioned, Keyed, Ending):
    """A color, a correction or a diffusion, as its swatch or a meter says it.

    Names of filters are not numbers, so what one lets through [%] and how far it shifts a source [mired, positive is
    warmer] stand here; None is not recorded.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="color_filters")
    code = models.CharField(_("code"), max_length=40, help_text=_("As it is written on the frame."))
    code_key = KeyField(source="code", derive=name_key, max_length=80)
    name = models.CharField(_("name"), max_length=80, blank=True)
    transmission_pct = number(_("light that passes, percent"), *TRANSMISSION)
    shift_mired = number(_("shift in mired"), *SHIFT, help_text=_("Positive is warmer, negative is cooler."))
    is_near_neutral = models.BooleanField(_("takes every color about alike"), null=True, blank=True)
    is_diffusion = models.BooleanField(_("diffusion"), default=False)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("code_key", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["house", "code_key"],
                condition=NOT_ENDED,
                name="color_filter_code_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The house has a filter of this code already."),
            ),
            not_empty("color_filter_code_not_empty", "code_key", _("Write a code.")),
            in_ranges("color_filter_numbers_in_range", transmission_pct=TRANSMISSION, shift_mired=SHIFT),
            ends_with_reason("color_filter_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.code} {self.name}".strip()

    @property
    def as_filter(self) -> Filter | None:
        """The filter as core computes with it; None where nobody recorded what it lets through."""
        if self.transmission_pct is None:
            return None
        return Filter(str(self), self.transmission_pct / 100, self.shift_mired, self.is_near_neutral)
