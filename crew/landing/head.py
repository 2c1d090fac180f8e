"""House head: can we run tonight and the next show, what stops it?"""

from datetime import datetime

from django.urls import reverse
from django.utils.translation import gettext as _

from crew.access import headed_houses
from crew.addresses import (
    assign_address,
    booking_address,
    compare_address,
    fit_address,
    paperwork_address,
    today_address,
)
from crew.landing.card import Card
from crew.readiness import Readiness, next_shows, readiness
from crew.wording import readiness as words
from shows.today import lamps_ending
from shows.wording.today import against_the_lights
from venue.access import Visitor
from venue.models import House
from venue.today import HouseToday

SHOWS_TOLD = 2
"""Tonight's and the next."""


def head_card(user: Visitor, now: datetime) -> Card | None:
    """The answer for the next shows in all houses of the head; None for who heads no house."""
    houses = headed_houses(user)
    first_house = houses.order_by("name", "pk").first()
    if first_house is None:
        return None
    question = _("Can we run tonight and the next show, what stops it?")
    found = [readiness(event, now) for event in next_shows(houses, now, SHOWS_TOLD)]
    if not found:
        return _without_show(first_house, question, now)
    url, label = _first_step(found)
    more = (*_more(found), *_lights(found[0].event.engagement.house, now))
    return Card(_("House head"), question, words.sentence(found[0]), url, label, more)


def _without_show(house: House, question: str, now: datetime) -> Card:
    label = _("Book a show at %(house)s") % {"house": house.name}
    sentence = _("No show is booked. Book the next one to begin with.")
    return Card(_("House head"), question, sentence, booking_address(house), label, _lights(house, now))


def _lights(house: House, now: datetime) -> tuple[str, ...]:
    """How much stands against the house's lights today; nothing where all are in order."""
    said = against_the_lights(HouseToday(house, now), lamps_ending(house, now), house)
    return (_("Today at %(house)s: %(said)s") % {"house": house.name, "said": said},) if said else ()


def _more(found: list[Readiness]) -> tuple[str, ...]:
    """What else stops the first show, what everybody must be told, and how the next one stands."""
    first, others = found[0], found[1:]
    notice = [first.verdict.notice] if first.verdict.notice else []
    stops = [words.stop_sentence(stop) for stop in first.stops[1:]]
    return (*stops, *notice, *map(words.sentence, others))


def _first_step(found: list[Readiness]) -> tuple[str, str]:
    """Where to put right what stops a show first, named with its show if that is not the one told first."""
    stopped = next((each for each in found if each.stops), found[0])
    url, label = _step(stopped)
    if stopped is not found[0]:
        label = _("%(label)s: %(show)s") % {"label": label, "show": stopped.event.engagement.name}
    return url, label


def _step(found: Readiness) -> tuple[str, str]:
    engagement, code = found.event.engagement, found.stops[0].code if found.stops else ""
    if code == "no-paperwork":
        return paperwork_address(engagement), _("Bring in the paperwork")
    if code == "unplaced":
        return assign_address(engagement), _("Put numbers on places")
    if code in {"fix", "ask"}:
        return compare_address(engagement), _("Compare the numbers")
    if code == "unit-out":
        return today_address(engagement.house), _("See what is out")
    if code == "fit":
        return fit_address(engagement), _("Decide what does not fit")
    if found.call is None:
        return reverse("crew:call_new", args=[found.event.ref]), _("Make the call")
    labels = {
        "to-fill": _("Fill the call"),
        "none-issued": _("Issue the sheet"),
        "changed-not-issued": _("Issue the next revision"),
    }
    label = labels.get(code, _("Open the call"))
    return reverse("crew:call", args=[found.call.ref]), label
