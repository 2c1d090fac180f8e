"""Corners and pans in words: what is wrong with a line, where a corner is, from where to where a light turns."""

from collections.abc import Iterable, Sequence

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.corner_words import Code, LineProblem
from venue.core.lengths import UnitSystem, written
from venue.core.throws import side_of

LINE_PROBLEMS: dict[Code, str | Promise] = {
    "parts": gettext_lazy(
        "Line %(line)s, “%(text)s”: write how far to which side, a comma, then how far upstage or downstage, such as "
        "12' house left, 3' upstage."
    ),
    "no-side": gettext_lazy("Line %(line)s, “%(text)s”: say the side: house left, house right or center."),
    "which-side": gettext_lazy(
        "Line %(line)s, “%(text)s”: left and right may be those of the house or of the stage. Write house left, house "
        "right, stage left or stage right."
    ),
    "no-direction": gettext_lazy("Line %(line)s, “%(text)s”: say whether that is upstage or downstage."),
    "both-across": gettext_lazy(
        "Line %(line)s, “%(text)s”: both parts name a side. Write one of them as upstage or downstage."
    ),
    "both-along": gettext_lazy(
        "Line %(line)s, “%(text)s”: both parts say how far upstage or downstage. Write one of them as a side: house "
        "left, house right or center."
    ),
    "no-distance": gettext_lazy("Line %(line)s, “%(text)s”: write how far that is, such as 12' or 4 m."),
    "at-center": gettext_lazy(
        "Line %(line)s, “%(text)s”: the center has no distance. Write center alone, or house left or house right."
    ),
    "at-plaster": gettext_lazy(
        "Line %(line)s, “%(text)s”: the plaster line has no distance. Write 0 alone, or upstage or downstage."
    ),
    "minus": gettext_lazy("Line %(line)s, “%(text)s”: write the distance without a minus; the words say where it is."),
    "too-far": gettext_lazy("Line %(line)s, “%(text)s”: no corner is farther than 3280 feet (1000 m). Check it."),
    "unreadable": gettext_lazy(
        "Line %(line)s, “%(text)s” can't be read. Write a length and where it goes, such as 12' 6\" house left or 4 m "
        "downstage."
    ),
    "comma": gettext_lazy(
        "Line %(line)s: the comma in “%(text)s” may mean two things. Write the number without it, or with a point."
    ),
    "inches": gettext_lazy(
        "Line %(line)s, “%(text)s”: a foot has 12 inches. After feet, inches go up to 11: write one foot more."
    ),
    "fraction": gettext_lazy("Line %(line)s, “%(text)s”: the fraction is not below one. Write one such as 1/2 or 3/4."),
}
LONGEST_SHOWN = 80


def line_sentence(problem: LineProblem) -> str:
    """What is wrong with the line, and what would be right."""
    text = problem.text if len(problem.text) <= LONGEST_SHOWN else f"{problem.text[:LONGEST_SHOWN]}…"
    return str(LINE_PROBLEMS[problem.code]) % {"line": problem.line, "text": text}


def corner_words(corner: Sequence[float], system: UnitSystem) -> str:
    """ "12' house left, 3' upstage"; "center, plaster line"."""
    return f"{_across(corner[0], system)}, {_along(corner[1], system)}"


def corners_words(corners: Iterable[Sequence[float]], system: UnitSystem) -> str:
    """All corners in one line."""
    return "; ".join(corner_words(corner, system) for corner in corners)


def _across(x: float, system: UnitSystem) -> str:
    side = side_of(x)
    if side == "center":
        return _("center")
    words = _("%(distance)s house left") if side == "house left" else _("%(distance)s house right")
    return words % {"distance": written(x, system)}


def _along(y: float, system: UnitSystem) -> str:
    if y == 0:
        return _("plaster line")
    words = _("%(distance)s upstage") if y > 0 else _("%(distance)s downstage")
    return words % {"distance": written(y, system)}


def pan_words(degrees: float) -> str:
    """ "40° toward stage left", counted from straight upstage."""
    if degrees == 0:
        return _("straight upstage")
    words = _("%(degrees)s° toward stage left") if degrees > 0 else _("%(degrees)s° toward stage right")
    return words % {"degrees": f"{abs(degrees):.10g}"}


def pans_words(start: float | None, end: float | None) -> str:
    """From which pan to which; empty where they are not recorded."""
    if start is None or end is None:
        return ""
    if start == end:
        return _("all the way round")
    told = {"start": pan_words(start), "end": pan_words(end)}
    return _("from %(start)s to %(end)s, clockwise seen from above, counted from straight upstage") % told
