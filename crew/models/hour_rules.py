"""By which rules the hours of a roster's calls are counted."""

from datetime import date

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from crew.models.rosters import Roster
from venue.models import Ending, EndingQuerySet, House, Ref, Versioned
from venue.models.base import NOT_ENDED, ends_with_reason

FROM_THE_START = date(1900, 1, 1)
"""Before any call: a rule set with this first day has always held."""


class HourRules(Ref, Versioned, Ending):
    """A roster's rule set, for one house of its or, without a house, for all that have none of their own.

    It holds for working days from `first_day` on, until that of the next set for the same. `rules` is an object with
    the keys of `crew.core.hours`, empty where nothing is ruled; `name` says where it comes from.
    """

    roster = models.ForeignKey(Roster, on_delete=models.PROTECT, related_name="hour_rules")
    house = models.ForeignKey(House, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    name = models.CharField(_("name"), max_length=80)
    first_day = models.DateField(_("hold from"), default=FROM_THE_START)
    rules = models.JSONField(_("rules"), default=dict, blank=True)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("roster", "house", "first_day", "pk")
        verbose_name_plural = "hour rules"
        constraints = (
            models.UniqueConstraint(
                fields=["roster", "first_day"],
                condition=NOT_ENDED & Q(house__isnull=True),
                name="hour_rules_unique",
                violation_error_code="already_exists",
                violation_error_message=_("The roster has rules from this day already: change those."),
            ),
            models.UniqueConstraint(
                fields=["roster", "house", "first_day"],
                condition=NOT_ENDED & Q(house__isnull=False),
                name="hour_rules_unique_in_house",
                violation_error_code="already_exists",
                violation_error_message=_("The roster has rules for this house from this day already: change those."),
            ),
            ends_with_reason("hour_rules_end_with_reason"),
        )

    def __str__(self) -> str:
        return self.name
