"""Printed labels: what a sheet of them says, and where the code of one leads."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from uuid import UUID

from django.urls import reverse

from crew.printing import code_address
from crew.sheets.labels import Label, labels_pdf
from crew.sheets.pen import Paper
from crew.wording.sheet import code_in_groups
from venue.access import Visitor, house_for, place_in, unit_in
from venue.actions.labels import LabelPurpose
from venue.models import House, Place, Placement, PrintedCode, Unit


def printed_labels(
    house: House,
    purpose: LabelPurpose,
    subjects: Sequence[Unit] | Sequence[Place],
    codes: Mapping[UUID, str],
    *,
    kind: str,
    site: str,
    paper: Paper,
) -> bytes:
    """The labels as PDF; `kind` says what they are labels of, `site` is where their codes are asked about."""
    labels = [
        Label(
            str(subject), kind, house.name, code_in_groups(codes[subject.ref]), code_address(codes[subject.ref], site)
        )
        for subject in subjects
    ]
    return labels_pdf(labels, f"{house.name}: {purpose.label}", paper)


def is_label(code: PrintedCode) -> bool:
    return code.purpose in LabelPurpose.values


def address_behind(code: PrintedCode, user: Visitor, now: datetime) -> str:
    """Where a member of the house goes who scans the label. Raises Http404 for strangers."""
    house, may_write = house_for(user, code.house.slug)
    if code.purpose == LabelPurpose.UNIT:
        return unit_address(house, unit_in(house, code.subject_ref), may_write)
    place = place_in(house, code.subject_ref)
    stay = Placement.objects.at(now).filter(place=place).select_related("unit").first()
    if stay is None:
        return reverse("venue:position_detail", args=[house.slug, place.position.ref])
    return unit_address(house, stay.unit, may_write)


def unit_address(house: House, unit: Unit, may_write: bool) -> str:
    """The unit's quick entry for who may write; for whoever may only look, or if it is off the books, its page."""
    page = "reading_take" if may_write and not unit.has_ended else "unit_detail"
    return reverse(f"venue:{page}", args=[house.slug, unit.ref])
