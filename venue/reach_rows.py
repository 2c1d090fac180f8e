"""What each place of a position reaches of the stage, the pit, the aisles and the house, by what is recorded."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.coverage import Limits, Reached, Zone, reached, rectangle
from venue.core.drawing.records import PlanArea
from venue.core.lengths import UnitSystem
from venue.house_drawings import stage_marks
from venue.models import Blockage, Place, Position, Setup
from venue.throw_book import PlaceLight, limits_of
from venue.wording_light import pan_words
from venue.wording_positions import length_words


@dataclass(frozen=True)
class Areas:
    """What lights have to reach in a set-up: its stage as far as that is recorded, its own areas in their order."""

    stage: Zone | None
    own: tuple[Zone, ...]

    @property
    def all(self) -> tuple[Zone, ...]:
        return self.own if self.stage is None else (self.stage, *self.own)


@dataclass(frozen=True)
class PlaceReach:
    """One place, what is recorded of its view, and how much of each area it reaches, in the areas' order.

    `reached` is empty where the lens is not known.
    """

    place: Place
    limits: Limits
    reached: tuple[Reached, ...]

    def plan_areas(self, areas: Areas) -> list[PlanArea]:
        """The areas to draw, each with the part that is reached, and what is in the way, without a name."""
        pieces = [each.pieces for each in self.reached] or [()] * len(areas.all)
        drawn = [
            PlanArea("" if zone == areas.stage else zone.name, zone.corners, parts)
            for zone, parts in zip(areas.all, pieces, strict=True)
        ]
        return drawn + [PlanArea("", zone.corners) for zone in self.limits.blocked_zones]


def areas_of(setup: Setup) -> Areas:
    """The set-up's stage from its opening, depth and apron, and its areas."""
    marks = stage_marks(setup)
    stage = rectangle(_("stage"), marks.sides, marks.depths) if marks.sides and marks.depths else None
    return Areas(stage, tuple(Zone(area.name, area.polygon) for area in setup.areas.standing()))


def blockages_of(position: Position) -> list[Blockage]:
    """What is in the way of the position's lights; for one that an engagement brings, that engagement's too."""
    rows = position.blockages.standing().select_related("place")
    own = rows.of_house() if position.only_for is None else rows.open_to(position.only_for)
    return list(own)


def place_reaches(lights: Iterable[PlaceLight], areas: Areas, blockages: Sequence[Blockage]) -> list[PlaceReach]:
    """Each place of one position with what it reaches."""
    return [_place_reach(light, areas, blockages) for light in lights]


def _place_reach(light: PlaceLight, areas: Areas, blockages: Sequence[Blockage]) -> PlaceReach:
    limits = limits_of(light.entry.position, blockages, light.place)
    lens = light.lens
    return PlaceReach(light.place, limits, () if lens is None else reached((lens.x_m, lens.y_m), limits, areas.all))


@dataclass(frozen=True)
class ReachTable:
    """A head and, for each area, its name and a cell a place."""

    places: Sequence[Place]
    lines: Sequence[tuple[str, Sequence[str]]]


def reach_table(reaches: Sequence[PlaceReach], areas: Areas) -> ReachTable:
    """How much of each area each place reaches, in words."""
    lines = [(area.name, [_cell(reach, index) for reach in reaches]) for index, area in enumerate(areas.all)]
    return ReachTable([reach.place for reach in reaches], lines)


def _cell(reach: PlaceReach, index: int) -> str:
    if not reach.reached:
        return _("lens not recorded")
    return reached_words(reach.reached[index].share)


def reached_words(share: float | None) -> str:
    """In whole percent, 100 only for all of it and 0 only for nothing; None where nothing is promised."""
    if share is None:
        return _("no limit recorded")
    whole = {0.0: 0, 1.0: 100}.get(round(share, 9), min(99, max(1, round(share * 100))))
    return _("%(percent)s %%") % {"percent": whole}


def limit_facts(position: Position, system: UnitSystem) -> list[tuple[str | Promise, str]]:
    """What is recorded of the view of the position's lights; "" where nothing is."""
    down, up = position.farthest_downstage_m, position.farthest_upstage_m
    return [
        (gettext_lazy("sees downstage as far as"), "" if down is None else length_words("y_m", down, system)),
        (gettext_lazy("sees upstage as far as"), "" if up is None else length_words("y_m", up, system)),
        (gettext_lazy("pans, from straight upstage"), _pans_words(position.pan_from_deg, position.pan_to_deg)),
    ]


def _pans_words(start: float | None, end: float | None) -> str:
    if start is None or end is None:
        return ""
    return _("from %(start)s to %(end)s") % {"start": pan_words(start), "end": pan_words(end)}


def blockage_words(blockage: Blockage) -> list[str]:
    """Where it is in the way, whose place it stops, when it was noted."""
    return list(_blockage_parts(blockage))


def _blockage_parts(blockage: Blockage) -> Iterator[str]:
    pans = _pans_words(blockage.pan_from_deg, blockage.pan_to_deg)
    if blockage.corners:
        yield _("a zone of the plan, taken off")
    if pans:
        yield _("pans %(pans)s, taken off") % {"pans": pans}
    if not blockage.corners and not pans:
        yield _("known only in words: not in the percentages")
    if blockage.place is not None:
        yield _("in the way of place %(label)s alone") % {"label": blockage.place.label}
    if blockage.noted_on is not None:
        yield _("noted on %(day)s") % {"day": date_format(blockage.noted_on, "M j, Y")}
