"""The proposal of places in sentences: the answer, why each number stands where it does, what is in the way."""

from collections.abc import Callable, Iterator, Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shows.core.fit.records import Finding
from shows.core.proposing import Alternative, Proposal, Reason
from shows.core.proposing.proposal import PLACE, SAME_PLACE, SAME_UNIT
from shows.proposal import Proposed
from shows.proposal_question import Asked, ShowLight
from shows.wording.fit import finding_sentence
from shows.wording.numbers import house_place, words_and
from venue.core.lengths import UnitSystem
from venue.models import Place

_OWN_NEEDS: Mapping[str, str | Promise] = {
    "elsewhere-in-paperwork": gettext_lazy("The paperwork puts it on house %(label)s, %(position)s"),
    "other-position": gettext_lazy("The paperwork asks for “%(words)s”"),
    "not-in-use": gettext_lazy("Somebody put it on house %(label)s, %(position)s, which is not in use"),
}
"""Needs that the fit does not know, since it looks at numbers where they stand already."""
_UNJUDGED: Mapping[str, str | Promise] = {
    PLACE: gettext_lazy("No place is left that it may have"),
    SAME_PLACE: gettext_lazy("Somebody put two lights on one place"),
    SAME_UNIT: gettext_lazy("Somebody put one unit on two places"),
}


def answer_sentence(proposed: Proposed) -> str:
    """Whether it can be done, in one sentence."""
    if not proposed.asked.lights:
        return _("The show has no numbers yet. Bring in its paperwork first.")
    in_the_way = len(proposed.proposal.in_the_way)
    if in_the_way:
        said = ngettext(
            "Not everything that is asked can be done: %(n)s need is in the way, whatever place is taken.",
            "Not everything that is asked can be done: %(n)s needs are in the way, whatever places are taken.",
            in_the_way,
        )
        return said % {"n": in_the_way} if proposed.proposal.is_best else _best_so_far(in_the_way)
    if proposed.pairs_to_decide:
        return _("Every number gets a place that does what it asks; a pair that has to match still needs a decision.")
    return _("Every number gets a place that does what it asks.")


def _best_so_far(in_the_way: int) -> str:
    said = ngettext(
        "In the best found so far %(n)s need is in the way.",
        "In the best found so far %(n)s needs are in the way.",
        in_the_way,
    )
    return said % {"n": in_the_way}


def price_sentence(proposal: Proposal) -> str:
    """How many numbers have to be taped."""
    if not proposal.tape_changes:
        return _("No tape: every number that gets a place stands where it is painted.")
    said = ngettext(
        "%(n)s number is not painted at its place and has to be taped.",
        "%(n)s numbers are not painted at their places and have to be taped.",
        proposal.tape_changes,
    )
    return said % {"n": proposal.tape_changes}


def change_sentence(proposed: Proposed) -> str:
    """How much of it is not so already."""
    if not proposed.changes:
        return _("All numbers stand like this already: there is nothing to take.")
    moving = len(proposed.moving)
    if not moving:
        return _("No number moves: to take it stores where the paperwork puts them.")
    said = ngettext(
        "%(n)s number stands elsewhere now, or nowhere.", "%(n)s numbers stand elsewhere now, or nowhere.", moving
    )
    return said % {"n": moving}


def light_words(light: ShowLight, asked: Asked) -> str:
    """ "show 5", "show 7, light 2" where a team has several."""
    has_more = any(each.spot == light.spot and each.nth > 1 for each in asked.lights.values())
    words = _("show %(number)s, light %(nth)s") if has_more else _("show %(number)s")
    return words % {"number": light.spot.number, "nth": light.nth}


def place_words(place: Place, asked: Asked) -> str:
    """ "house 4", with its position where another place carries the same label."""
    slot = asked.tonight.slot_of.get(place.pk)
    if slot is not None:
        return house_place(slot, asked.tonight.house)
    return _("house %(label)s at %(position)s") % {"label": place.label, "position": place.position.name}


def now_words(light: ShowLight, proposed: Proposed) -> str:
    """Where the number stands now, if it is proposed elsewhere; else empty."""
    if light.spot not in proposed.moving:
        return ""
    places = [place_words(place, proposed.asked) for place in proposed.now_at(light.spot)]
    return _("Now %(places)s.") % {"places": words_and(places)} if places else _("It has no place yet.")


def need_sentence(light: str, candidate: str | None, need: str, asked: Asked) -> str:
    """A need that a light breaks there, without the stop at its end."""
    if need in _UNJUDGED:
        return str(_UNJUDGED[need])
    return found_sentence(asked.needs[light, candidate or ""][need], asked)


def found_sentence(finding: Finding, asked: Asked) -> str:
    """Something found between a number and a place, without the stop at its end."""
    if finding.code in _OWN_NEEDS:
        return str(_OWN_NEEDS[finding.code]) % dict(finding.facts)
    system: UnitSystem = "imperial" if asked.engagement.house.unit_system == "imperial" else "metric"
    return finding_sentence(finding, system)


def in_the_way(proposal: Proposal, asked: Asked) -> list[tuple[str, str]]:
    """Each need of the least set with the light that has it."""
    return [
        (_whose(asked.lights[key], asked), need_sentence(key, proposal.chosen[key], need, asked))
        for key, need in proposal.in_the_way
    ]


def _whose(light: ShowLight, asked: Asked) -> str:
    words = light_words(light, asked)
    return words if light.fixed is None else _("%(light)s, fixed by hand") % {"light": words}


def reason_sentence(reason: Reason, proposed: Proposed) -> str:
    """Why the light stands there: "house 7 instead of house 5: frame 6 (C-6): FS-5 has 5 frames"."""
    asked = proposed.asked
    if reason.code in _LESS_THAN_PAPERWORK and _is_as_in_paperwork(reason.wanted, proposed):
        return _("The paperwork puts it there.")
    if reason.instead_of is None:
        return str(_ALONE[reason.code])
    here, there = proposed.place_of(asked.lights[reason.wanted]), asked.places[reason.instead_of]
    words = {"there": place_words(there, asked), "why": _AGAINST[reason.code](reason, proposed)}
    if here is None:
        return _("Not %(there)s: %(why)s.") % words
    said = _("%(here)s instead of %(there)s: %(why)s.") % {**words, "here": place_words(here, asked)}
    return said[:1].upper() + said[1:]


def _is_as_in_paperwork(key: str, proposed: Proposed) -> bool:
    light = proposed.asked.lights[key]
    return proposed.place_of(light) in proposed.asked.paper.of[light.spot.pk].places


_LESS_THAN_PAPERWORK = frozenset({"house-order", "taken-by"})
"""Reasons that say less than that the paperwork has it so."""
_ALONE: Mapping[str, str | Promise] = {
    "own-label": gettext_lazy("Its own number is painted there."),
    "fixed": gettext_lazy("Fixed by hand: it stays."),
    "house-order": gettext_lazy("Its number is painted at no place that it may have: the first free one by the house."),
    "no-place": gettext_lazy("Every place that it may have is taken, or there is none."),
    "left": gettext_lazy("It may go without a place."),
}


def _needs(reason: Reason, proposed: Proposed) -> str:
    """What breaks there and not where the light is put."""
    asked, chosen = proposed.asked, proposed.proposal.chosen[reason.wanted]
    here = asked.needs[reason.wanted, chosen] if chosen is not None else {}
    needs = [need for need in reason.needs if need not in here]
    return "; ".join(need_sentence(reason.wanted, reason.instead_of, need, asked) for need in needs)


def _taken(reason: Reason, proposed: Proposed) -> str:
    return _("%(other)s is there") % {"other": _other(reason, proposed)}


def _pair(reason: Reason, proposed: Proposed) -> str:
    return _("it matches %(other)s less well there") % {"other": _other(reason, proposed)}


def _other(reason: Reason, proposed: Proposed) -> str:
    return light_words(proposed.asked.lights[reason.other or ""], proposed.asked)


def _life(reason: Reason, _proposed: Proposed) -> str:
    if reason.hours is None:
        return _("nobody knows how long the lamp there lasts")
    return _("the lamp there has %(hours).0f h left") % {"hours": reason.hours}


_AGAINST: Mapping[str, Callable[[Reason, Proposed], str]] = {
    "needs-broken": _needs,
    "taken-by": _taken,
    "pair": _pair,
    "life": _life,
    "moved": lambda _reason, _proposed: _("its unit would have to be carried there"),
    "given-up": lambda _reason, _proposed: _("nothing speaks against it, but the search was cut short"),
}


def alternative_words(each: Alternative, proposed: Proposed) -> list[str]:
    """What it costs to take another place for the light, the others put at their best."""
    now, then, asked = proposed.proposal, each.proposal, proposed.asked
    worse = [pair for pair in then.in_the_way if pair not in now.in_the_way]
    said = [_in_the_way_then(key, need, then, asked) for key, need in worse]
    said += [_then(key, then, asked) for key in each.elsewhere]
    said += _differences(now, then)
    return said or [_("As good as proposed: by the house it comes later.")]


def _in_the_way_then(key: str, need: str, then: Proposal, asked: Asked) -> str:
    words = {"light": light_words(asked.lights[key], asked), "need": need_sentence(key, then.chosen[key], need, asked)}
    return _("In the way for %(light)s then: %(need)s.") % words


def _then(key: str, then: Proposal, asked: Asked) -> str:
    chosen, light = then.chosen[key], light_words(asked.lights[key], asked)
    if chosen is None:
        return _("Then %(light)s has no place.") % {"light": light}
    return _("Then %(light)s goes to %(place)s.") % {"light": light, "place": place_words(asked.places[chosen], asked)}


def _differences(now: Proposal, then: Proposal) -> Iterator[str]:
    tape = then.tape_changes - now.tape_changes
    if tape > 0:
        yield ngettext("%(n)s number more to tape.", "%(n)s numbers more to tape.", tape) % {"n": tape}
    elif tape < 0:
        yield ngettext("%(n)s number less to tape.", "%(n)s numbers less to tape.", -tape) % {"n": -tape}
    if then.pair_cost != now.pair_cost:
        yield _("Pairs match less well.") if then.pair_cost > now.pair_cost else _("Pairs match better.")
    short_h = then.costs.short_h - now.costs.short_h
    if short_h > 0:
        yield _("Lamps have %(hours).0f h less to spare.") % {"hours": short_h}
    if not then.is_best:
        yield _("This search was cut short: there may be better.")
