"""What a show asks, in words. What nobody said is "not said", never "no"."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shows.models import Engagement, ShowColor, ShowSpot
from shows.models.spots import GelBy
from shows.wording.numbers import number_list
from venue.core.lengths import UnitSystem
from venue.models import ColorFilter
from venue.models.units import FrameOneEnd
from venue.wording_light import lux_words, size_words
from venue.wording_supply import plain

FROM_PAPERWORK: Mapping[str, str | Promise] = {
    "frames": gettext_lazy("frames"),
    "least_lux": gettext_lazy("least light"),
    "channel": gettext_lazy("headset channel"),
    "pick_up": gettext_lazy("pick-up"),
    "notes": gettext_lazy("notes"),
}
"""The columns of asks that paperwork fills, so newer paperwork overwrites them."""


def not_said() -> str:
    return _("not said")


def said(value: bool | None) -> str:
    """ "yes", "no", or that nobody said."""
    if value is None:
        return not_said()
    return _("yes") if value else _("no")


def camera_words(spot: ShowSpot, engagement: Engagement) -> str:
    """As the number says; where it says nothing, as the whole show does."""
    if spot.on_camera is None and engagement.on_camera is not None:
        return _("%(said)s, as the whole show") % {"said": said(engagement.on_camera)}
    return said(spot.on_camera)


def sizes_words(sizes: Iterable[str]) -> str:
    """ "head, waist"."""
    return ", ".join(map(size_words, sizes)) or not_said()


def light_words(lux: float | None, system: UnitSystem) -> str:
    return not_said() if lux is None else _("at least %(light)s") % {"light": lux_words(lux, system)}


def gel_by_words(gel_by: str) -> str:
    return str(dict(GelBy.choices).get(gel_by, gel_by)) or not_said()


def frame_one_words(end: str) -> str:
    return str(dict(FrameOneEnd.choices).get(end, end)) or not_said()


def frames_words(frames: Iterable[str]) -> str:
    """ "1: C-1 + C-9; 3: C-2"."""
    return "; ".join(f"{number}: {held}" for number, held in enumerate(frames, start=1) if held) or not_said()


def color_words(row: ShowColor | ColorFilter | None) -> str:
    """What is known of a color besides its code: "pale amber, passes 62 %, 131 mired warmer, diffuses"."""
    if row is None:
        return _("not explained")
    if isinstance(row, ColorFilter):
        return _("as the house has it: %(told)s") % {"told": _told(row)}
    return _told(row)


def _told(row: ShowColor | ColorFilter) -> str:
    diffuses = _("diffuses") if row.is_diffusion else ""
    return ", ".join(filter(None, [row.name, _passes(row.transmission_pct), _shift(row.shift_mired), diffuses]))


def _passes(percent: float | None) -> str:
    if percent is None:
        return _("what passes is not recorded")
    return _("passes %(n)s\N{NO-BREAK SPACE}%%") % {"n": plain(percent)}


def _shift(mired: float | None) -> str:
    if mired is None:
        return ""
    if mired == 0:
        return _("no shift")
    words = _("%(n)s mired warmer") if mired > 0 else _("%(n)s mired cooler")
    return words % {"n": plain(abs(mired))}


def used_words(numbers: Sequence[str]) -> str:
    """Which numbers have the color in a frame: "in a frame of shows 1–4, 7"."""
    if not numbers:
        return _("in no frame")
    words = ngettext("in a frame of show %(numbers)s", "in a frame of shows %(numbers)s", len(numbers))
    return words % {"numbers": number_list(numbers)}


def stored_words(column: str, value: Any, system: UnitSystem) -> str | None:
    """A stored value as a person reads it; None for columns that need no words of their own."""
    if value is None or value == "" or value == []:
        return not_said()
    if isinstance(value, bool):
        return said(value)
    if column == "least_lux":
        return lux_words(value, system)
    return frames_words(value) if column == "frames" else sizes_words(value) if column == "sizes" else None


def overwritten_words(columns: Iterable[str]) -> str:
    """What of these newer paperwork would overwrite: "frames, notes"; empty where nothing."""
    changed = set(columns)
    return ", ".join(str(words) for column, words in FROM_PAPERWORK.items() if column in changed)
