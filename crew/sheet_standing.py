"""What a printed code answers: whether the sheet that carries it is still the one to go by."""

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from django.db.models import QuerySet

from crew.models import IssuedSheet
from crew.models.sheets import SheetKind
from crew.sheet_basis import basis_of
from crew.sheet_content import draft_of
from venue.models import PrintedCode


@dataclass(frozen=True)
class Standing:
    """`state` of the sheet; the revision that replaced it, when, and the house's zone for that time."""

    state: Literal["current", "changed-not-issued", "replaced"]
    sheet: IssuedSheet
    latest: IssuedSheet
    zone: str

    @property
    def latest_at(self) -> datetime:
        return self.latest.issued_at


def standing_of(code: PrintedCode) -> Standing | None:
    """The standing of the sheet with the code; None where the code stands for something else."""
    if code.purpose != SheetKind.CALL_SHEET:
        return None
    sheet = _sheets().filter(code=code).first()
    return standing_of_sheet(sheet) if sheet else None


def _sheets() -> QuerySet[IssuedSheet]:
    return IssuedSheet.objects.select_related("call__event", "call__engagement__house", "call__engagement__setup")


def standing_of_sheet(sheet: IssuedSheet) -> Standing:
    """The standing of an issued sheet, whose call comes with its event, engagement, house and set-up."""
    newer = sheet.call.sheets.filter(kind=sheet.kind, n__gt=sheet.n).order_by("-n").first()
    if newer is not None:
        return Standing("replaced", sheet, newer, sheet.call.zone)
    return Standing("current" if _is_current(sheet) else "changed-not-issued", sheet, sheet, sheet.call.zone)


def _is_current(latest: IssuedSheet) -> bool:
    """Whether nothing was touched since, else whether the sheet would say the same all the same."""
    return latest.basis == basis_of(latest.call) or latest.sha256 == draft_of(latest.call).sha256
