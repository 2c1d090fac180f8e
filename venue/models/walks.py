"""Who stood at a position and saw which label is at the end: the check that the order on file is the real one."""

from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from venue.models.base import NOT_ENDED, Ending, EndingQuerySet, Ref, Versioned, ends_with_reason
from venue.models.places import Place
from venue.models.positions import Position
from venue.models.setups import Setup


class OrderWalk(Ref, Versioned, Ending):
    """Somebody stood at the position, as the set-up has it, and named the place at the end that was asked for.

    `label_seen` is the label as it was then: a place that is labelled anew has to be walked anew. A walk ends
    when the next one takes its place.
    """

    setup = models.ForeignKey(Setup, on_delete=models.PROTECT, related_name="walks")
    position = models.ForeignKey(Position, on_delete=models.PROTECT, related_name="walks")
    left_end = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="walks")
    label_seen = models.CharField(_("label seen"), max_length=40)
    walked_at = models.DateTimeField(_("walked"))
    walked_by = models.CharField(_("who stood there"), max_length=100)
    actor_name = models.CharField(_("who wrote it down"), max_length=120)

    objects = EndingQuerySet.as_manager()

    class Meta:
        ordering = ("walked_at", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["setup", "position"],
                condition=NOT_ENDED,
                name="order_walk_unique",
                violation_error_code="already_exists",
                violation_error_message=_("Somebody wrote down a walk of this position just now. Look at it first."),
            ),
            ends_with_reason("order_walk_ends_with_reason"),
        )

    def clean(self) -> None:
        super().clean()
        if self.left_end.position_id != self.position_id:
            raise ValidationError({"left_end": gettext("Choose a place of this position.")})

    def __str__(self) -> str:
        return gettext("%(position)s walked by %(name)s") % {"position": self.position, "name": self.walked_by}
