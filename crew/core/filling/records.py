"""People, lines and what stands between them, as plain records. Instants are aware datetimes, spans half-open.

Keys are whatever the caller knows a row by. Days are those of the house's calendar.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import Literal

Code = Literal["left", "booked", "short-rest", "day-off", "declined", "certification-missing", "certification-expired"]
OrderedBy = Literal["alphabet", "seniority", "skill"]


@dataclass(frozen=True)
class Booking:
    """Somebody is on another line from `starts` (included) to `ends` (not included); `out` is when they left."""

    starts: datetime
    ends: datetime
    out: datetime | None = None

    @property
    def rests_from(self) -> datetime:
        return self.out or self.ends


@dataclass(frozen=True)
class Held:
    """A certification: of which kind, in which house where it is an orientation, its last day (None: for good)."""

    kind: int
    house: int | None = None
    expires_on: date | None = None


@dataclass(frozen=True)
class Off:
    """Days off, both included."""

    first: date
    last: date


@dataclass(frozen=True)
class Ran:
    """What somebody has run of one show: how many calls, how many on which seat, and when last there.

    A seat is a show number's key and which light of its team.
    """

    calls: int = 0
    on_seat: Mapping[tuple[str, int], int] = field(default_factory=dict)
    last_on_seat: Mapping[tuple[str, int], datetime] = field(default_factory=dict)


@dataclass(frozen=True)
class Somebody:
    """A person on the roster. `grade` is 1 for the best, `seniority` 1 for the longest; None where nobody said.

    `minutes` are those worked and booked in the window that a fair share is reckoned over. `has_declined`: said no to
    this very call.
    """

    key: int
    name: str
    experience: str = ""
    units_known: frozenset[str] = frozenset()
    seniority: int | None = None
    grade: int | None = None
    has_left: bool = False
    held: tuple[Held, ...] = ()
    bookings: tuple[Booking, ...] = ()
    off: tuple[Off, ...] = ()
    ran: Ran = field(default_factory=Ran)
    minutes: int = 0
    has_declined: bool = False


@dataclass(frozen=True)
class Need:
    """A certification that a line asks for; `house` where it is an orientation. Unless required it is only told."""

    kind: int
    is_required: bool
    house: int | None = None


@dataclass(frozen=True)
class Wanted:
    """A line: its span, what it asks for, its seat, and the words by which somebody may know its unit.

    `days` are the first and the last day of the calendar that it touches; `works_on` the same, but what runs past
    midnight and ends before the house's day turns stays with the day before.
    """

    starts: datetime
    ends: datetime
    days: tuple[date, date]
    works_on: tuple[date, date]
    needs: tuple[Need, ...] = ()
    number: str = ""
    seat: int = 1
    unit_words: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Rules:
    """The rest due between two working days, and when and by which clocks a working day turns."""

    rest: timedelta
    zone: str
    day_turns: time = time(5)


@dataclass(frozen=True)
class Bar:
    """What keeps somebody off a line; unless it `is_stop` it is only told.

    kind          of a missing or expired certification, with its last `day`
    starts, ends  of the other line; `until` is when the rest is over, of the line asked about where `is_next`
    day, last     first and last day off
    """

    code: Code
    is_stop: bool = True
    kind: int | None = None
    day: date | None = None
    last: date | None = None
    starts: datetime | None = None
    ends: datetime | None = None
    until: datetime | None = None
    is_next: bool = False
