"""What sheets print of an engagement: one line a show number, and the verdict on its numbering.

Plain records, made with the same number of queries however many places there are.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from typing import Literal
from uuid import UUID

from shows.conditions import conditions_tonight
from shows.core.numbering.records import Comparison, Pair
from shows.models import Choice, Engagement, ShowSpot
from shows.tonight import ShowNumbers, Tonight, compared, numbers_of, places_tonight
from shows.wording import choices, sides, verdict
from shows.wording.limits import unit_sentences
from venue.condition import Condition
from venue.core.labels import label_key

Kind = Literal["fix", "tell", "ask", "agree", "none"]
READY = Condition()
"""Of a place where no unit stands."""


@dataclass(frozen=True)
class ShowLine:
    """One show number at one place; a team has a line for each of its places.

    `label`, `position`, `unit` and `side_words` are empty where the number has no place. `source` says what put
    it there: hand, label, place, statement, or empty. `frames[n - 1]` is what frame n holds. `tape` is the text
    that stands on the lamp under the chosen way, None where nothing is taped. `limits` are what the unit can't do
    then, `stops` why it is out of service.
    """

    number: str
    label: str
    position: str
    unit: str
    source: str
    side_words: str
    channel: str
    frames: tuple[str, ...]
    pick_up: str
    notes: str
    place_ref: UUID | None
    tape: str | None
    limits: tuple[str, ...] = ()
    stops: tuple[str, ...] = ()
    home: str = ""

    @property
    def unit_sentences(self) -> list[str]:
        """What the unit can't do, and why it is out of service; nothing where it can do everything."""
        return unit_sentences(self.unit, self.stops, self.limits)


@dataclass(frozen=True)
class Verdict:
    """What the comparison means for tonight.

    fix: wrong lights, nothing may be issued. ask: a question to the tour is open. tell: right lights, different
    paint. agree: nothing to say. none: no number is on a place. `notice` is what every sheet says: the labels'
    sentence where it must be told, and the chosen way; else empty.
    """

    kind: Kind
    sentence: str
    notice: str
    comparison: Comparison


def show_lines(engagement: Engagement, at: datetime) -> tuple[ShowLine, ...]:
    """A line for every show number, in natural order, as it stands at the instant."""
    tonight, numbers = places_tonight(engagement, at), numbers_of(engagement)
    comparison, conditions = compared(engagement, tonight, numbers), conditions_tonight(tonight)
    return lines_of(numbers, tonight, comparison, chosen_way(engagement), conditions)


def verdict_on(engagement: Engagement, at: datetime) -> Verdict:
    """The verdict as it stands at the instant."""
    comparison = compared(engagement, places_tonight(engagement, at), numbers_of(engagement))
    return verdict_of(comparison, chosen_way(engagement))


def choice_of(engagement: Engagement) -> Choice | None:
    """What was chosen and stands, by whom and when."""
    return Choice.objects.standing().filter(engagement=engagement).first()


def chosen_way(engagement: Engagement) -> str:
    """The way out that was chosen: tape, move, renumber; empty where none was."""
    choice = choice_of(engagement)
    return choice.way if choice else ""


def verdict_of(comparison: Comparison, way: str) -> Verdict:
    """The verdict on a comparison under a chosen way (empty: none chosen)."""
    parts = [verdict.labels_sentence(comparison)] if verdict.is_to_tell(comparison) else []
    parts += [choices.on_sheets(comparison, way)]
    notice = " ".join(part for part in parts if part)
    return Verdict(verdict.kind(comparison), verdict.sentence(comparison), notice, comparison)


def lines_of(
    numbers: ShowNumbers, tonight: Tonight, comparison: Comparison, way: str, conditions: Mapping[int, Condition]
) -> tuple[ShowLine, ...]:
    """The lines of a comparison that was made already; conditions by the place's primary key. No query."""
    pairs: dict[str, list[Pair]] = {}
    for pair in comparison.pairs:
        pairs.setdefault(label_key(pair.number), []).append(pair)
    sources, tapes = numbers.source_at, _tapes(comparison, way)
    return tuple(
        line
        for spot in numbers.spots
        for line in _lines(spot, pairs.get(spot.number_key, []), tonight, sources, tapes, conditions)
    )


def _tapes(comparison: Comparison, way: str) -> dict[int, str]:
    """Slot -> what is taped there."""
    changes = next((out.changes for out in comparison.ways_out if out.way == way == "tape"), ())
    return {int(str(slot)): str(text) for slot, text in changes if text is not None}


def _lines(
    spot: ShowSpot,
    pairs: list[Pair],
    tonight: Tonight,
    sources: Mapping[int, str],
    tapes: Mapping[int, str],
    conditions: Mapping[int, Condition],
) -> Iterator[ShowLine]:
    line = partial(
        ShowLine,
        number=spot.number,
        channel=spot.channel,
        frames=tuple(spot.frames),
        pick_up=spot.pick_up,
        notes=spot.notes,
        home=spot.home,
    )
    if not pairs:
        yield line(label="", position="", unit="", source="", side_words="", place_ref=None, tape=None)
    for pair in pairs:
        place = tonight.places[pair.slot]
        condition = conditions.get(place.pk, READY)
        yield line(
            label=place.label,
            position=place.position.name,
            unit=tonight.unit_at(pair.slot),
            source=sources.get(place.pk, pair.source),
            side_words=sides.side_words(pair.slot, tonight.house),
            place_ref=place.ref,
            tape=tapes.get(pair.slot),
            limits=condition.limits,
            stops=condition.stops,
        )
