"""What a call sheet says, as plain records, as canonical JSON, and what differs between two of them.

Times are ISO 8601 in the house's zone with offset. Nothing here can reach a person: names, never contacts. The
print time is no part of it.
"""

import hashlib
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace
from functools import cache
from typing import Any

FORMAT = {"format": "throwbook-call-sheet", "version": 1}
CAME_LATER = frozenset(
    {
        *("limits", "stops", "neighbors", "home", "caller", "frame_1_end", "magazine"),
        *("position_zone", "house_side", "row", "bearing_deg"),
        *("released", "meal", "hands", "talk_calls", "role", "own_call", "needs", "weather"),
        *("unit_source", "tickets", "late_tell"),
    }
)


@dataclass(frozen=True)
class SheetLine:
    """One light: its show number, where it is, who runs it.

    `label` is empty where no place is sure yet, `operator` where nobody is on it. `seat` counts the lights of a
    team from 1, `tape` is the text put on the lamp, `side` says where it is from the sides of the house. `limits`
    are what the unit can't do, `stops` why it is out of service.

    `neighbors` say who is beside the lens, a sentence each. `magazine` is how many frames the unit holds, 0 where that
    is not known; `frame_1_end` where the unit counts from, lens, lamp or empty. `position_zone` and `house_side` are
    the numbering's words; `row` counts from 1 at house left (in zone side from downstage up), 0 where no order is
    known. `bearing_deg` is 1 to 360 in a bowl, 360 at the stage end, else 0.

    `role` is empty for a spot operator; `own_call` when this operator is to come, where that is not the call time.
    `needs` are what working at its position takes, in a few words each; `tickets` the certifications that it asks for
    and whether its operator holds them. `unit_source` is what the unit makes its light with.
    """

    number: str
    seat: int = 1
    label: str = ""
    position: str = ""
    side: str = ""
    unit: str = ""
    tape: str = ""
    operator: str = ""
    channel: str = ""
    frames: tuple[str, ...] = ()
    pick_up: str = ""
    notes: str = ""
    cautions: tuple[str, ...] = ()
    limits: tuple[str, ...] = ()
    stops: tuple[str, ...] = ()
    neighbors: tuple[str, ...] = ()
    home: str = ""
    magazine: int = 0
    frame_1_end: str = ""
    position_zone: str = ""
    house_side: str = ""
    row: int = 0
    bearing_deg: int = 0
    role: str = ""
    own_call: str = ""
    needs: tuple[str, ...] = ()
    unit_source: str = ""
    tickets: tuple[str, ...] = ()

    @property
    def key(self) -> tuple[str, int]:
        return self.number, self.seat

    @property
    def held_frames(self) -> list[tuple[int, str]]:
        """Frame number and what it holds, empty frames left out."""
        return [(number, held) for number, held in enumerate(self.frames, start=1) if held]


@dataclass(frozen=True)
class Hand:
    """Somebody without a number who does something else than run a light; `name` is empty for one still to fill.

    `call` is the own call time, empty where that is everybody's.
    """

    role: str
    name: str = ""
    call: str = ""


@dataclass(frozen=True)
class CallSheet:
    """The whole sheet. `notice_kind` is the verdict's: fix, tell, ask, agree or none.

    `called_off` is why nobody is to come, else empty. `at_spot_talk` are operators whose number is told there, in
    order; empty text for one still to fill; `talk_calls` their own call times in the same order, empty where nobody
    has one. `ends` is the event's end, `released` when everybody is expected to be free, `meal` when one is due.
    `late_tell` is who is told by somebody who is late. `caller` is who calls the spots, and from where; `frame_1_end`
    the end that the show counts its frames from.
    """

    house: str
    show: str
    event: str
    zone: str
    starts: str
    call: str
    ends: str = ""
    place: str = ""
    talk: str = ""
    talk_place: str = ""
    notes: str = ""
    notice_kind: str = "none"
    notice: str = ""
    called_off: str = ""
    house_left: str = ""
    house_right: str = ""
    stage_end: str = ""
    lines: tuple[SheetLine, ...] = ()
    at_spot_talk: tuple[str, ...] = ()
    caller: str = ""
    frame_1_end: str = ""
    released: str = ""
    meal: str = ""
    hands: tuple[Hand, ...] = ()
    talk_calls: tuple[str, ...] = ()
    weather: str = ""
    late_tell: str = ""

    @property
    def open_numbers(self) -> list[str]:
        """The show numbers of lights that nobody is on yet."""
        return [line.number for line in self.lines if not line.operator]

    @property
    def wanted(self) -> int:
        """How many people: one a light, more where more are on the call than there are lights, and the hands."""
        on_numbers = len(self.lines) - len(self.open_numbers)
        return max(len(self.lines), on_numbers + len(self.at_spot_talk)) + len(self.hands)

    @property
    def filled(self) -> int:
        """How many people are found. Those of the spot talk take the lights that nobody is on."""
        others = (*self.at_spot_talk, *(hand.name for hand in self.hands))
        return len(self.lines) - len(self.open_numbers) + sum(bool(name) for name in others)

    @property
    def own_calls(self) -> dict[str, str]:
        """The own call times of people without a number, by name."""
        times = [
            *zip(self.at_spot_talk, self.talk_calls, strict=False),
            *((hand.name, hand.call) for hand in self.hands),
        ]
        return {name: call for name, call in times if name and call}

    @property
    def to_fill(self) -> int:
        return self.wanted - self.filled


def canonical(sheet: CallSheet) -> str:
    """The sheet as JSON: one text for one content, whenever and wherever it is written."""
    lines = [_plain(line) for line in sheet.lines]
    document = {**FORMAT, **_plain(replace(sheet, lines=())), "lines": lines}
    return json.dumps(document, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _plain(said: SheetLine | CallSheet) -> dict[str, Any]:
    """The record's values by name; what came in later stands there only if it says something, so that a sheet issued
    before and not changed since keeps its digest.
    """
    return {name: value for name, value in asdict(said).items() if value or name not in CAME_LATER}


def digest(content: str) -> str:
    """SHA-256 of the canonical text, in hexadecimal."""
    return hashlib.sha256(content.encode()).hexdigest()


def read_sheet(content: str) -> CallSheet:
    """The sheet in a canonical text; what an older text lacks has its default."""
    document = json.loads(content)
    lines = tuple(_record(SheetLine, line) for line in document.get("lines", ()))
    hands = tuple(_record(Hand, hand) for hand in document.get("hands", ()))
    sheet: CallSheet = _record(CallSheet, {**document, "lines": lines, "hands": hands})
    return sheet


def _record(kind: Any, values: Mapping[str, Any]) -> Any:
    known = _names(kind)
    plain = {name: tuple(value) if isinstance(value, list) else value for name, value in values.items()}
    return kind(**{name: value for name, value in plain.items() if name in known})


@cache
def _names(kind: Any) -> frozenset[str]:
    return frozenset(field.name for field in fields(kind))


@dataclass(frozen=True)
class Change:
    """One difference. `number` is a line's show number, empty where the sheet as a whole changed.

    `what` is a field of the record, "added", "gone", "at_spot_talk", or the role of those beside the numbers. `who`
    is whose own time it is, where that is somebody without a number.
    """

    what: str
    number: str = ""
    before: str = ""
    after: str = ""
    who: str = ""


def changes(old: CallSheet, new: CallSheet) -> list[Change]:
    """What differs, the sheet's own facts first, then line by line in the new sheet's order."""
    return [
        *_heads(old, new),
        *_talks(old.at_spot_talk, new.at_spot_talk),
        *_hands(old.hands, new.hands),
        *_own_calls(old.own_calls, new.own_calls),
        *_lines(old.lines, new.lines),
    ]


NOT_HEADS = frozenset({"lines", "at_spot_talk", "hands", "talk_calls"})
"""Fields of the sheet that are compared one by one."""


def _heads(old: CallSheet, new: CallSheet) -> Iterator[Change]:
    names = [field.name for field in fields(CallSheet) if field.name not in NOT_HEADS]
    yield from _fields(old, new, names, number="")


def _fields(old: Any, new: Any, names: Sequence[str], number: str) -> Iterator[Change]:
    for name in names:
        before, after = getattr(old, name), getattr(new, name)
        if before != after:
            yield Change(name, number, _text(before), _text(after))


def _text(value: Any) -> str:
    if not isinstance(value, tuple):
        return str(value)
    return ", ".join(each or "—" for each in value)


def _talks(old: Sequence[str], new: Sequence[str]) -> Iterator[Change]:
    if tuple(old) != tuple(new):
        yield Change("at_spot_talk", "", _text(tuple(old)), _text(tuple(new)))


def _hands(old: Sequence[Hand], new: Sequence[Hand]) -> Iterator[Change]:
    for role in dict.fromkeys(hand.role for hand in (*old, *new)):
        before, after = (tuple(hand.name for hand in hands if hand.role == role) for hands in (old, new))
        if before != after:
            yield Change(role, "", _text(before), _text(after))


def _own_calls(old: Mapping[str, str], new: Mapping[str, str]) -> Iterator[Change]:
    for name in {**old, **new}:
        if old.get(name, "") != new.get(name, ""):
            yield Change("own_call", "", old.get(name, ""), new.get(name, ""), who=name)


def _lines(old: Sequence[SheetLine], new: Sequence[SheetLine]) -> Iterator[Change]:
    before = {line.key: line for line in old}
    names = [field.name for field in fields(SheetLine) if field.name not in {"number", "seat"}]
    for line in new:
        if line.key in before:
            yield from _fields(before[line.key], line, names, line.number)
        else:
            yield Change("added", line.number, "", line.operator)
    kept = {line.key for line in new}
    yield from (Change("gone", line.number, line.operator, "") for line in old if line.key not in kept)
