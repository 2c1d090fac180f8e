"""The colors that a show brings or asks for."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from shows.models.engagements import Engagement
from venue.core.filters import Filter
from venue.core.names import name_key
from venue.fields import KeyField
from venue.models import Ending, EndingQuerySet, Keyed, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason, in_ranges, not_empty, number
from venue.models.optics import SHIFT, TRANSMISSION


class ShowColor(Ref, Versioned, Keyed, Ending):
    """A color by the code that frames name it with: what it lets through [%], its shift [mired], whether it diffuses.

    None is not recorded. A code that the show does not explain may be one of the house's own filters.
    """

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="colors")
    code = models.CharField(_("code"), max_length=40)
    code_key = KeyField(source="code", derive=name_key, max_length=80)
    name = models.CharField(_("name"), max_length=80, blank=True)
    transmission_pct = number(_("light that passes, percent"), *TRANSMISSION)
    shift_mired = number(_("shift in mired"), *SHIFT, help_text=_("Positive is warmer, negative is cooler."))
    is_diffusion = models.BooleanField(_("diffusion"), default=False)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("engagement", "code_key", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["engagement", "code_key"],
                condition=NOT_ENDED,
                name="show_color_code_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The show has a color of this code already."),
            ),
            not_empty("show_color_code_not_empty", "code_key", _("Write a code.")),
            in_ranges("show_color_numbers_in_range", transmission_pct=TRANSMISSION, shift_mired=SHIFT),
            ends_with_reason("show_color_ends_with_reason"),
        )

    def __str__(self) -> str:
        return f"{self.code} {self.name}".strip()

    @property
    def as_filter(self) -> Filter | None:
        """The color as core computes with it; None where nobody recorded what it lets through."""
        if self.transmission_pct is None:
            return None
        return Filter(str(self), self.transmission_pct / 100, self.shift_mired)
