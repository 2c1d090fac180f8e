"""The house, its set-ups, positions, places and units, and where the units are, as a file says it.

`given` holds the keys that the file itself wrote: an update changes these and leaves the rest as it is stored.
"""

from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Annotated

from venue.core.bearings import bearing_about
from venue.core.labels import label_key
from venue.core.names import name_key
from venue.house_file.keys import NOTHING, OURS, As, Given, Ours, Written
from venue.house_file.paths import Path
from venue.house_file.records.light import AreaRecord, BlockageRecord

PlaceKey = tuple[str, str]
"""A position's name and a label, each as people compare them."""


@dataclass(frozen=True)
class SetupRecord:
    """One way the house is set up; `zones` are (position name, zone) where it changes them."""

    name: str
    layout: str = "proscenium"
    opening_m: float | None = None
    depth_m: float | None = None
    apron_m: float | None = None
    prompt_side: str = "stage left"
    target: tuple[float, float, float] = (0.0, 0.0, 1.5)
    twelve_deg: float = 0.0
    house_left_landmark: str = ""
    house_right_landmark: str = ""
    stage_end_landmark: str = ""
    opening_text: str = ""
    depth_text: str = ""
    apron_text: str = ""
    target_x_text: str = ""
    target_y_text: str = ""
    target_z_text: str = ""
    zones: tuple[tuple[str, str], ...] = ()
    areas: tuple[AreaRecord, ...] = ()
    given: Given = field(default=NOTHING, compare=False, repr=False)

    def zone_of(self, position: "PositionRecord") -> str:
        """The position's zone in this set-up."""
        changed = {name_key(name): zone for name, zone in self.zones}
        return changed.get(position.key, position.zone)


@dataclass(frozen=True)
class HouseRecord:
    """The house. `setup` is its usual set-up."""

    name: str
    slug: str
    setup: SetupRecord
    time_zone: str = "UTC"
    units: str = "imperial"
    day_turns_at: time = time(5)
    burn_before_min: int = 30
    usual_event_min: int = 180
    use_window_days: int = 28
    tech_note: str = ""
    given: Given = field(default=NOTHING, compare=False, repr=False)


@dataclass(frozen=True)
class PlaceName:
    """A place by its position's name and its label."""

    position: str
    label: str

    @property
    def key(self) -> PlaceKey:
        return name_key(self.position), label_key(self.label)


@dataclass(frozen=True)
class SlotRecord:
    """A place for one unit: the lens, or a bearing, or only the order. The texts are lengths as typed.

    A throw has its end point, which lies `throw_end_y_m` upstage of the plaster line. `unit` is short for an
    open placement of that unit. `circuit` is named as in the section.
    """

    label: str
    x_m: float | None = None
    y_m: float | None = None
    z_m: float | None = None
    x_text: str = ""
    y_text: str = ""
    z_text: str = ""
    throw_m: float | None = None
    throw_text: str = ""
    throw_end: str = ""
    throw_mark: str = ""
    throw_end_y_m: float | None = None
    throw_end_text: str = ""
    bearing_deg: float | None = None
    order: int | None = None
    unit: str | None = None
    operated_from: PlaceName | None = None
    circuit: str = ""
    given: Given = field(default=NOTHING, compare=False, repr=False)

    @property
    def key(self) -> str:
        return label_key(self.label)

    @property
    def lens(self) -> tuple[float, float, float] | None:
        """x, y, z [m]; None where they are not known."""
        if self.x_m is None or self.y_m is None or self.z_m is None:
            return None
        return self.x_m, self.y_m, self.z_m

    def bearing(self, target: tuple[float, float, float]) -> float | None:
        """As given, else from x and y about the target [degrees clockwise from the stage end]; None: neither."""
        if self.bearing_deg is not None or self.x_m is None or self.y_m is None:
            return self.bearing_deg
        return bearing_about(self.x_m, self.y_m, target[0], target[1])


@dataclass(frozen=True)
class PositionRecord:
    """A named location with its slots, in the order of the file. `level` None: not said, counts as 0.

    Empty texts and None among the facts of getting there and working there: not recorded.
    """

    name: str
    kind: str = ""
    zone: str = "front"
    level: float | None = None
    access: str = ""
    access_min: int | None = None
    passage_m: float | None = None
    passage_text: str = ""
    load_limit_kg: float | None = None
    power: str = ""
    power_switched_at: str = ""
    intercom: str = ""
    glass: str = ""
    fall_protection: str = ""
    rescue_plan: str = ""
    show_exit: str = ""
    show_exit_words: str = ""
    who_may_operate: str = ""
    checked_on: date | None = None
    checked_by: str = ""
    glass_loss_pct: float | None = None
    other_load_kg: float | None = None
    seats_lost: int | None = None
    needs: str = ""
    farthest_upstage_m: float | None = None
    farthest_upstage_text: str = ""
    farthest_downstage_m: float | None = None
    farthest_downstage_text: str = ""
    pan_from_deg: float | None = None
    pan_to_deg: float | None = None
    blocked: tuple[BlockageRecord, ...] = ()
    slots: tuple[SlotRecord, ...] = ()
    given: Given = field(default=NOTHING, compare=False, repr=False)

    @property
    def key(self) -> str:
        return name_key(self.name)


@dataclass(frozen=True, kw_only=True)
class UnitRecord(Written):
    """A follow spot. Empty texts and None: not recorded. One that has ended is kept for what is told of it."""

    tag: str
    source: str = ""
    watts: float | None = None
    frames: int | None = None
    frame_1_end: str = ""
    magazine: str = ""
    narrow_deg: float | None = None
    wide_deg: float | None = None
    narrow_cd: float | None = None
    wide_cd: float | None = None
    cct_k: float | None = None
    angle_percent: Ours[int | None] = None
    sized_by: Ours[str] = ""
    far_field_m: Ours[float | None] = None
    far_field_text: Ours[str] = ""
    weight_kg: Ours[float | None] = None
    input_w: Ours[float | None] = None
    power_factor: Ours[float | None] = None
    hired_from: Ours[str] = ""
    back_on: Ours[date | None] = None
    ended_at: Annotated[datetime | None, OURS, As("ended")] = None
    ended_reason: Ours[str] = ""

    @property
    def key(self) -> str:
        return name_key(self.tag)


@dataclass(frozen=True)
class PlacementRecord:
    """The unit stands at the place from `starts_at` until before `ends_at` (None: no end)."""

    unit: str
    place: PlaceName
    starts_at: datetime
    ends_at: datetime | None = None
    given: Given = field(default=NOTHING, compare=False, repr=False)
    path: Path = field(default=(), compare=False, repr=False)

    @property
    def key(self) -> tuple[str, PlaceKey, datetime]:
        return name_key(self.unit), self.place.key, self.starts_at


@dataclass(frozen=True, kw_only=True)
class ElsewhereRecord(Written):
    """The unit is at no place: in the shop, in the store or lent, in words with whom."""

    unit: str
    elsewhere: str
    elsewhere_words: Ours[str] = ""
    starts_at: Annotated[datetime, As("from")]
    ends_at: Annotated[datetime | None, As("until")] = None

    @property
    def key(self) -> tuple[str, str, datetime]:
        return name_key(self.unit), self.elsewhere, self.starts_at
