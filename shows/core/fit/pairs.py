"""Two numbers that have to match: what keeps their lights from being brought together."""

from collections.abc import Iterable, Iterator, Mapping

from shows.core.fit.records import Ask, Finding
from venue.core.matching import Match

_WAYS = {
    "sources-differ": ("other-unit", "correct-color", "go-on"),
    "levels-differ": ("douse-brighter", "other-unit"),
    "colors-differ": ("correct-color", "go-on"),
    "no-correction": ("other-unit", "go-on"),
    "no-size-in-common": ("other-unit", "other-size"),
}
_STOPPING = frozenset({"sources-differ", "no-correction", "no-size-in-common"})


def pairs_of(asks: Iterable[Ask]) -> list[tuple[str, str]]:
    """Each pair of numbers once, the asking one first; a number that matches itself or nobody is left out."""
    known = {ask.number: ask.matches for ask in asks}
    found: list[tuple[str, str]] = []
    for number, other in known.items():
        if other in known and other != number and (other, number) not in found:
            found.append((number, other))
    return found


def pair_findings(asks: Iterable[Ask], matches: Mapping[tuple[str, str], Match]) -> Iterator[Finding]:
    """What the match of each pair found; a pair without both lights known finds nothing."""
    asks = tuple(asks)
    numbers = {ask.number for ask in asks}
    for ask in asks:
        if ask.matches and ask.matches not in numbers:
            ways, unknown = ("correct-paperwork",), {"other": ask.matches}
            yield Finding("pair-unknown", "limits", ask.number, ask.matches, ways, "road", facts=unknown)
    for (number, other), match in matches.items():
        for found in match.findings:
            if found.code in _WAYS:
                facts: dict[str, object] = {"other": other, "value": found.value, "limit": found.limit}
                gravity = "stops" if found.code in _STOPPING else "limits"
                code = f"pair-{found.code}"
                yield Finding(code, gravity, number, other, _WAYS[found.code], "road", facts=facts)  # type: ignore[arg-type]
