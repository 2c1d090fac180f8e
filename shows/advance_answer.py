"""The house's answer to a tour, as the tour's head reads and confirms it: places, units, findings, what is open.

A Fit and the points --house_answer--> HouseAnswer    one query besides
Nothing of other shows, of the crew or of where units of the house went gets in here.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any
from uuid import UUID

from shows.core.advance import OpenPoint, digests
from shows.core.fit.judging import fingerprint
from shows.core.fit.records import Finding, UnitOffer
from shows.fit import Decided, Fit
from shows.lines import ShowLine, Verdict, lines_of
from shows.models import AdvanceItem, Engagement


@dataclass(frozen=True)
class AnsweredPlace:
    """A place of a number with what the unit there has for it."""

    line: ShowLine
    unit: UnitOffer | None


@dataclass(frozen=True)
class AnsweredNumber:
    """One show number: its places, and everything found of it, the worst first."""

    number: str
    places: tuple[AnsweredPlace, ...]
    findings: tuple[Decided, ...]


@dataclass(frozen=True)
class HouseAnswer:
    """All that the tour's head is shown. `points` are noted, `asked` are found open with the tour and not noted."""

    engagement: Engagement
    verdict: Verdict
    way: str
    numbers: tuple[AnsweredNumber, ...]
    points: tuple[AdvanceItem, ...]
    asked: tuple[OpenPoint, ...]

    @cached_property
    def sha256(self) -> dict[str, str]:
        """The hash of each part and of the whole."""
        return digests({
            "show": self._show(),
            "numbers": [_number(each) for each in self.numbers],
            "findings": [_finding(each) for number in self.numbers for each in number.findings],
            "points": [*map(_point, self.points), *([each.key, each.names] for each in self.asked)],
        })  # fmt: skip

    def _show(self) -> list[Any]:
        show, verdict = self.engagement, self.verdict
        days = [show.starts_on, show.ends_on]
        return [show.name, show.house.name, show.setup.name, *days, show.statement, verdict.kind, self.way]


def house_answer(
    fit: Fit, verdict: Verdict, way: str, points: Iterable[AdvanceItem], asked: Iterable[OpenPoint]
) -> HouseAnswer:
    """The answer as it stands. `points` come in the order in which they are shown."""
    own = set(fit.engagement.events.standing().values_list("ref", flat=True))
    lines: dict[str, list[ShowLine]] = {}
    for line in _lines(fit, verdict, way):
        lines.setdefault(line.number, []).append(line)
    numbers = [
        AnsweredNumber(ask.number, _places(fit, ask.number, lines), tuple(_findings(fit, ask.number, own)))
        for ask in fit.asks
    ]
    return HouseAnswer(fit.engagement, verdict, way, tuple(numbers), tuple(points), tuple(asked))


def _lines(fit: Fit, verdict: Verdict, way: str) -> tuple[ShowLine, ...]:
    units = {key: light.unit for key, light in fit.house.lights.items() if light.unit is not None}
    conditions = {key: fit.house.conditions[unit.pk] for key, unit in units.items() if unit.pk in fit.house.conditions}
    return lines_of(fit.numbers, fit.tonight, verdict.comparison, way, conditions)


def _places(fit: Fit, number: str, lines: Mapping[str, list[ShowLine]]) -> tuple[AnsweredPlace, ...]:
    """Lines and offers both come in the order of the comparison's pairs."""
    offers = fit.offers.get(number, ())
    pairs = zip(lines[number], offers, strict=True) if offers else ()
    return tuple(AnsweredPlace(line, offer.unit) for line, offer in pairs)


def _findings(fit: Fit, number: str, own_events: set[UUID]) -> Iterator[Decided]:
    """Each finding, said so that a stranger may read it."""
    for each in fit.of(number):
        yield replace(each, finding=told_outside(each.finding, own_events))


def told_outside(finding: Finding, own_events: set[UUID]) -> Finding:
    """Without where the house's unit is meanwhile, and without the event of another show."""
    if finding.code == "unit-away":
        return replace(finding, code="no-unit", facts={**finding.facts, "away": ""})
    is_own = any(finding.about.endswith(str(ref)) for ref in own_events)
    if finding.code == "lamp-will-not-last" and not is_own:
        lamp = finding.facts["lamp"]
        return replace(finding, code="lamp-ends-before", about=str(lamp), facts={**finding.facts, "event": ""})
    return finding


def _number(each: AnsweredNumber) -> list[Any]:
    return [each.number, [_place(place) for place in each.places]]


def _place(place: AnsweredPlace) -> list[Any]:
    line, unit = place.line, place.unit
    where = [line.position, line.label, line.side_words, line.tape, line.unit]
    return [*where, line.unit_sentences, unit and [unit.frames, unit.frame_1_end]]


def _finding(each: Decided) -> list[Any]:
    decision = each.decision
    decided = decision and [decision.way, decision.reason, decision.decided_by, decision.decided_at]
    return [each.finding.number, each.finding.code, each.finding.about, fingerprint(each.finding), decided]


def _point(point: AdvanceItem) -> list[Any]:
    return [point.what, point.owed_by, point.due_on, point.answer, point.done_by, point.done_at]
