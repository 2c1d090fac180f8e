"""The throws of the house, place by place: as told, as the measures give them, to the set-up's target."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from venue.core.lengths import UnitSystem
from venue.core.sightlines import Finding
from venue.models import Place, Position, Unit
from venue.throw_book import PlaceLight
from venue.wording_light import finding_advice, finding_words
from venue.wording_throws import Fact, computed_words, end_words, line_facts, told_words


@dataclass(frozen=True)
class Oddity:
    """What is odd in words, what to do about it, and whether the place's form is where to do it."""

    words: str
    advice: str
    is_of_record: bool


@dataclass(frozen=True)
class ThrowRow:
    """One place in words. `line` is to the set-up's target, empty where the lens is not known."""

    place: Place
    unit: Unit | None
    is_measured: bool
    told: str
    computed: str
    end: str
    line: Sequence[Fact]
    oddities: Sequence[Oddity]


@dataclass(frozen=True)
class ThrowGroup:
    """The places of one position, in their order."""

    position: Position
    rows: Sequence[ThrowRow]


def throw_groups(lights: Iterable[PlaceLight], system: UnitSystem, *, is_on_camera: bool = False) -> list[ThrowGroup]:
    """The lights in their order, those of one position together."""
    return [
        ThrowGroup(position, [throw_row(light, system, is_on_camera=is_on_camera) for light in group])
        for position, group in groupby(lights, key=lambda light: light.entry.position)
    ]


def throw_row(light: PlaceLight, system: UnitSystem, *, is_on_camera: bool = False) -> ThrowRow:
    """One place in words."""
    return ThrowRow(
        place=light.place,
        unit=light.unit,
        is_measured=light.lens is not None,
        told=told_words(light.place, system),
        computed=computed_words(light, system),
        end=end_words(light.place),
        line=() if light.line is None else line_facts(light.line, system),
        oddities=oddities(light.findings(is_on_camera=is_on_camera), system),
    )


OF_RECORD = ("throw", "height", "impossible-angle", "stated")
"""Ends of the codes that a correction of the place may settle."""


def oddities(found: Iterable[Finding], system: UnitSystem) -> list[Oddity]:
    """Findings in words."""
    return [Oddity(finding_words(each, system), finding_advice(each), each.code.endswith(OF_RECORD)) for each in found]
