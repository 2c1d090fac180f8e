"""What one person does at one visit to the arrival check, signed in or by the link: each is one transaction."""

from collections.abc import Mapping
from datetime import date, datetime

from shows.actions.arrival import Found, end_show_blockage, mark_items, note_blockage, sign_check
from shows.actions.arrival_links import through_link
from shows.models import CheckMark, CheckSignature, Engagement
from venue.history import Actor
from venue.models import Blockage, Link, Place, Unit


def add_look(
    *,
    actor: Actor,
    engagement: Engagement,
    place: Place,
    unit: Unit | None,
    found: Mapping[str, Found],
    by: str,
    at: datetime,
    in_the_way: str = "",
    day: date,
    link: Link | None = None,
) -> list[CheckMark]:
    """What somebody found at a place, and what is newly in its way (noted on the house's `day`); either may be empty.

    What is noted for the place already is not noted twice. Raises as `mark_items`, LinkRefused.
    """
    words = " ".join(in_the_way.split())
    with through_link(actor=actor, engagement=engagement, link=link, now=at):
        facts = {"place": place, "unit": unit, "by": by, "at": at}
        made = [] if words and not found else mark_items(actor=actor, engagement=engagement, found=found, **facts)  # type: ignore[arg-type]
        if words and not _is_noted(engagement, place, words):
            note_blockage(actor=actor, engagement=engagement, place=place, words=words, noted_on=day)
    return made


def _is_noted(engagement: Engagement, place: Place, words: str) -> bool:
    noted = Blockage.objects.standing().open_to(engagement.ref)
    return noted.filter(position=place.position_id, place=place, name=words).exists()


def clear_blockage(
    *,
    actor: Actor,
    engagement: Engagement,
    blockage: Blockage,
    reason: str,
    at: datetime,
    link: Link | None = None,
) -> None:
    """What was noted for this show is in the way no more. Raises as `end_show_blockage`, LinkRefused."""
    with through_link(actor=actor, engagement=engagement, link=link, now=at):
        end_show_blockage(actor=actor, engagement=engagement, blockage=blockage, at=at, reason=reason)


def sign_as(
    *,
    actor: Actor,
    engagement: Engagement,
    side: str,
    name: str,
    sha256: str,
    at: datetime,
    link: Link | None = None,
) -> CheckSignature:
    """Sign for the check whose content has the hash. Raises as `sign_check`, LinkRefused."""
    with through_link(actor=actor, engagement=engagement, link=link, now=at):
        return sign_check(actor=actor, engagement=engagement, side=side, name=name, sha256=sha256, at=at)
