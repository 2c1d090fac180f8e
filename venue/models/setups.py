"""The ways in which a house is set up: an arena is end stage, center stage and ice in one month."""

from typing import Any

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from venue.models.base import Ref, Versioned, in_ranges, number, one_of
from venue.models.house import House

LENGTH = (0.0, 500.0)
COORDINATE = (-1000.0, 1000.0)
BEARING = (0.0, 360.0)
"""Ranges of what a set-up and a place record: meters and degrees."""


def _typed(verbose_name: Any) -> models.CharField:
    return models.CharField(verbose_name, max_length=40, blank=True)


class Layout(models.TextChoices):
    PROSCENIUM = "proscenium", _("proscenium")
    THRUST = "thrust", _("thrust")
    ROUND = "round", _("in the round")
    BOWL = "bowl", _("arena bowl")


class PromptSide(models.TextChoices):
    STAGE_LEFT = "stage left", _("stage left")
    STAGE_RIGHT = "stage right", _("stage right")


class Setup(Ref, Versioned):
    """One way in which the house is set up. Lengths in meters.

    Origin on the deck where the center line meets the plaster line; +x to stage left (house right), +y
    upstage, +z up. The `_text` columns keep what was typed (142' 6"). `twelve_deg` is the bearing of 12
    o'clock, clockwise seen from above from +y.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="setups")
    name = models.CharField(_("name"), max_length=80)
    is_default = models.BooleanField(_("the usual one"), default=False)
    layout = models.CharField(_("layout"), max_length=12, choices=Layout, default=Layout.PROSCENIUM)
    opening_m = number(_("opening"), *LENGTH)
    opening_text = _typed(_("opening as typed"))
    depth_m = number(_("depth"), *LENGTH)
    depth_text = _typed(_("depth as typed"))
    apron_m = number(_("apron"), *LENGTH)
    apron_text = _typed(_("apron as typed"))
    prompt_side = models.CharField(_("prompt side"), max_length=12, choices=PromptSide, default=PromptSide.STAGE_LEFT)
    target_x_m = number(_("target x"), *COORDINATE, default=0.0)
    target_y_m = number(_("target y"), *COORDINATE, default=0.0)
    target_z_m = number(
        _("target z"),
        *COORDINATE,
        default=1.5,
        help_text=_("A performer's face is about 1.5 m above the deck."),
    )
    target_x_text, target_y_text = _typed(_("target x as typed")), _typed(_("target y as typed"))
    target_z_text = _typed(_("target z as typed"))
    twelve_deg = number(_("bearing of 12 o'clock"), *BEARING, default=0.0)
    house_left_landmark = models.CharField(_("what is at house left"), max_length=60, blank=True)
    house_right_landmark = models.CharField(_("what is at house right"), max_length=60, blank=True)
    stage_end_landmark = models.CharField(_("what is at the stage end"), max_length=60, blank=True)

    class Meta:
        ordering = ("-is_default", "name", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["house"],
                condition=Q(is_default=True),
                name="setup_one_default",
                violation_error_code="already_exists",
                violation_error_message=_("The house has a usual set-up already."),
            ),
            models.UniqueConstraint(
                fields=["house", "name"],
                name="setup_name_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The house has a set-up of this name already."),
            ),
            one_of("setup_layout_known", "layout", Layout),
            one_of("setup_prompt_side_known", "prompt_side", PromptSide),
            in_ranges(
                "setup_numbers_in_range",
                opening_m=LENGTH,
                depth_m=LENGTH,
                apron_m=LENGTH,
                target_x_m=COORDINATE,
                target_y_m=COORDINATE,
                target_z_m=COORDINATE,
                twelve_deg=BEARING,
            ),
        )

    def __str__(self) -> str:
        return self.name
