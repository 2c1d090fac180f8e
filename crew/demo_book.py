"""The book of the demo's playhouse: four months of readings up to the day it is loaded, with what wears and fails.

Sections of a house file, made for a day so that the house is always in the midst of its season. Invented throughout.
"""

from collections.abc import Iterator, Mapping
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

SEASON_DAYS = 120
RELAMPED_DAYS_AGO = 60
DARK_WEEKDAY = 0
NIGHTS = tuple(map(Decimal, ("3.2", "3.6", "3.4", "4.1", "3.3", "3.8")))
"""Hours that a lamp burns on one night after another, over and over."""
METER_STARTS_H: Mapping[str, Decimal] = {
    "FS-01": Decimal("812.4"),
    "FS-02": Decimal("1204.0"),
    "FS-03": Decimal("640.5"),
    "FS-04": Decimal("655.0"),
    "FS-05": Decimal("98.6"),
    "FS-06": Decimal("310.2"),
}
HALIDES = ("FS-05", "FS-06")
LEFT_H = Decimal(4)
"""What is left of the lamp that does not last the next show."""
RATED_H: Mapping[str, int] = {"2 kW short-arc": 1500, "1.2 kW metal-halide": 750}
LIGHT: Mapping[str, tuple[int, ...]] = {"FS-01": (4100, 3900, 4300), "FS-02": (4150, 3500, 2800), "FS-03": (4000, 3850)}
"""Lux on the lip, iris open, month by month."""


def with_book(document: dict[str, Any], now: datetime) -> dict[str, Any]:
    """The house file with its book as it would stand on that day."""
    clock = _Clock(now, ZoneInfo(document["house"]["time_zone"]))
    return {
        **document,
        "units": [*document["units"], *_more_units(clock)],
        "placements": [*document["placements"], *_elsewhere(clock)],
        "lamp_kinds": list(_lamp_kinds()),
        "lamps": list(_lamps(clock)),
        "meters": [
            {"unit": tag, "counts": "lamp", "from": clock.at(SEASON_DAYS, 10), "starts_h": float(starts)}
            for tag, starts in METER_STARTS_H.items()
        ],
        "readings": [reading for tag in METER_STARTS_H for reading in _readings(tag, clock)],
        "faults": _faults(clock),
        "log": _log(clock),
        "care_plans": _care_plans(clock),
        "light_readings": list(_light(clock)),
    }


class _Clock:
    """Days before the day of loading, in the house's time."""

    def __init__(self, now: datetime, zone: ZoneInfo) -> None:
        self.today: date = now.astimezone(zone).date()
        self.zone = zone

    def at(self, days_ago: int, hour: int, minute: int = 0) -> str:
        wall = datetime.combine(self.today - timedelta(days=days_ago), time(hour, minute), self.zone)
        return wall.isoformat()

    def is_dark(self, days_ago: int) -> bool:
        return (self.today - timedelta(days=days_ago)).weekday() == DARK_WEEKDAY


def _nights(clock: _Clock) -> Iterator[tuple[int, Decimal]]:
    """Each night of the season, as days ago, with what the meters gained since it began."""
    gained = Decimal(0)
    for number, days_ago in enumerate(range(SEASON_DAYS - 1, 0, -1)):
        if not clock.is_dark(days_ago):
            gained += NIGHTS[number % len(NIGHTS)]
            yield days_ago, gained


def _readings(tag: str, clock: _Clock) -> Iterator[dict[str, Any]]:
    for strikes, (days_ago, gained) in enumerate(_nights(clock), start=1):
        shows = METER_STARTS_H[tag] + gained
        yield {"unit": tag, "at": clock.at(days_ago, 23, 10), "meter_h": float(shows), "strikes": strikes}


def _gained_by(clock: _Clock, days_ago: int) -> Decimal:
    """What the meters had gained on the morning so many days ago."""
    return max((gained for ago, gained in _nights(clock) if ago > days_ago), default=Decimal(0))


def _lamp_kinds() -> Iterator[dict[str, Any]]:
    waits = {"warm_up_min": 4, "run_down_min": 15, "restrike_min": 10, "opening_min": 45}
    yield {
        "name": "2 kW short-arc", "source": "short-arc", "rated_h": RATED_H["2 kW short-arc"], **waits,
        "spares": 1, "lead_days": 21, "keep_at_least": 2,
    }  # fmt: skip
    yield {
        "name": "1.2 kW metal-halide", "source": "metal-halide", "rated_h": RATED_H["1.2 kW metal-halide"],
        **waits, "least_burn_min": 5, "spares": 2, "lead_days": 10, "keep_at_least": 1,
    }  # fmt: skip


def _lamps(clock: _Clock) -> Iterator[dict[str, Any]]:
    season = clock.at(SEASON_DAYS, 10)
    relamped = clock.at(RELAMPED_DAYS_AGO, 10, 30)
    for number, (tag, starts) in enumerate(METER_STARTS_H.items(), start=101):
        fitted = {"unit": tag, "from": season, "meter_h": float(starts), "reason": "start of the season"}
        lamp: dict[str, Any] = {"serial": f"L-0{number}", "kind": _kind(tag), "fitted": [fitted]}
        if tag == "FS-01":
            shows = float(starts + _gained_by(clock, RELAMPED_DAYS_AGO))
            fitted |= {"until": relamped, "meter_out_h": shows, "out_reason": "hard to strike", "fate": "spent"}
            lamp |= {"ended": relamped, "ended_reason": "spent"}
            again = {"unit": tag, "from": relamped, "meter_h": shows, "reason": "the old one was hard to strike"}
            yield {"serial": "L-0107", "kind": _kind(tag), "fitted": [again]}
        if tag == "FS-02":
            lamp["came_with_h"] = float(RATED_H[_kind(tag)] - LEFT_H - _gained_by(clock, 0))
        yield lamp
    yield {"serial": "L-0108", "kind": "2 kW short-arc"}


def _kind(tag: str) -> str:
    return "1.2 kW metal-halide" if tag in HALIDES else "2 kW short-arc"


def _more_units(clock: _Clock) -> Iterator[dict[str, Any]]:
    yield {
        "tag": "FS-07", "source": "tungsten-halogen", "watts": 1000, "frames": 6, "frame_1_end": "lamp",
        "sized_by": "iris", "weight_kg": 31, "input_w": 1000, "power_factor": 1,
    }  # fmt: skip
    yield {
        "tag": "FS-08", "source": "LED", "watts": 600, "frames": 0, "cct_k": 5600,
        "sized_by": "zoom", "weight_kg": 36, "input_w": 690, "power_factor": 0.97,
    }  # fmt: skip
    back = clock.today + timedelta(days=6)
    yield {
        "tag": "H-01", "source": "LED", "watts": 450, "hired_from": "Tallowgate Stage Supply",
        "back_on": back.isoformat(), "sized_by": "zoom", "weight_kg": 27, "input_w": 520, "power_factor": 0.97,
    }  # fmt: skip


def _elsewhere(clock: _Clock) -> list[dict[str, Any]]:
    until = clock.at(-9, 18)
    lent = {"elsewhere": "lent", "elsewhere_words": "Pinder Hall, for its gala", "until": until}
    return [
        {"unit": "FS-07", "elsewhere": "shop", "elsewhere_words": "bench 2", "from": clock.at(5, 9)},
        {"unit": "FS-08", "from": clock.at(3, 14), **lent},
        {"unit": "H-01", "elsewhere": "store", "from": clock.at(1, 11)},
    ]


def _faults(clock: _Clock) -> list[dict[str, Any]]:
    leaks = {"unit": "FS-03", "part": "douser", "means": "limited", "limit_kind": "blackout", "limit": "douser leaks"}
    frame = {"unit": "FS-05", "part": "color magazine", "means": "limited", "limit_kind": "frames", "frames_out": "4"}
    bypass = {"unit": "FS-07", "part": "lamp house door", "means": "out", "danger": "interlock"}
    sight = {"unit": "FS-04", "part": "sight", "means": "usable", "limit": "sight is loose: check its zero"}
    mended = {"unit": "FS-06", "part": "iris", "means": "limited", "limit_kind": "iris", "limit": "stuck open"}
    closed = {"closed": clock.at(30, 16), "closed_by": "Hollis Varga"}
    return [
        {**leaks, "opened": clock.at(8, 22, 40), "opened_by": "Ada Quillfeather"},
        {**frame, "opened": clock.at(12, 21), "opened_by": "Bruno Achterberg"},
        {**bypass, "opened": clock.at(5, 8, 30), "opened_by": "Hollis Varga"},
        {**sight, "opened": clock.at(1, 22, 50), "opened_by": "Zofia Wiśniak"},
        {**mended, "opened": clock.at(33, 22), "opened_by": "Ike Thornapple", **closed},
    ]


def _log(clock: _Clock) -> list[dict[str, Any]]:
    answers = {"isolated": True, "cooled": True, "protected": True}
    by = {"by": "Hollis Varga"}
    relamped = clock.at(RELAMPED_DAYS_AGO, 10, 30)
    fitting = {"lamp": "L-0107", "from": relamped}
    return [
        {"unit": "FS-01", "at": relamped, "kind": "relamp", **by, "text": "L-0107 in, L-0101 into its sleeve",
         "fitting": fitting, "open": True, "answers": answers},
        {"unit": "FS-06", "at": clock.at(30, 16), "kind": "repair", **by, "text": "iris freed and cleaned"},
        {"unit": "FS-02", "at": clock.at(25, 11), "kind": "clean", **by, "text": "front lens and fan filter"},
        {"unit": "FS-04", "at": clock.at(14, 11), "kind": "inspect", **by, "text": "knobs tightened"},
    ]  # fmt: skip


def _care_plans(clock: _Clock) -> list[dict[str, Any]]:
    filters = {"what": "Fan filters", "covers": "source", "source": "short-arc", "every_h": 100, "every_days": 30}
    cleaned = [_done("FS-02", clock, 25), *(_done(tag, clock, 4) for tag in ("FS-01", "FS-03", "FS-04"))]
    tested = [{"unit": tag, "at": clock.at(340, 12)} for tag in METER_STARTS_H]
    return [
        {**filters, "log_kind": "clean", "done": cleaned},
        {"what": "Electrical test", "covers": "all", "every_days": 365, "log_kind": "electrical-test", "done": tested},
        {"what": "Sight batteries", "covers": "accessory", "accessory": "sights", "every_days": 60,
         "log_kind": "other", "done": [{"at": clock.at(58, 12)}]},
    ]  # fmt: skip


def _done(tag: str, clock: _Clock, days_ago: int) -> dict[str, Any]:
    hours = METER_STARTS_H[tag] + _gained_by(clock, days_ago)
    return {"unit": tag, "at": clock.at(days_ago, 11), "unit_h": float(hours)}


def _light(clock: _Clock) -> Iterator[dict[str, Any]]:
    for tag, values in LIGHT.items():
        for number, lux in enumerate(values):
            at = clock.at(SEASON_DAYS - 10 - 40 * number, 15)
            distance = {"distance_m": 38.1, "distance_text": "125'"}
            yield {"unit": tag, "at": at, "lux": lux, **distance, "setting": "iris open, flat field, no color"}
