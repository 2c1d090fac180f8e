"""The advance of a show: what is noted as open, what the book finds open besides, and the house's answer to the tour.

rows --advance_of--> Advance    a constant number of queries, however many numbers, places and points there are
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property

from shows.advance_answer import HouseAnswer, house_answer
from shows.advance_notes import Confirmation, NotedPoints, confirmations_of, noted_points
from shows.asks import color_book, uses_of
from shows.core.advance import Numbering, OpenPoint, Told, open_points
from shows.core.numbering.records import Comparison
from shows.fit import Fit, fit_of
from shows.lines import chosen_way, verdict_of
from shows.models import AdvanceItem, Engagement
from shows.tonight import compared, show_instant
from shows.wording.verdict import is_to_ask, kind
from venue.core.local_time import house_day


@dataclass(frozen=True)
class BookPoint:
    """What the book finds open, and the point that was noted from it; None where none was."""

    point: OpenPoint
    item: AdvanceItem | None


@dataclass(frozen=True)
class Advance:
    """All of it. `open` by date, those without one last; `done` the latest first; `today` is the house's day."""

    engagement: Engagement
    today: date
    open: tuple[AdvanceItem, ...]
    done: tuple[AdvanceItem, ...]
    found: tuple[BookPoint, ...]
    comparison: Comparison
    answer: HouseAnswer
    confirmations: tuple[Confirmation, ...]

    @cached_property
    def overdue(self) -> tuple[AdvanceItem, ...]:
        return tuple(item for item in self.open if is_overdue(item, self.today))

    @property
    def to_note(self) -> tuple[BookPoint, ...]:
        """What the book finds open and nobody noted yet."""
        return tuple(each for each in self.found if each.item is None)

    @property
    def noted(self) -> tuple[BookPoint, ...]:
        """What was noted, and is open in the book still."""
        return tuple(each for each in self.found if each.item is not None)

    def to_note_as(self, key: str) -> OpenPoint | None:
        """What the book finds open under the key, noted or not; None where it is not found any more."""
        return next((each.point for each in self.found if each.point.key == key), None)


def is_overdue(item: AdvanceItem, today: date) -> bool:
    """Whether the point is open past its day."""
    return item.done_at is None and item.due_on is not None and item.due_on < today


def advance_of(engagement: Engagement, now: datetime) -> Advance:
    """The advance as it stands; the engagement comes with its house and set-up."""
    fit = fit_of(engagement, show_instant(engagement), now)
    comparison, way = compared(engagement, fit.tonight, fit.numbers), chosen_way(engagement)
    items = list(engagement.advance_items.standing())
    still_open = sorted((item for item in items if item.done_at is None), key=_by_day)
    done = sorted((item for item in items if item.done_at is not None), key=_when_done, reverse=True)
    found = _found(fit, comparison, way, noted_points(engagement, items))
    asked = [each.point for each in found if each.item is None and each.point.owed_by == "tour"]
    answer = house_answer(fit, verdict_of(comparison, way), way, (*still_open, *done), asked)
    return Advance(
        engagement=engagement,
        today=house_day(now, engagement.house.time_zone, engagement.house.day_turns_at),
        open=tuple(still_open),
        done=tuple(done),
        found=found,
        comparison=comparison,
        answer=answer,
        confirmations=confirmations_of(engagement, answer.sha256),
    )


def _by_day(item: AdvanceItem) -> tuple[bool, date, int]:
    return item.due_on is None, item.due_on or date.max, item.pk


def _when_done(item: AdvanceItem) -> tuple[str, int]:
    return item.done_at.isoformat() if item.done_at else "", item.pk


def _found(fit: Fit, comparison: Comparison, way: str, noted: NotedPoints) -> tuple[BookPoint, ...]:
    numbering = Numbering(
        kind=kind(comparison),
        is_asked=is_to_ask(comparison),
        is_stated=bool(fit.engagement.statement.strip()),
        way_is_open=kind(comparison) == "tell" and bool(comparison.ways_out) and not way,
        flags=comparison.flags,
    )
    points = open_points(
        _told(fit),
        numbering,
        says_frame_1_end=bool(fit.engagement.frame_1_end),
        unexplained=_unexplained(fit),
        undecided=[each.finding for each in fit.open],
    )
    return tuple(BookPoint(point, noted.of(point)) for point in points)


def _told(fit: Fit) -> Iterable[Told]:
    for ask in fit.asks:
        spot = fit.spot_of[ask.number]
        yield Told(
            number=ask.number,
            has_place=bool(fit.places.get(ask.number)),
            says_place=bool(spot.house_label or spot.nth or spot.side),
            says_frames=bool(ask.frames),
            says_gel_by=bool(spot.gel_by),
            says_on_camera=ask.on_camera is not None,
        )


def _unexplained(fit: Fit) -> list[str]:
    """The codes in frames that neither the show nor the house explains. Two queries."""
    book = color_book(fit.engagement)
    return [use.code for use in uses_of(fit.numbers.spots) if book.of(use.code) is None]
