"""The condition of units: what stops them, what limits them, and everything that care knows of one unit."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import Literal

from django.db.models import Q, QuerySet
from django.utils.safestring import SafeString

from venue.care import hours_of, state_of
from venue.core.care import DueState
from venue.light_book import UnitLight, light_of
from venue.light_picture import light_picture
from venue.models import CareItem, Fault, LampDecision, LampTally, LogEntry, Unit
from venue.models.faults import Limit, Means
from venue.wording_care import STATE_WORDS, due_words, finding_words, share_words
from venue.wording_faults import (
    decision_words,
    fault_words,
    frames_of,
    lamp_stop_words,
    limit_words,
    note_words,
    open_relamp_words,
    stop_words,
)

State = Literal["ready", "limited", "out"]
LAST_ENTRIES = 10


@dataclass(frozen=True)
class Condition:
    """What a unit can do, each line a sentence for a sheet.

    `limits`: what it can't do. `stops`: why it is out of service. `notes`: what is good to know. `frames_out`
    are the numbers of its frames that can't be used; `limit_kinds` are the limits by their codes (`Limit`),
    `other_limits` the sentences of those that have no code of their own. `is_dangerous`: one of the stops is a danger.
    `past_lamp` is the serial of a lamp past its stop that nobody let burn on.
    """

    limits: tuple[str, ...] = ()
    stops: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    frames_out: tuple[int, ...] = ()
    limit_kinds: frozenset[str] = frozenset()
    other_limits: tuple[str, ...] = ()
    is_dangerous: bool = False
    past_lamp: str = ""

    @property
    def state(self) -> State:
        if self.stops:
            return "out"
        return "limited" if self.limits else "ready"


@dataclass
class _Lines:
    limits: list[str] = field(default_factory=list)
    stops: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    frames: set[int] = field(default_factory=set)
    kinds: set[str] = field(default_factory=set)
    others: list[str] = field(default_factory=list)
    is_dangerous: bool = False
    past_lamp: str = ""

    def condition(self) -> Condition:
        said = tuple(self.limits), tuple(self.stops), tuple(self.notes), tuple(sorted(self.frames))
        return Condition(*said, frozenset(self.kinds), tuple(self.others), self.is_dangerous, self.past_lamp)


def conditions_of(units: Iterable[Unit], at: datetime) -> dict[int, Condition]:
    """The condition of each unit at an instant, by its id, in four queries.

    Faults are those that stand then; lamps are as their last readings have them.
    """
    ids = [unit.pk for unit in units]
    lines: dict[int, _Lines] = defaultdict(_Lines)
    for fault in Fault.objects.filter(Q(closed_at__isnull=True) | Q(closed_at__gt=at), unit__in=ids, opened_at__lte=at):
        _add_fault(lines[fault.unit_id], fault)
    _add_lamps(lines, ids)
    for entry in LogEntry.objects.to_answer().filter(unit__in=ids, at__lte=at).select_related("house"):
        lines[entry.unit_id or 0].notes.append(open_relamp_words(entry))
    return {unit_id: lines[unit_id].condition() for unit_id in ids}


def _add_fault(lines: _Lines, fault: Fault) -> None:
    if fault.means == Means.OUT:
        lines.stops.append(stop_words(fault))
        lines.is_dangerous |= bool(fault.danger)
    elif fault.means == Means.LIMITED:
        _add_limit(lines, fault)
    else:
        lines.notes.append(note_words(fault))


def _add_limit(lines: _Lines, fault: Fault) -> None:
    lines.limits.append(limit_words(fault))
    if fault.limit_kind == Limit.FRAMES:
        lines.frames |= set(frames_of(fault))
    elif fault.limit_kind in {"", Limit.OTHER}:
        lines.others.append(limit_words(fault))
    else:
        lines.kinds.add(fault.limit_kind)


def _add_lamps(lines: dict[int, _Lines], ids: list[int]) -> None:
    """A lamp past its stop puts its unit out of service, unless a named person decided that it burns on."""
    past = list(LampTally.objects.filter(unit__in=ids, left_h__lte=0).select_related("lamp"))
    decisions = {row.lamp_id: row for row in LampDecision.objects.filter(lamp__in=[tally.lamp_id for tally in past])}
    for tally in past:
        decision = decisions.get(tally.lamp_id)  # the last one, since they come by time
        if decision is not None and tally.hours < decision.until_h:
            lines[tally.unit_id or 0].notes.append(decision_words(decision))
        else:
            lines[tally.unit_id or 0].stops.append(lamp_stop_words(tally))
            lines[tally.unit_id or 0].past_lamp = tally.lamp.serial


@dataclass(frozen=True)
class DueItem:
    """An item of care with how pressing it is, and the unit hours that it is held against."""

    item: CareItem
    state: DueState
    hours: Decimal | None

    @property
    def state_words(self) -> str:
        return str(STATE_WORDS[self.state])

    @property
    def words(self) -> str:
        return due_words(self.item, self.hours)


@dataclass(frozen=True)
class StandingFault:
    """A fault that stands, with its sentence."""

    fault: Fault

    @property
    def words(self) -> str:
        return fault_words(self.fault)


@dataclass(frozen=True)
class UnitCare:
    """What care knows of one unit, for its page.

    `condition` as it is now; `faults` that stand; `log`: the last ten entries, struck out ones too, latest first;
    `to_answer`: relamps with open questions; `due` by date; `picture` of its light as SVG, empty below two readings.
    """

    condition: Condition
    faults: tuple[StandingFault, ...]
    log: tuple[LogEntry, ...]
    to_answer: tuple[LogEntry, ...]
    light: UnitLight
    due: tuple[DueItem, ...]
    picture: SafeString

    @property
    def beside_faults(self) -> list[str]:
        """What else stops the unit or is good to know: its lamp, an open relamp."""
        told = {each.words for each in self.faults}
        return [line for line in (*self.condition.stops, *self.condition.notes) if line not in told]

    @property
    def findings(self) -> list[str]:
        """What the light readings tell, in sentences."""
        return [finding_words(each) for each in self.light.findings]

    @property
    def last_share(self) -> str:
        """How much of its first light the unit gave last; empty where they do not compare."""
        share = self.light.rows[-1].share if self.light.rows else None
        return "" if share is None else share_words(share)


def care_of(unit: Unit, now: datetime) -> UnitCare:
    """Everything that care knows of the unit, in a constant number of queries, each bounded."""
    log = LogEntry.objects.filter(unit=unit).select_related("house", "unit").order_by("-at", "-pk")
    light, standing = light_of(unit, now), Fault.objects.standing()
    return UnitCare(
        condition=conditions_of([unit], now)[unit.pk],
        faults=tuple(map(StandingFault, standing.filter(unit=unit).select_related("unit").by_gravity())),
        log=tuple(log[:LAST_ENTRIES]),
        to_answer=tuple(log.to_answer()[:LAST_ENTRIES]),
        light=light,
        due=tuple(due_items(CareItem.objects.standing().filter(unit=unit).order_by("due_on", "pk"), now)),
        picture=light_picture(unit, light),
    )


def due_items(items: Iterable[CareItem], now: datetime) -> list[DueItem]:
    """The items with how pressing each is now; they come with their plan, unit and house, or those are asked for."""
    if isinstance(items, QuerySet):
        items = items.select_related("plan", "unit", "house")
    rows = list(items)
    hours = hours_of({item.unit_id for item in rows if item.unit_id})
    return [
        DueItem(
            item, state_of(item, hours.get(item.unit_id or 0), now, item.house.time_zone), hours.get(item.unit_id or 0)
        )
        for item in rows
    ]
