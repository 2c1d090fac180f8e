"""What a call's sheet would say now, made from the rows with the same number of queries however many lights.

call --draft_of--> Draft (content, hash, verdict);  call --state_of--> SheetState (against what was issued)
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Any, Literal
from uuid import UUID
from zoneinfo import ZoneInfo

from django.conf import settings
from django.utils import translation
from django.utils.text import capfirst

from crew.core.call_sheet import CallSheet, Change, Hand, SheetLine, canonical, changes, digest, read_sheet
from crew.models import Call, CallLine, IssuedSheet
from crew.models.calls import LineRole
from crew.sheet_places import NOWHERE, PlaceFacts, place_facts
from crew.sheet_tickets import tickets_of
from shows.conditions import conditions_tonight
from shows.lines import ShowLine, Verdict, chosen_way, lines_of, verdict_of
from shows.models import Engagement, ShowEvent
from shows.tonight import Tonight, compared, numbers_of, places_tonight
from venue.core.labels import label_key

State = Literal["none-issued", "current", "changed-not-issued"]


@dataclass(frozen=True)
class Draft:
    """The sheet as it would be now, and the verdict that may stop it."""

    sheet: CallSheet
    verdict: Verdict

    @cached_property
    def content(self) -> str:
        return canonical(self.sheet)

    @cached_property
    def sha256(self) -> str:
        return digest(self.content)


@dataclass(frozen=True)
class SheetState:
    """The draft against the latest issued sheet, if there is one."""

    draft: Draft
    latest: IssuedSheet | None

    @property
    def code(self) -> State:
        if self.latest is None:
            return "none-issued"
        return "current" if self.latest.sha256 == self.draft.sha256 else "changed-not-issued"

    @cached_property
    def changes(self) -> list[Change]:
        """What differs from the latest issued sheet; nothing if none was issued."""
        if self.latest is None or self.code == "current":
            return []
        return changes(read_sheet(self.latest.content), self.draft.sheet)


def state_of(call: Call) -> SheetState:
    """Whether the latest issued sheet says what would be issued now."""
    return SheetState(draft_of(call), latest_sheet(call))


def latest_sheet(call: Call) -> IssuedSheet | None:
    """The latest issued revision of the call's sheet."""
    return call.sheets.filter(kind="call-sheet").order_by("-n").select_related("code").first()


def draft_of(call: Call) -> Draft:
    """The sheet as it would be issued now; in one language, so that nobody's screen changes the content."""
    with translation.override(settings.LANGUAGE_CODE):
        tonight = places_tonight(call.engagement, call.event.starts_at)
        lines, verdict = _numbering(call.engagement, tonight)
        return Draft(_sheet(call, lines, verdict, place_facts(tonight, lines)), verdict)


def numbering_at(engagement: Engagement, at: datetime) -> tuple[tuple[ShowLine, ...], Verdict]:
    """The show's lines and the verdict on its numbers, as they stand at the instant."""
    return _numbering(engagement, places_tonight(engagement, at))


def _numbering(engagement: Engagement, tonight: Tonight) -> tuple[tuple[ShowLine, ...], Verdict]:
    numbers = numbers_of(engagement)
    comparison, way = compared(engagement, tonight, numbers), chosen_way(engagement)
    conditions = conditions_tonight(tonight)
    return lines_of(numbers, tonight, comparison, way, conditions), verdict_of(comparison, way)


def _sheet(call: Call, lines: Iterable[ShowLine], verdict: Verdict, places: Mapping[UUID, PlaceFacts]) -> CallSheet:
    standing = list(call.lines.standing().select_related("person").order_by("sort_key", "seat", "pk"))
    setup = call.engagement.setup
    return CallSheet(
        **crew_of(call, standing),
        notice_kind=verdict.kind,
        notice=verdict.notice or verdict.sentence,
        house_left=setup.house_left_landmark,
        house_right=setup.house_right_landmark,
        stage_end=setup.stage_end_landmark,
        lines=_lines(lines, standing, places, call),
        frame_1_end=call.engagement.frame_1_end,
    )


def crew_of(call: Call, standing: Iterable[CallLine]) -> dict[str, Any]:
    """What the sheet says of the call itself: when, where, whether at all, and who has no number. No query."""
    return {
        "house": call.engagement.house.name,
        "show": call.engagement.name,
        **_times(call),
        **{name: getattr(call, name) for name in ("place", "talk_place", "notes", "weather")},
        "called_off": call.ended_reason or call.event.ended_reason,
        "late_tell": call.roster.late_tell,
        "caller": call.engagement.caller,
        **_without_number([line for line in standing if not line.number_key], call.zone),
    }


def _without_number(standing: Sequence[CallLine], zone: str) -> dict[str, Any]:
    """Those who hear their number at the spot talk, and those who need none."""
    talk = [line for line in standing if line.role == LineRole.OPERATOR]
    hands = [line for line in standing if line.role != LineRole.OPERATOR]
    calls = tuple(_local(line.own_at, zone) for line in talk)
    return {
        "at_spot_talk": tuple(_name(line) for line in talk),
        "talk_calls": calls if any(calls) else (),
        "hands": tuple(Hand(line.role, _name(line), _local(line.own_at, zone)) for line in hands),
    }


def _times(call: Call) -> dict[str, str]:
    event = call.event
    return {
        "event": event_words(event),
        "zone": event.zone,
        "starts": _local(event.starts_at, event.zone),
        "ends": _local(event.ends_at, event.zone),
        "call": _local(call.call_at, call.zone),
        "talk": _local(call.talk_at, call.zone),
        "released": _local(call.ends_at, call.zone),
        "meal": _local(call.meal_at, call.zone),
    }


def event_words(event: ShowEvent) -> str:
    """What is on: its own name, else its kind."""
    return str(event.name or capfirst(event.get_kind_display()))


def _local(instant: datetime | None, zone: str) -> str:
    return instant.astimezone(ZoneInfo(zone)).isoformat() if instant else ""


def _lines(
    lines: Iterable[ShowLine], standing: Sequence[CallLine], places: Mapping[UUID, PlaceFacts], call: Call
) -> tuple[SheetLine, ...]:
    """A line a light; whoever is on a number that the show has no more still stands on the sheet, at its end."""
    people = {(line.number_key, line.seat): line for line in standing if line.number_key}
    tickets, found = tickets_of(call, standing), []
    for (key, seat), light in seated(lines).items():
        place = places.get(light.place_ref, NOWHERE) if light.place_ref else NOWHERE
        line = people.pop((key, seat), None)
        asked = tickets.of(place.asks, line.person_id if line else None)
        found.append(_line(light, seat, {**on_line(line, call.zone), "tickets": asked}, place))
    return (*found, *(SheetLine(line.number, line.seat, **on_line(line, call.zone)) for line in people.values()))


def on_line(line: CallLine | None, zone: str) -> dict[str, Any]:
    """Who is on it, as what, and when that one is to come."""
    if line is None:
        return {}
    role = "" if line.role == LineRole.OPERATOR else line.role
    return {"operator": _name(line), "role": role, "own_call": _local(line.own_at, zone)}


def seated(lights: Iterable[ShowLine]) -> dict[tuple[str, int], ShowLine]:
    """The lights by number key and seat: the places of a team are counted from 1."""
    found: dict[tuple[str, int], ShowLine] = {}
    for light in lights:
        key, seat = label_key(light.number), 1
        while (key, seat) in found:
            seat += 1
        found[key, seat] = light
    return found


def _name(line: CallLine) -> str:
    return line.person.name if line.person else ""


def _line(light: ShowLine, seat: int, person: Mapping[str, Any], place: PlaceFacts) -> SheetLine:
    return SheetLine(
        number=light.number,
        seat=seat,
        label=light.label,
        position=light.position,
        side=light.side_words,
        unit=light.unit,
        tape=light.tape or "",
        channel=light.channel,
        frames=light.frames,
        pick_up=light.pick_up,
        notes=light.notes,
        limits=light.limits,
        stops=light.stops,
        home=light.home,
        **person,
        **place.on_line,
    )
