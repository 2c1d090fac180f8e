"""What a number asks of the light itself: how much, how small, how large, how dark, with what shape."""

from collections.abc import Iterator

from shows.core.fit.records import Ask, Finding, Offer, UnitOffer
from venue.core.pick_ups import PickUp

_BY_LIMIT = {
    "blackout": ("no-full-blackout", ("mend", "other-unit", "other-spot")),
    "camera": ("not-on-camera", ("mend", "other-unit", "other-spot")),
    "shutters": ("no-strip", ("free-shutters", "other-unit", "other-spot")),
}


def light_findings(ask: Ask, offer: Offer) -> Iterator[Finding]:
    """Light that falls short, or that nobody can tell."""
    if ask.least_lux is None or offer.unit is None:
        return
    facts = {"unit": offer.unit.tag, "least_lux": ask.least_lux, "lux": offer.lux}
    if offer.lux is None:
        yield Finding("light-not-known", "note", ask.number, ways=("measure",), facts=facts)
    elif offer.lux.high < ask.least_lux:
        ways = ("other-unit", "other-place", "less-light")
        yield Finding("light-short", "stops", ask.number, ways=ways, decider="road", facts=facts)
    elif offer.lux.low < ask.least_lux:
        yield Finding("light-may-be-short", "limits", ask.number, ways=("measure",), facts=facts)


def size_findings(ask: Ask, offer: Offer) -> Iterator[Finding]:
    """Sizes that the unit can't close or open to from there."""
    known = {each.size.name: each for each in offer.pick_ups}
    for name in ask.sizes:
        found = known.get(name)
        if offer.unit is not None and found is not None:
            yield from _size(ask, name, found, offer.unit)


def _size(ask: Ask, name: str, pick_up: PickUp, unit: UnitOffer) -> Iterator[Finding]:
    facts = {"unit": unit.tag, "size": name, "beam_deg": pick_up.beam_deg, "limit_deg": pick_up.limit_deg}
    if pick_up.reach is None:
        yield Finding("size-not-known", "note", ask.number, name, ("record",), facts=facts)
    elif pick_up.reach != "ok":
        code = "cant-close" if pick_up.reach == "too-small" else "cant-open"
        ways = ("other-size", "other-unit", "other-place")
        yield Finding(code, "stops", ask.number, name, ways, "road", facts=facts)


def limit_findings(ask: Ask, offer: Offer) -> Iterator[Finding]:
    """Faults that limit the unit against what is asked; a limit that the show does not mind is a note."""
    unit = offer.unit
    if unit is None:
        return
    wanted = {"blackout": ask.full_blackout, "camera": ask.on_camera, "shutters": ask.strip_out}
    for limit in sorted(unit.limits & wanted.keys()):
        code, ways = _BY_LIMIT[limit]
        gravity, note_ways = ("stops", ways) if wanted[limit] else ("note", ("ask-tour",))
        if wanted[limit] is not False:
            yield Finding(code, gravity, ask.number, ways=note_ways, decider="road", facts={"unit": unit.tag})  # type: ignore[arg-type]
    if "iris" in unit.limits:
        gravity_of_iris = "stops" if len(ask.sizes) > 1 else "limits"
        ways = ("mend", "other-unit", "other-size")
        yield Finding("fixed-iris", gravity_of_iris, ask.number, ways=ways, decider="road", facts={"unit": unit.tag})  # type: ignore[arg-type]
    for words in unit.other_limits:
        facts = {"unit": unit.tag, "words": words}
        yield Finding("limited", "limits", ask.number, words, ("mend", "other-unit", "go-on"), facts=facts)
    if ask.on_camera and offer.is_steep_for_camera:
        yield Finding("steep-for-camera", "limits", ask.number, ways=("other-place", "go-on"), decider="road")
