"""The circuits that units draw from."""

from django.db import models
from django.utils.translation import gettext_lazy as _

from venue.core.names import name_key
from venue.core.ranges import AMPS, VOLTS
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
)
from venue.models.house import House

OTHER_AMPS = (0.0, AMPS.hard[1])


class Circuit(Ref, Versioned, Keyed, Ending):
    """A single-phase circuit of the house: its voltage, its rating, what else hangs on it [V, A].

    None is not recorded: never taken for nothing.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="circuits")
    name = models.CharField(_("name"), max_length=60, help_text=_("As it is marked on the panel."))
    name_key = KeyField(source="name", derive=name_key, max_length=120)
    volts = number(_("volts"), *VOLTS.hard)
    rating_a = number(_("rating, amperes"), *AMPS.hard)
    other_a = number(_("what else draws on it, amperes"), *OTHER_AMPS)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("name_key", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["house", "name_key"],
                condition=NOT_ENDED,
                name="circuit_name_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The house has a circuit of this name already."),
            ),
            not_empty("circuit_name_not_empty", "name_key", _("Write a name.")),
            in_ranges("circuit_numbers_in_range", volts=VOLTS.hard, rating_a=AMPS.hard, other_a=OTHER_AMPS),
            ends_with_reason("circuit_ends_with_reason"),
        )

    def __str__(self) -> str:
        return self.name
