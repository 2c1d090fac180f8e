"""The check on arrival: what somebody found at each place, and who signed for it. Added to, never changed."""

from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shows.models.engagements import Engagement
from venue.fields import BinaryCharField
from venue.guards import AppendOnly, Guard
from venue.models import Fault, Place
from venue.models.base import Kept, one_of


class CheckItem(models.TextChoices):
    """What is looked at, in the order in which one walks: the label and the row's end before anything is struck."""

    LABEL = "label", _("house label, and which end of the row this is")
    STRIKE = "strike", _("strike")
    DOUSER = "douser", _("douser closes fully")
    FRAMES = "frames", _("frames in order, the right color in each")
    HEADSET = "headset", _("headset, both ways, on its channel")
    IRIS = "iris", _("iris, its whole travel")
    ZOOM = "zoom", _("zoom and edge")
    FOCUS = "focus", _("focus")
    LEVEL = "level", _("level against the others on one mark")
    SIGHT = "sight", _("sight")
    COVERAGE = "coverage", _("coverage: upstage corner, forestage, aisles")
    ACCESS = "access", _("access, harness, way out, rescue")


class CheckResult(models.TextChoices):
    PASS = "pass", _("passes")
    FAIL = "fail", _("fails")
    OPEN = "open", _("not checked")


class CheckMark(Kept):
    """What one person found for one item at one place. The last one counts; all stay.

    `fault` is what a failure opened on the unit that stands there.
    """

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="check_marks")
    place = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="check_marks")
    item = models.CharField(_("item"), max_length=8, choices=CheckItem)
    result = models.CharField(_("result"), max_length=4, choices=CheckResult)
    note = models.CharField(_("note"), max_length=300, blank=True)
    by = models.CharField(_("checked by"), max_length=100)
    at = models.DateTimeField(_("checked"))
    fault = models.ForeignKey(Fault, on_delete=models.PROTECT, null=True, blank=True, related_name="check_marks")

    guards: ClassVar[tuple[Guard, ...]] = (AppendOnly("check_mark_append_only"),)

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=["engagement", "place", "item"], name="check_mark_by_item"),)
        constraints = (
            one_of("check_mark_item_known", "item", CheckItem),
            one_of("check_mark_result_known", "result", CheckResult),
            models.CheckConstraint(
                name="check_mark_by_somebody",
                condition=~Q(by=""),
                violation_error_message=_("Write your name."),
            ),
            models.CheckConstraint(
                name="check_mark_failure_says_what",
                condition=~Q(result="fail") | ~Q(note=""),
                violation_error_message=_("Write what fails."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.get_item_display()}: {self.get_result_display()}"


class Signer(models.TextChoices):
    HOUSE = "house", _("for the house")
    ROAD = "road", _("for the road crew")


class CheckSignature(Kept):
    """Somebody signed for the check as it stood then; `sha256` is of its content."""

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="check_signatures")
    side = models.CharField(_("signs"), max_length=5, choices=Signer)
    name = models.CharField(_("name"), max_length=100)
    at = models.DateTimeField(_("signed"))
    sha256 = BinaryCharField(max_length=64)

    guards: ClassVar[tuple[Guard, ...]] = (AppendOnly("check_signature_append_only"),)

    class Meta:
        ordering = ("at", "pk")
        constraints = (
            one_of("check_signature_side_known", "side", Signer),
            models.CheckConstraint(
                name="check_signature_named",
                condition=~Q(name=""),
                violation_error_message=_("Write your name."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.name}, {self.get_side_display()}"
