"""Technical sheets for tests: an invented hall with so many positions and places."""

from datetime import date, datetime
from typing import Any

from crew.core.tech_sheet import (
    Numbering,
    SheetBlockage,
    SheetCircuit,
    SheetPlace,
    SheetPoint,
    SheetPosition,
    SheetStage,
    SheetThrow,
    SheetUnit,
    TechSheet,
)
from crew.wording.tech_sheet import ShownSheet
from venue.core.lengths import Length, read_length

AT = datetime(2026, 3, 2, 17, 4)
STAGE = SheetStage(
    name="End stage",
    opening=read_length("46'", "imperial"),
    prompt_side="stage left",
    target=SheetPoint(Length(0.0, ""), Length(0.0, ""), Length(1.5, "")),
    house_left="river side",
    house_right="street side",
)


def typed(text: str) -> Length:
    return read_length(text, "imperial")


def a_place(number: int, **facts: Any) -> SheetPlace:
    """A place whose throw was told, with a unit, on a circuit."""
    usual = {
        "label": str(number),
        "lens": SheetPoint(Length(-4.5 + number % 4 * 3, ""), Length(-38.0, ""), typed("42' 6\"")),
        "throw": SheetThrow(typed("142' 6\""), "lip", "", 43.1, 44.0),
        "angle_deg": 17.3,
        "unit": a_unit(number),
        "circuit": SheetCircuit("LP-3/12", 208.0, 30.0),
    }
    return SheetPlace(**{**usual, **facts})


def a_unit(number: int = 1, **facts: Any) -> SheetUnit:
    usual = {
        "tag": f"FS-{number:02}",
        "source": "short-arc",
        "watts": 2000.0,
        "frames": 6,
        "frame_1_end": "lens",
        "magazine": "front",
        "narrow_deg": 0.9,
        "wide_deg": 7.0,
        "percent": 50,
        "narrow_cd": 6_500_000.0,
        "wide_cd": 900_000.0,
        "cct_k": 6000.0,
    }
    return SheetUnit(**{**usual, **facts})


def a_position(name: str = "Rear booth", numbers: range = range(1, 5), **facts: Any) -> SheetPosition:
    """A position walked and found as the book says, with everything recorded but the intercom."""
    places = tuple(map(a_place, numbers))
    usual = {
        "kind": "booth",
        "level": 3.0,
        "numbering": Numbering(tuple(place.label for place in places), "front", "measured", "walked", date(2026, 3, 1)),
        "places": places,
        "access": "stage-door stair to the gallery, then the ladder",
        "access_min": 6,
        "passage": typed("2' 4\""),
        "load_limit_kg": 450.0,
        "power": "208 V single phase, 30 A each",
        "switched_at": "panel LP-3, dimmer room",
        "glass": "sliding",
        "sees_upstage": Length(9.144, "30'"),
        "sees_downstage": Length(-6.096, "20'"),
        "pans": (-40.0, 30.0),
        "blockages": (SheetBlockage("speaker cluster", "1", (-20.0, -10.0)),),
        "needs": "a short chair",
        "fall_protection": "harness",
        "show_exit": "yes",
        "who_may_operate": "local",
        "seats_lost": 4,
        "has_rescue_plan": True,
        "checked_on": date(2026, 1, 5),
    }
    return SheetPosition(name, **{**usual, **facts})


def a_sheet(positions: int = 2, places: int = 4) -> TechSheet:
    """So many positions with so many places each, labels counted through."""
    numbers = (range(index * places + 1, (index + 1) * places + 1) for index in range(positions))
    return a_sheet_of(*(a_position(f"Position {index}", each) for index, each in enumerate(numbers)))


def a_sheet_of(*positions: SheetPosition) -> TechSheet:
    return TechSheet("Quillmark Hall", STAGE, note="Ask for the spot key.", positions=positions)


def shown(sheet: TechSheet) -> ShownSheet:
    return ShownSheet(sheet, AT)
