"""What a printed code answers: whether the sheet that carries it is still the one to go by."""

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from django.db.models import QuerySet

from crew.models import IssuedSheet
from crew.models.sheets import SheetKind
from crew.sheet_content import state_of
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
    """The standing of an issued sheet."""
    state = state_of(sheet.call)
    latest = state.latest or sheet
    if latest.n != sheet.n:
        return Standing("replaced", sheet, latest, sheet.call.zone)
    return Standing("current" if state.code == "current" else "changed-not-issued", sheet, latest, sheet.call.zone)
