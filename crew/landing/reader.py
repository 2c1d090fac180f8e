"""Reader: the latest issued sheet and its age."""

from datetime import datetime, timedelta

from django.urls import reverse
from django.utils.translation import gettext as _

from crew.access import headed_houses, sheets_for
from crew.landing.card import Card
from crew.models import IssuedSheet
from crew.moments import moment
from crew.wording.sheet import age
from venue.access import Visitor
from venue.core.local_time import wall_time
from venue.models import House

STILL_ON = timedelta(hours=12)


def reader_card(user: Visitor, now: datetime) -> Card | None:
    """The answer for the houses that the user reads; None for who only heads houses, or reads none."""
    reads = House.objects.of_member(user).exclude(pk__in=headed_houses(user).values("pk"))
    if not reads.exists():
        return None
    role, question = _("Reader"), _("Which call sheet is the latest?")
    sheet = _latest(user, now)
    if sheet is None:
        sentence = _("No call sheet is issued yet. Dispatch or the house head issues it; it will be here.")
        return Card(role, question, sentence, reverse("crew:calls"), _("All sheets"))
    url = reverse("crew:sheet", args=[sheet.call.ref, sheet.n])
    return Card(role, question, _sentence(sheet, now), url, _("Open the sheet"))


def _latest(user: Visitor, now: datetime) -> IssuedSheet | None:
    """The latest sheet of the next call; where none is to come, the one that was issued last."""
    sheets = sheets_for(user, now).select_related("call__event", "call__engagement__house")
    coming = sheets.filter(call__event__starts_at__gt=now - STILL_ON)
    return (
        coming.order_by("call__event__starts_at", "call", "-n").first() or sheets.order_by("-issued_at", "-pk").first()
    )


def _sentence(sheet: IssuedSheet, now: datetime) -> str:
    return _("%(show)s at %(house)s: revision %(n)s, issued %(at)s, %(age)s ago.") % {
        "n": sheet.n,
        "show": sheet.call.engagement.name,
        "house": sheet.call.engagement.house.name,
        "at": moment(wall_time(sheet.issued_at, sheet.call.zone)),
        "age": age(now - sheet.issued_at),
    }
