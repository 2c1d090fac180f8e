"""Units that go to the shop, to the store or to another house, and come back.

A stay elsewhere is a placement without a place: a unit is in one place at a time, wherever that is.
"""

from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from venue.actions.locking import lock
from venue.actions.staying import begin_at_place, begin_elsewhere, end_stay, next_start, stay_at
from venue.errors import Invalid, MovedMeanwhile
from venue.history import Actor, record
from venue.models import Place, Placement, Unit
from venue.models.units import Elsewhere
from venue.stays import stays_mark


@transaction.atomic
def send_away(
    *,
    actor: Actor,
    unit: Unit,
    to: Elsewhere,
    at: datetime,
    words: str = "",
    until: datetime | None = None,
    back_to: Place | None = None,
    seen: str | None = None,
) -> Placement:
    """The unit leaves where it stands, if anywhere, and is elsewhere until `until` (None: until it is brought back).

    From then on it stands at `back_to`, where one is given. `words` say with whom it is, `seen` is
    `stays_mark` as the user saw it. Raises Overlap, AlreadyEnded, WrongHouse, Invalid, MovedMeanwhile.
    """
    lock(Unit, [unit])
    _require_unmoved(unit, seen)
    _require_told(to, words, at, until, back_to)
    before = stay_at(unit, at)
    lock(Place, _places(before, back_to))
    until_before = before.ends_at if before else None
    if before:
        end_stay(before, at)
    stay = begin_elsewhere(unit, to, words, at, until)
    if until and back_to:
        is_same = before is not None and before.place_id == back_to.pk
        begin_at_place(unit, back_to, until, until_before if is_same else next_start(unit, until))
    facts = {"from_place": before.where if before else "", "where": stay.where, "at": at, "until": until}
    record(actor, "unit.sent", unit, house=unit.house, tag=unit.tag, **facts)
    return stay


@transaction.atomic
def bring_back(*, actor: Actor, unit: Unit, to: Place, at: datetime, seen: str | None = None) -> Placement:
    """The unit comes to the place from wherever it is, and stands there until its next stay, or for good.

    Raises as `send_away`.
    """
    lock(Unit, [unit])
    _require_unmoved(unit, seen)
    before = stay_at(unit, at)
    lock(Place, _places(before, to))
    if before:
        end_stay(before, at)
    stay = begin_at_place(unit, to, at, next_start(unit, at))
    facts = {"from_place": before.where if before else "", "place": str(to), "at": at}
    record(actor, "unit.brought", unit, house=unit.house, tag=unit.tag, **facts)
    return stay


def leave_all(unit: Unit, at: datetime) -> list[str]:
    """The unit leaves where it is, and its plans are taken back; where these were. The caller holds the unit."""
    stays = list(unit.placements.real().not_over_by(at).select_related("place__position", "unit__house"))
    for stay in stays:
        end_stay(stay, at)
    return [stay.where for stay in stays]


def _require_unmoved(unit: Unit, seen: str | None) -> None:
    if seen is not None and seen != stays_mark(unit):
        raise MovedMeanwhile(unit)


def _require_told(to: Elsewhere, words: str, at: datetime, until: datetime | None, back_to: Place | None) -> None:
    if to == Elsewhere.LENT and not words.strip():
        raise Invalid({"elsewhere_words": [_("Write to whom it is lent: a house, or a role there.")]})
    if until is not None and until <= at:
        raise Invalid({"ends_at": [_("It is back before it leaves. Write a later time.")]})
    if back_to is not None and until is None:
        raise Invalid({"ends_at": [_("Write when it is back at that place.")]})


def _places(before: Placement | None, to: Place | None) -> list[Place]:
    return [place for place in (before.place if before else None, to) if place is not None]
