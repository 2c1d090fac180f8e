"""What sheets print of an engagement: one line a show number, and the verdict on its numbering.

Plain records, made with the same number of queries however many places there are.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from typing import Literal
from uuid import UUID

from shows.core.numbering.records import Comparison, Pair
from shows.models import Choice, Engagement, ShowSpot
from shows.tonight import Tonight, compared, places_tonight
from shows.wording import choices, sides, verdict
from venue.core.labels import label_key, sort_key

Kind = Literal["fix", "tell", "ask", "agree", "none"]


@dataclass(frozen=True)
class ShowLine:
    """One show number at one place; a team has a line for each of its places.

    `label`, `position`, `unit` and `side_words` are empty where the number has no place. `source` says what put
    it there: hand, label, place, statement, or empty. `frames[n - 1]` is what frame n holds. `tape` is the text
    that stands on the lamp under the chosen way, None where nothing is taped.
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
    tonight = places_tonight(engagement, at)
    comparison = compared(engagement, tonight)
    return lines_of(engagement, tonight, comparison, chosen_way(engagement))


def verdict_on(engagement: Engagement, at: datetime) -> Verdict:
    """The verdict as it stands at the instant."""
    return verdict_of(compared(engagement, places_tonight(engagement, at)), chosen_way(engagement))


def chosen_way(engagement: Engagement) -> str:
    """The way out that was chosen: tape, move, renumber; empty where none was."""
    choice = Choice.objects.standing().filter(engagement=engagement).first()
    return choice.way if choice else ""


def verdict_of(comparison: Comparison, way: str) -> Verdict:
    """The verdict on a comparison under a chosen way (empty: none chosen)."""
    parts = [verdict.labels_sentence(comparison)] if verdict.is_to_tell(comparison) else []
    parts += [choices.on_sheets(comparison, way)]
    notice = " ".join(part for part in parts if part)
    return Verdict(verdict.kind(comparison), verdict.sentence(comparison), notice, comparison)


def lines_of(engagement: Engagement, tonight: Tonight, comparison: Comparison, way: str) -> tuple[ShowLine, ...]:
    """The lines of a comparison that was made already. Two queries."""
    sources = _sources(engagement)
    pairs: dict[str, list[Pair]] = {}
    for pair in comparison.pairs:
        pairs.setdefault(label_key(pair.number), []).append(pair)
    tapes = _tapes(comparison, way)
    spots = sorted(engagement.spots.standing(), key=lambda spot: sort_key(spot.number))
    return tuple(
        line for spot in spots for line in _lines(spot, pairs.get(spot.number_key, []), tonight, sources, tapes)
    )


def _sources(engagement: Engagement) -> dict[int, str]:
    """What bound each place, by the place's primary key."""
    return dict(engagement.spot_places.standing().values_list("place", "source"))


def _tapes(comparison: Comparison, way: str) -> dict[int, str]:
    """Slot -> what is taped there."""
    changes = next((out.changes for out in comparison.ways_out if out.way == way == "tape"), ())
    return {int(str(slot)): str(text) for slot, text in changes if text is not None}


def _lines(
    spot: ShowSpot, pairs: list[Pair], tonight: Tonight, sources: Mapping[int, str], tapes: Mapping[int, str]
) -> Iterator[ShowLine]:
    line = partial(
        ShowLine,
        number=spot.number,
        channel=spot.channel,
        frames=tuple(spot.frames),
        pick_up=spot.pick_up,
        notes=spot.notes,
    )
    if not pairs:
        yield line(label="", position="", unit="", source="", side_words="", place_ref=None, tape=None)
    for pair in pairs:
        place, unit = tonight.places[pair.slot], tonight.unit_at(pair.slot)
        yield line(
            label=place.label,
            position=place.position.name,
            unit=unit.tag if unit else "",
            source=sources.get(place.pk, pair.source),
            side_words=sides.side_words(pair.slot, tonight.house),
            place_ref=place.ref,
            tape=tapes.get(pair.slot),
        )
