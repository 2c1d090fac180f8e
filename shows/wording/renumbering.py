"""What it changes to put a number on another place, in sentences."""

from collections.abc import Iterator, Sequence

from django.utils.translation import gettext as _

from shows.fit import Decided, Fit
from shows.models import Engagement
from shows.renumbering import Light, Renumbering, Standing
from shows.wording.fit import GRAVITY, finding_sentence, ready_sentence
from venue.core.lengths import UnitSystem
from venue.models import Place


def light_words(light: Light, standing: Standing) -> str:
    """ "show 3", "show 3, light 2" of a team."""
    if len(standing.places[light.spot.pk]) < 2:
        return _("show %(number)s") % {"number": light.spot.number}
    return _("show %(number)s, light %(nth)s") % {"number": light.spot.number, "nth": light.nth + 1}


def light_choice(light: Light, standing: Standing) -> str:
    """ "show 3: now at Rear booth, place 2"."""
    facts = {"light": light_words(light, standing), "place": light.place}
    return (_("%(light)s: now at %(place)s") if light.place else _("%(light)s: no place yet")) % facts


def place_choice(place: Place, standing: Standing) -> str:
    """ "Rear booth, place 2: show 3 stands there"."""
    there = standing.light_at(place)
    if there is None:
        return _("%(place)s: no number there") % {"place": place}
    return _("%(place)s: %(light)s stands there") % {"place": place, "light": light_words(there, standing)}


def title(change: Renumbering) -> str:
    """ "Show 1 goes to Rear booth, place 1, and show 2 to where it stood"."""
    facts = {"light": light_words(change.light, change.now), "place": change.place}
    other = change.other
    if other is None:
        return _("%(light)s goes to %(place)s") % facts
    facts["other"] = light_words(other, change.now)
    if change.light.place is None:
        return _("%(light)s goes to %(place)s, and %(other)s then has no place") % facts
    return _("%(light)s and %(other)s swap places") % facts


def moves(change: Renumbering) -> list[tuple[str, str, str]]:
    """Each number that then stands elsewhere: the number, where it stands now, where then."""
    return [(number, _where(before), _where(after)) for number, before, after in change.moves]


def _where(places: Sequence[Place]) -> str:
    return "; ".join(map(str, places)) or _("no place")


def ready(fit: Fit) -> str:
    """Whether the house can do what the show asks."""
    return ready_sentence(len(fit.asks), list(dict.fromkeys(each.finding.number for each in fit.open)))


def findings(some: Sequence[Decided], engagement: Engagement) -> list[tuple[str, str, str]]:
    """Each finding: its gravity as a code, show number and gravity in words, the sentence."""
    system: UnitSystem = "imperial" if engagement.house.unit_system == "imperial" else "metric"
    head = _("Show %(number)s, %(gravity)s")
    return [
        (
            each.finding.gravity,
            head % {"number": each.finding.number, "gravity": str(GRAVITY[each.finding.gravity]).lower()},
            finding_sentence(each.finding, system),
        )
        for each in some
    ]


def stays_and_goes() -> Iterator[str]:
    """What holds of every change of numbers."""
    yield _("Frames, colors and the headset channel go with the number. Units stay, and so do the marks of this check.")
    yield _("What you put elsewhere stands there by hand from then on: newer paperwork leaves it.")
    yield _("Sheets issued before tell of the places as they are now: a new revision is needed, and new tapes.")


def done(change: Renumbering) -> str:
    """What was stored: "show 1: Rear booth, place 1; show 2: Rear booth, place 2"."""
    told = _("show %(number)s: %(where)s")
    return "; ".join(told % {"number": number, "where": where} for number, _now, where in moves(change))
