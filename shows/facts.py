"""Plain records that the verbs of shows take."""

from dataclasses import dataclass


@dataclass(frozen=True)
class SpotFacts:
    """One show spot as accepted from the paperwork; texts in the paperwork's own words, light in lux."""

    number: str
    house_label: str = ""
    position_words: str = ""
    side: str = ""
    nth: str = ""
    whose_left: str = ""
    frames: tuple[str, ...] = ()
    channel: str = ""
    pick_up: str = ""
    least_lux: float | None = None
    notes: str = ""
