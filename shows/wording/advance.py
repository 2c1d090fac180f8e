"""The advance in sentences: what is open, by whom and by when, what the tour is told, what it confirmed."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime

from django.utils import dateformat
from django.utils.functional import Promise
from django.utils.text import Truncator
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shows.advance import Advance, is_overdue
from shows.advance_answer import AnsweredPlace
from shows.advance_notes import Confirmation
from shows.core.advance import OpenPoint
from shows.core.fit.records import Finding
from shows.core.numbering.records import Comparison, Flag
from shows.models import AdvanceItem, Engagement
from shows.wording import verdict
from shows.wording.asks import frame_one_words
from shows.wording.fit import finding_sentence
from shows.wording.numbers import number_list
from venue.core.lengths import UnitSystem
from venue.core.local_time import wall_time
from venue.history import without_contacts

LONGEST_POINT = 200
PART_NAMES: Mapping[str, str | Promise] = {
    "show": gettext_lazy("the show's days, or how it counts"),
    "numbers": gettext_lazy("places and units"),
    "findings": gettext_lazy("what was found or decided"),
    "points": gettext_lazy("what is open or answered"),
}


def system_of(engagement: Engagement) -> UnitSystem:
    return "imperial" if engagement.house.unit_system == "imperial" else "metric"


def outside(text: str) -> str:
    """The text as people without an account read it: mail addresses are struck out."""
    return str(without_contacts(str(text)))


def answer(advance: Advance) -> str:
    """How the advance stands: "3 points are open, 1 overdue. The book finds 2 more that nobody noted."."""
    count, late, more = len(advance.open), len(advance.overdue), len(advance.to_note)
    said = _("Nothing is noted as open with the tour")
    if count:
        said = ngettext("%(n)s point is open with the tour", "%(n)s points are open with the tour", count) % {
            "n": count
        }
    if late:
        said = _("%(said)s, %(late)s overdue") % {"said": said, "late": late}
    if not more:
        return f"{said}."
    found = ngettext("The book finds %(n)s more.", "The book finds %(n)s more.", more) % {"n": more}
    return f"{said}. {found}"


def day_words(day: date) -> str:
    return dateformat.format(day, "M j, Y")


def due_words(item: AdvanceItem, today: date) -> str:
    """ "by Mar 4, 2026", "overdue since Mar 1, 2026"; that it has no date."""
    if item.due_on is None:
        return _("no date set")
    if is_overdue(item, today):
        return _("overdue: was due on %(day)s") % {"day": day_words(item.due_on)}
    return _("by %(day)s") % {"day": day_words(item.due_on)}


def when_words(at: datetime, zone: str) -> str:
    """The instant by the house's clocks."""
    return dateformat.format(wall_time(at, zone), "M j, Y, g:i A")


def confirmed_words(confirmation: Confirmation, zone: str) -> str:
    """ "Confirmed by Rowan Sedge, Mar 2, 2026, 7:00 AM"; and what changed since."""
    facts = {"name": confirmation.name, "when": when_words(confirmation.at, zone)}
    said = _("Confirmed by %(name)s, %(when)s") % facts
    if confirmation.is_current:
        return _("%(said)s: for the answer as it stands.") % {"said": said}
    parts = ", ".join(str(PART_NAMES[name]) for name in confirmation.changed)
    return _("%(said)s. Changed since: %(parts)s.") % {"said": said, "parts": parts}


def noted_as(point: OpenPoint, comparison: Comparison, system: UnitSystem) -> str:
    """What is noted of a point that the book finds open, as long as a point may be."""
    return Truncator(point_sentence(point, comparison, system)).chars(LONGEST_POINT)


def point_sentence(point: OpenPoint, comparison: Comparison, system: UnitSystem) -> str:
    """What the book finds open, in a sentence that can be asked."""
    return _undecided(point, system) if point.findings else _POINTS[point.code](point, comparison)


def _undecided(point: OpenPoint, system: UnitSystem) -> str:
    """All that is found where it is of one number, else the first of them."""
    first, *others = (finding_sentence(finding, system) for finding in point.findings)
    facts = {"numbers": number_list(point.names), "first": point.names[0], "found": first}
    if len(point.names) > 1:
        return _("To be decided for show %(numbers)s. Show %(first)s, for instance: %(found)s.") % facts
    return _("To be decided for show %(numbers)s: %(found)s.") % {**facts, "found": "; ".join([first, *others])}


def _named(text: str | Promise) -> Callable[[OpenPoint, Comparison], str]:
    return lambda point, _comparison: str(text) % {"numbers": number_list(point.names)}


def _of_flag(point: OpenPoint, comparison: Comparison) -> str:
    return verdict.flag_sentence(point.flag, comparison) if point.flag is not None else ""


def _unclear(point: OpenPoint, comparison: Comparison) -> str:
    """The question about this one word of the statement."""
    return verdict.flag_sentence(Flag("unclear", {"open": (point.about,)}), comparison)


def _against_rule(_point: OpenPoint, comparison: Comparison) -> str:
    return _("The paperwork is to be corrected. %(fault)s") % {"fault": verdict.statement_sentence(comparison)}


_POINTS: Mapping[str, Callable[[OpenPoint, Comparison], str]] = {
    "no-numbers": _named(gettext_lazy("No paperwork has come: which numbers does the show call?")),
    "against-rule": _against_rule,
    "unclear": _unclear,
    "how-it-counts": _of_flag,
    "no-statement": _named(gettext_lazy("How does the show count? Its paperwork does not say.")),
    "duplicate": _of_flag,
    "unknown-label": _of_flag,
    "unknown-place": _of_flag,
    "missing-number": _of_flag,
    "way": _named(gettext_lazy("Numbers and labels differ: tape, move or renumber? Nobody chose yet.")),
    "no-place": _named(gettext_lazy("No place yet: show %(numbers)s.")),
    "no-frames": _named(gettext_lazy("What goes into the frames? Not told: show %(numbers)s.")),
    "no-gel-by": _named(gettext_lazy("Who brings the color? Not told: show %(numbers)s.")),
    "no-frame-1-end": _named(gettext_lazy("At which end is the show's frame 1? Not told.")),
    "no-on-camera": _named(gettext_lazy("Is it on camera? Not told: show %(numbers)s.")),
    "colors": lambda point, _comparison: (
        _("Which colors are these? Nobody explained: %(codes)s.") % {"codes": ", ".join(point.names)}
    ),
}


def finding_outside(finding: Finding, system: UnitSystem) -> str:
    """What was found, as the tour reads it."""
    if finding.code == "lamp-ends-before":
        return _("Lamp %(lamp)s in %(unit)s passes its stop before the show is over") % dict(finding.facts)
    return outside(finding_sentence(finding, system))


def unit_words(place: AnsweredPlace) -> str:
    """The unit with its frames: "FS-03, 6 frames, frame 1 at the lens end"."""
    unit = place.unit
    if unit is None:
        return _("no unit stands there yet")
    if unit.frames == 0:
        return ", ".join([unit.tag, _("no color frames")])
    frames = _("how many frames is not recorded")
    if unit.frames:
        frames = ngettext("%(n)s frame", "%(n)s frames", unit.frames) % {"n": unit.frames}
    end = _("frame 1 at the %(end)s") % {"end": frame_one_words(unit.frame_1_end)}
    return ", ".join([unit.tag, frames, end if unit.frame_1_end else _("the end of frame 1 is not recorded")])


def limits_words(place: AnsweredPlace) -> Iterable[str]:
    """What the unit can't do."""
    return map(outside, place.line.unit_sentences)
