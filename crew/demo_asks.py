"""What the demo's first show asks besides its paperwork, and what is still open with it."""

from typing import Any

from shows.actions import add_color, change_show_asks, change_spot_asks
from shows.actions.advance import add_point
from shows.models import Engagement
from venue.history import Actor

SHOW: dict[str, Any] = {
    "on_camera": True,
    "frame_1_end": "lens",
    "caller": "Rowan Sedge, from the stage manager's desk",
}
COLORS: dict[str, dict[str, Any]] = {
    "pale pink": {"transmission_pct": 72.0},
    "amber": {"transmission_pct": 58.0, "shift_mired": 94.0},
    "lavender": {"transmission_pct": 45.0},
    "pale blue": {"transmission_pct": 62.0, "shift_mired": -60.0},
    "light frost": {"transmission_pct": 81.0, "is_diffusion": True},
}
"""As on an invented swatch; deep blue is left for somebody to explain."""
ASKS: dict[str, dict[str, Any]] = {
    "1": {"sizes": ["head", "waist"], "full_blackout": True, "home": "down stage right", "gel_by": "show"},
    "2": {"sizes": ["waist", "full body"], "on_camera": False, "gel_by": "show"},
    "3": {"sizes": ["waist", "full body"], "matches": "2", "strip_out": True},
    "4": {"sizes": ["head", "waist"], "home": "down stage left"},
}


POINTS: tuple[tuple[str, str], ...] = (
    ("Whose deep blue is frame 4 of show 2, and how much does it let through?", "tour"),
    ("Does the house strike the spots for the 2 PM sound check?", "house"),
)


def note_points(engagement: Engagement, actor: Actor) -> None:
    """What is still open between the show and the house."""
    for what, owed_by in POINTS:
        add_point(actor=actor, engagement=engagement, what=what, owed_by=owed_by, due_on=engagement.starts_on)


def tell_asks(engagement: Engagement, actor: Actor) -> None:
    """Write down what the show asks; its numbers are on file already."""
    engagement.refresh_from_db()
    change_show_asks(actor=actor, engagement=engagement, seen=engagement.version, values=SHOW)
    for code, facts in COLORS.items():
        add_color(actor=actor, engagement=engagement, code=code, **facts)
    for spot in engagement.spots.standing():
        if spot.number in ASKS:
            change_spot_asks(actor=actor, spot=spot, seen=spot.version, values=ASKS[spot.number])
