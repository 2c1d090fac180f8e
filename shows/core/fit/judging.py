"""All findings of a show on a house, in the order in which they are told, and what is still to be decided."""

import hashlib
import json
from collections.abc import Collection, Iterable, Iterator, Mapping

from shows.core.fit.frames import frame_findings
from shows.core.fit.lighting import light_findings, limit_findings, size_findings
from shows.core.fit.pairs import pair_findings
from shows.core.fit.place import check_findings, position_findings, unit_findings
from shows.core.fit.records import Ask, Finding, Offer
from venue.core.matching import Match

_ORDER = {"stops": 0, "limits": 1, "note": 2}


def spot_findings(ask: Ask, offer: Offer | None) -> tuple[Finding, ...]:
    """What is between one number and its place; None where it has no place. The worst first."""
    return _worst_first(_spot(ask, offer))


def _spot(ask: Ask, offer: Offer | None) -> Iterator[Finding]:
    if offer is None:
        yield Finding("no-place", "stops", ask.number, ways=("assign",), may_be_decided=False)
        return
    yield from unit_findings(ask, offer)
    yield from check_findings(ask, offer)
    yield from position_findings(ask, offer)
    if offer.unit is not None:
        yield from frame_findings(ask, offer.unit)
    yield from limit_findings(ask, offer)
    yield from light_findings(ask, offer)
    yield from size_findings(ask, offer)


def show_findings(
    asks: Iterable[Ask], offers: Mapping[str, Iterable[Offer]], matches: Mapping[tuple[str, str], Match]
) -> tuple[Finding, ...]:
    """Of a whole show: by number in the order of the asks, pairs with the number that asks for them.

    A team has an offer for each of its places; what is found at two of them is told once.
    """
    asks = tuple(asks)
    paired: dict[str, list[Finding]] = {}
    for finding in pair_findings(asks, matches):
        paired.setdefault(finding.number, []).append(finding)
    found: list[Finding] = []
    for ask in asks:
        places: list[Offer | None] = [*offers.get(ask.number, ())] or [None]
        own = [finding for place in places for finding in _spot(ask, place)] + paired.get(ask.number, [])
        found += _worst_first({finding.key: finding for finding in own}.values())
    return tuple(found)


def _worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(findings, key=lambda finding: _ORDER[finding.gravity]))


def fingerprint(finding: Finding) -> str:
    """SHA-256 of what the finding says: a decision counts only for what was decided."""
    said = [finding.code, finding.gravity, finding.number, finding.about, sorted(finding.facts.items())]
    return hashlib.sha256(json.dumps(said, default=str).encode()).hexdigest()


def undecided(findings: Iterable[Finding], decided: Collection[tuple[tuple[str, str, str], str]]) -> list[Finding]:
    """The findings that stop the show still: (key, fingerprint) of what was decided; what may not be, always does."""
    return [
        finding
        for finding in findings
        if finding.gravity == "stops"
        and not (finding.may_be_decided and (finding.key, fingerprint(finding)) in decided)
    ]
