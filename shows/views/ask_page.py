"""What the page of all asks shows: a card a number, what is said of it, what nobody said."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Max
from django.utils.translation import gettext as _

from shows.asks import ColorBook, asks_from, color_book, uses_of
from shows.core.fit.records import Ask
from shows.models import Engagement, ShowSpot
from shows.tonight import ShowNumbers, Tonight, compared, numbers_of, places_tonight, show_instant
from shows.wording import asks as words
from venue.core.labels import label_key
from venue.models import Event, Place, Placement

Fact = tuple[str, str]
"""The name of a fact, and what is said of it."""


@dataclass(frozen=True)
class FrameLine:
    """One frame and each color in it, with what is known of the color."""

    number: int
    colors: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class AskCard:
    """All that one number asks. `by_hand` names what was changed by hand since the paperwork came."""

    spot: ShowSpot
    places: tuple[Place, ...]
    frames: tuple[FrameLine, ...]
    said: tuple[Fact, ...]
    not_said: str
    by_hand: str


def ask_context(engagement: Engagement) -> dict[str, Any]:
    """Everything that the template names; a constant number of queries."""
    tonight, numbers = places_tonight(engagement, show_instant(engagement)), numbers_of(engagement)
    book, places = color_book(engagement), _places(engagement, tonight, numbers)
    by_hand, asks = _by_hand(engagement, numbers.spots), asks_from(engagement, numbers.spots, book)
    return {
        "engagement": engagement,
        "show_said": _show_facts(engagement),
        "cards": [
            _card(engagement, spot, ask, book, places.get(spot.number_key, ()), by_hand.get(spot.pk, ()))
            for spot, ask in zip(numbers.spots, asks, strict=True)
        ],
        "unexplained": [use.code for use in uses_of(numbers.spots) if book.of(use.code) is None],
    }


def _show_facts(engagement: Engagement) -> list[Fact]:
    return [
        (_("On camera"), words.said(engagement.on_camera)),
        (_("Frame 1 at"), words.frame_one_words(engagement.frame_1_end)),
        (_("Caller"), engagement.caller or words.not_said()),
    ]


def _places(engagement: Engagement, tonight: Tonight, numbers: ShowNumbers) -> dict[str, tuple[Place, ...]]:
    """The places of each number, by its key."""
    found: dict[str, list[Place]] = {}
    for pair in compared(engagement, tonight, numbers).pairs:
        found.setdefault(label_key(pair.number), []).append(tonight.places[pair.slot])
    return {key: tuple(some) for key, some in found.items()}


def _card(
    engagement: Engagement,
    spot: ShowSpot,
    ask: Ask,
    book: ColorBook,
    places: tuple[Place, ...],
    by_hand: Iterable[str],
) -> AskCard:
    facts = list(_facts(engagement, spot, ask))
    missing = [] if ask.frames else [_("Frames")]
    missing += [name for name, said in facts if said == words.not_said()]
    return AskCard(
        spot=spot,
        places=places,
        frames=tuple(_frame_lines(ask, book)),
        said=tuple(fact for fact in facts if fact[1] != words.not_said()),
        not_said=", ".join(name.lower() for name in missing),
        by_hand=words.overwritten_words(by_hand),
    )


def _frame_lines(ask: Ask, book: ColorBook) -> Iterator[FrameLine]:
    for frame in ask.frames:
        codes = [color.code for color in frame.colors]
        yield FrameLine(frame.number, tuple((code, words.color_words(book.of(code))) for code in codes))


def _facts(engagement: Engagement, spot: ShowSpot, ask: Ask) -> Iterator[Fact]:
    nobody = words.not_said()
    yield _("Least light"), words.light_words(spot.least_lux, engagement.house.unit_system)  # type: ignore[arg-type]
    yield _("Sizes"), words.sizes_words(ask.sizes)
    yield _("On camera"), words.camera_words(spot, engagement)
    yield _("Full blackout"), words.said(spot.full_blackout)
    yield _("Strip cut out"), words.said(spot.strip_out)
    yield _("Channel"), spot.channel or nobody
    yield _("Home pick-up"), spot.home or nobody
    yield _("Pick-up"), spot.pick_up or nobody
    yield _("Has to match"), _("show %(number)s") % {"number": ask.matches} if ask.matches else nobody
    yield _("Who brings the color"), words.gel_by_words(spot.gel_by)
    yield _("Notes"), spot.notes or nobody


def _by_hand(engagement: Engagement, spots: Iterable[ShowSpot]) -> Mapping[int, set[str]]:
    """Which columns of the paperwork hold something else than it said, because somebody changed them; two queries."""
    since = engagement.paperwork.in_force().values_list("accepted_at", flat=True).first()
    if since is None:
        return {}
    of_ref, refs = {spot.ref: spot for spot in spots}, engagement.spots.standing().values("ref")
    lines = Event.objects.filter(subject_kind="showspot", subject_ref__in=refs, at__gte=since, verb="showspot.changed")
    before: dict[int, dict[str, Any]] = {}
    for ref, data in lines.values_list("subject_ref", "data"):
        for column, (old, _new) in data.get("changed", {}).items():
            before.setdefault(of_ref[ref].pk, {}).setdefault(column, old)
    by_key = {spot.pk: spot for spot in of_ref.values()}
    return {
        key: {column for column, old in columns.items() if getattr(by_key[key], column, old) != old}
        for key, columns in before.items()
    }


def frames_there(spot: ShowSpot, at: datetime) -> int:
    """The most frames of a unit at one of the number's places at the instant; 0 where none is recorded."""
    places = spot.spot_places.standing().values("place")
    found = Placement.objects.at(at).filter(place__in=places).aggregate(most=Max("unit__frames"))
    return found["most"] or 0
