"""Paperwork as it came from the tour, and what was accepted of it."""

from typing import ClassVar

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from shows.core.paperwork import MAX_BYTES
from shows.models.engagements import Engagement
from venue.guards import Guard, Unchanging
from venue.models import Ref, Versioned
from venue.models.base import one_of


class Media(models.TextChoices):
    CSV = "csv", _("CSV file")
    XLSX = "xlsx", _("workbook")
    TEXT = "text", _("pasted text")


class PaperworkQuerySet(models.QuerySet):
    """Paperwork by what became of it; the bytes are left in the database until they are asked for."""

    def in_force(self) -> "PaperworkQuerySet":
        """What was accepted and not replaced: at most one an engagement."""
        return self.filter(accepted_at__isnull=False, superseded_at__isnull=True)

    def without_content(self) -> "PaperworkQuerySet":
        return self.defer("content")


class Paperwork(Ref, Versioned):
    """One file or text as it came, its bytes unchanged, and how it was read when somebody accepted it.

    `columns` is field -> header or column letter, `numbers` line -> show number, both as corrected by hand.
    `statement_read` is what the paperwork itself says of its numbering; `statement`, where not blank,
    overrules it.
    """

    engagement = models.ForeignKey(Engagement, on_delete=models.PROTECT, related_name="paperwork")
    content = models.BinaryField(max_length=MAX_BYTES)
    file_name = models.CharField(_("file"), max_length=200, blank=True)
    media = models.CharField(_("came as"), max_length=4, choices=Media)
    sha256 = models.CharField(max_length=64, editable=False)
    received_at = models.DateTimeField(_("received"))
    received_by = models.CharField(_("received by"), max_length=100)
    columns = models.JSONField(default=dict, blank=True)
    numbers = models.JSONField(default=dict, blank=True)
    statement_read = models.CharField(max_length=1000, blank=True)
    statement = models.CharField(_("how its numbers run"), max_length=1000, blank=True)
    accepted_at = models.DateTimeField(_("accepted"), null=True, blank=True)
    accepted_by = models.CharField(_("accepted by"), max_length=100, blank=True)
    superseded_at = models.DateTimeField(_("replaced"), null=True, blank=True)

    objects = PaperworkQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (Unchanging("paperwork_content_unchanging", "content"),)

    class Meta:
        ordering = ("-received_at", "-pk")
        constraints = (
            one_of("paperwork_media_known", "media", Media),
            models.UniqueConstraint(
                fields=["engagement"],
                condition=Q(accepted_at__isnull=False, superseded_at__isnull=True),
                name="paperwork_one_in_force",
                violation_error_code="already_exists",
                violation_error_message=_("Other paperwork was accepted at the same moment. Look at it first."),
            ),
            models.CheckConstraint(
                name="paperwork_accepted_by_somebody",
                condition=Q(accepted_at__isnull=True, accepted_by="")
                | (Q(accepted_at__isnull=False) & ~Q(accepted_by="")),
                violation_error_message=_("Say who accepts it."),
            ),
            models.CheckConstraint(
                name="paperwork_superseded_after_accepted",
                condition=Q(superseded_at__isnull=True) | Q(accepted_at__isnull=False),
                violation_error_message=_("Only accepted paperwork is replaced."),
            ),
        )

    def __str__(self) -> str:
        return self.file_name or gettext("pasted text")

    @property
    def is_in_force(self) -> bool:
        return self.accepted_at is not None and self.superseded_at is None
