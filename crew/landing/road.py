"""Road crew: do the numbers run the house's way, which places are unchecked?"""

from datetime import datetime, timedelta

from django.utils.translation import gettext as _

from crew.addresses import arrival_address, compare_address, paperwork_address
from crew.landing.card import Card
from shows.arrival import Arrival, arrival_of, check_instant
from shows.lines import Verdict
from shows.models import Engagement, RoadAccess
from shows.standing import Standing, standing_of
from shows.wording.arrival import answer
from shows.wording.landing import also_to_know, not_walked
from venue.access import Visitor


def road_card(user: Visitor, now: datetime) -> Card | None:
    """The answer for the show that the user is with now or next; None for who is with no show."""
    engagement = _present_or_next(user, now)
    if engagement is None:
        return None
    standing = standing_of(engagement)
    role, question = _("Road crew"), _("Do the numbers run the house's way, which places are unchecked?")
    told = {"show": engagement.name, "house": engagement.house.name}
    if not standing.has_spots:
        sentence = _("%(show)s at %(house)s: nobody can say yet, no paperwork has been accepted.") % told
        return Card(role, question, sentence, paperwork_address(engagement), _("Bring in the paperwork"))
    sentence = _("%(show)s at %(house)s. %(verdict)s") % {**told, "verdict": _verdict_words(standing.verdict)}
    check = arrival_of(engagement, check_instant(engagement, now))
    more = [*also_to_know(standing), not_walked(standing.not_walked), _check_words(check)]
    url, label = _step(engagement, standing, check)
    return Card(role, question, sentence, url, label, tuple(filter(None, more)))


def _check_words(check: Arrival) -> str:
    return _("Arrival check: %(answer)s") % {"answer": answer(check)} if check.places else ""


def _step(engagement: Engagement, standing: Standing, check: Arrival) -> tuple[str, str]:
    """The numbers first; once they are settled, the places that nobody has looked at."""
    is_settled = standing.verdict.kind == "agree" or (standing.verdict.kind == "tell" and bool(standing.way))
    if is_settled and check.next() is not None:
        return arrival_address(engagement), _("Check the places")
    return compare_address(engagement), _("Compare the numbers")


def _present_or_next(user: Visitor, now: datetime) -> Engagement | None:
    access = RoadAccess.objects.in_force_for(user, now)
    own = Engagement.objects.standing().filter(road_access__in=access).select_related("house", "setup")
    yesterday = (now - timedelta(days=1)).date()
    return own.filter(ends_on__gte=yesterday).order_by("starts_on", "pk").first() or own.order_by("-starts_on").first()


def _verdict_words(verdict: Verdict) -> str:
    told = {"sentence": verdict.sentence}
    return {
        "fix": _("FIX: %(sentence)s"),
        "tell": _("TELL: %(sentence)s"),
        "ask": _("ASK: %(sentence)s"),
    }.get(verdict.kind, "%(sentence)s") % told
