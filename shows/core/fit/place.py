"""What the place, its unit and its lamp say before any light is asked for.

Is one there, may it burn, did it pass on arrival, who may go up?
"""

from collections.abc import Iterator

from shows.core.fit.records import Ask, Finding, Offer, UnitOffer

UP_THERE = frozenset({"restraint", "harness"})
NEVER_WAIVED = frozenset({"access"})
"""What fails on arrival and may hurt somebody: the way up, harness, way out and rescue."""


def unit_findings(ask: Ask, offer: Offer) -> Iterator[Finding]:
    """No unit, one that is away, one out of service, a lamp at its end. None of these can be waived."""
    where = {"label": offer.label, "position": offer.position}
    if offer.unit is None:
        code = "unit-away" if offer.away else "no-unit"
        facts = {**where, "away": offer.away}
        yield Finding(code, "stops", ask.number, ways=("put-unit", "other-place"), may_be_decided=False, facts=facts)
        return
    unit = offer.unit
    for words in unit.stops:
        code = "danger" if unit.is_dangerous else "unit-out"
        facts = {**where, "unit": unit.tag, "words": words}
        ways = ("mend", "other-unit", "other-place")
        yield Finding(code, "stops", ask.number, words, ways, may_be_decided=False, facts=facts)
    yield from _lamp(ask, unit)


def _lamp(ask: Ask, unit: UnitOffer) -> Iterator[Finding]:
    if unit.lamp is None:
        return
    facts = {"unit": unit.tag, "lamp": unit.lamp.serial, "event": unit.lamp.event}
    if unit.lamp.is_past:
        ways = ("relamp", "other-unit")
        yield Finding("lamp-past-stop", "stops", ask.number, unit.lamp.serial, ways, may_be_decided=False, facts=facts)
    elif unit.lamp.event:
        about, ways = f"{unit.lamp.serial} {unit.lamp.event_key}", ("relamp-before", "other-unit")
        yield Finding("lamp-will-not-last", "stops", ask.number, about, ways, facts=facts)


def check_findings(ask: Ask, offer: Offer) -> Iterator[Finding]:
    """What the arrival check found failing at the place, until a later look finds that it passes."""
    for item, note in offer.failed:
        about = f"{item} {offer.label} {offer.position}"
        facts = {"label": offer.label, "position": offer.position, "item": item, "words": note}
        if item in NEVER_WAIVED:
            ways: tuple[str, ...] = ("mend", "other-place")
            yield Finding("check-failed", "stops", ask.number, about, ways, may_be_decided=False, facts=facts)
        else:
            ways = ("mend", "other-place", "go-on")
            yield Finding("check-failed", "stops", ask.number, about, ways, "road", facts=facts)


def position_findings(ask: Ask, offer: Offer) -> Iterator[Finding]:
    """What the position asks of whoever works there, and what is in the way of its lights."""
    where: dict[str, object] = {"label": offer.label, "position": offer.position}
    if offer.fall_protection in UP_THERE and not offer.has_rescue_plan:
        ways = ("rescue-plan", "other-place")
        yield Finding("no-rescue-plan", "stops", ask.number, ways=ways, may_be_decided=False, facts=where)
    if offer.is_up_high and not offer.fall_protection:
        yield Finding(
            "fall-protection-not-recorded", "stops", ask.number, ways=("record",), may_be_decided=False, facts=where
        )
    if offer.fall_protection in UP_THERE:
        facts = {**where, "protection": offer.fall_protection}
        yield Finding("needs-certification", "note", ask.number, ways=("tell-dispatch",), facts=facts)
    if offer.show_exit == "no":
        yield Finding("no-exit", "note", ask.number, ways=("tell-dispatch",), facts=where)
    if offer.who_may_operate == "house":
        yield Finding("house-staff-only", "note", ask.number, ways=("tell-dispatch",), facts=where)
    if offer.needs:
        yield Finding("position-needs", "note", ask.number, facts={**where, "words": offer.needs})
    for words in offer.blockages:
        yield Finding(
            "in-the-way",
            "limits",
            ask.number,
            words,
            ("clear", "other-place", "go-on"),
            facts={**where, "words": words},
        )
    if offer.circuit_over_a is not None:
        facts = {**where, "circuit": offer.circuit, "over_a": offer.circuit_over_a}
        circuit_ways = ("other-circuit", "other-place", "electrician-decides")
        yield Finding("circuit-over", "stops", ask.number, offer.circuit, circuit_ways, "electrician", facts=facts)
