"""Codes on the labels of units and places: one for each, made once, whatever is renamed later."""

import secrets
from collections.abc import Sequence
from uuid import UUID

from django.db import models, transaction
from django.utils.translation import gettext_lazy as _

from venue.core.codes import new_code
from venue.history import Actor, record
from venue.models import House, Place, PrintedCode, Unit


class LabelPurpose(models.TextChoices):
    """What a label's code stands for."""

    UNIT = "unit-label", _("follow spots")
    PLACE = "place-label", _("places")


@transaction.atomic
def make_label_codes(
    *, actor: Actor, house: House, purpose: LabelPurpose, subjects: Sequence[Unit] | Sequence[Place]
) -> dict[UUID, str]:
    """The code of each subject by its ref; those that have none yet get one. Three queries, however many."""
    House.objects.select_for_update().get(pk=house.pk)  # two who print at once give one code to each
    known = dict(house.printed_codes.filter(purpose=purpose).order_by("-pk").values_list("subject_ref", "code"))
    missing = [subject for subject in subjects if subject.ref not in known]
    new = [_code(house, purpose, subject) for subject in missing]
    PrintedCode.objects.bulk_create(new)
    if new:
        record(actor, "labels.coded", house, house=house, purpose=str(purpose.label), number=len(new))
    found = {**known, **{code.subject_ref: code.code for code in new}}
    return {subject.ref: found[subject.ref] for subject in subjects}


def _code(house: House, purpose: LabelPurpose, subject: Unit | Place) -> PrintedCode:
    kind = str(subject._meta.model_name)
    code = new_code(secrets.randbelow)
    return PrintedCode(code=code, purpose=purpose, subject_kind=kind, subject_ref=subject.ref, house=house)
