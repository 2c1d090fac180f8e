"""Sheets as they were issued: never changed, never deleted."""

from typing import ClassVar

from django.db import models
from django.utils.translation import gettext_lazy as _

from crew.models.calls import Call, CallLine
from venue.fields import BinaryCharField
from venue.guards import AppendOnly, Guard
from venue.models import PrintedCode
from venue.models.base import Kept, one_of


class SheetKind(models.TextChoices):
    CALL_SHEET = "call-sheet", _("call sheet")


class IssuedSheet(Kept):
    """Revision `n` of a call's sheet: its content as canonical JSON, the content's SHA-256, who issued it when.

    `basis` tells from which rows in which versions the content was made; blank where nobody kept that. `code` is
    what is printed on it; each revision has its own.
    """

    call = models.ForeignKey(Call, on_delete=models.PROTECT, related_name="sheets")
    kind = models.CharField(max_length=20, choices=SheetKind, default=SheetKind.CALL_SHEET)
    n = models.PositiveIntegerField()
    content = models.TextField()
    sha256 = BinaryCharField(max_length=64)
    basis = BinaryCharField(max_length=64, blank=True)
    issued_at = models.DateTimeField()
    issued_by = models.CharField(max_length=120)
    code = models.OneToOneField(PrintedCode, on_delete=models.PROTECT, related_name="+")

    guards: ClassVar[tuple[Guard, ...]] = (AppendOnly("issued_sheet_append_only"),)

    class Meta:
        ordering = ("call", "kind", "-n")
        constraints = (
            models.UniqueConstraint(
                fields=["call", "kind", "n"],
                name="issued_sheet_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This revision was issued already."),
            ),
            one_of("issued_sheet_kind_known", "kind", SheetKind),
        )

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {self.call}, {self.n}"


class LineConfirmation(Kept):
    """Somebody on a line of a call has seen revision `sheet`. It holds for a later one whose line says the same."""

    line = models.ForeignKey(CallLine, on_delete=models.PROTECT, related_name="confirmations")
    sheet = models.ForeignKey(IssuedSheet, on_delete=models.PROTECT, related_name="confirmations")
    at = models.DateTimeField()
    by = models.CharField(max_length=120)

    guards: ClassVar[tuple[Guard, ...]] = (AppendOnly("line_confirmation_append_only"),)

    class Meta:
        ordering = ("at", "pk")
        constraints = (
            models.UniqueConstraint(
                fields=["line", "sheet"],
                name="line_confirmation_unique",
                violation_error_code="already_exists",
                violation_error_message=_("This line is confirmed for the revision already."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.line}, {self.sheet}"
