"""The comparison as text for a terminal: the verdict, a line a spot, what else to know, the choices."""

from collections.abc import Iterable

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shows.core.numbering.records import Comparison, Pair, WayOut
from shows.wording import verdict
from shows.wording.numbers import show_at_house


def as_text(comparison: Comparison) -> str:
    """Several lines; FIX where the show's own rule is broken, TELL where only the paint differs."""
    parts = [_pairs(comparison), _readings(comparison), _flags(comparison), _ways(comparison)]
    return "\n".join([_headline(comparison), *(line for part in parts for line in part)])


def _headline(comparison: Comparison) -> str:
    said = verdict.sentence(comparison)
    if verdict.is_to_fix(comparison):
        return _("FIX: %(sentence)s") % {"sentence": said}
    return _("TELL: %(sentence)s") % {"sentence": said} if verdict.is_to_tell(comparison) else said


def _pairs(comparison: Comparison) -> Iterable[str]:
    return (f"  {_pair(pair, comparison)}" for pair in comparison.pairs)


def _pair(pair: Pair, comparison: Comparison) -> str:
    house = comparison.house
    values = {
        "number": pair.number,
        "label": house.slots[pair.slot].label,
        "position": house.name_of(pair.slot),
    }
    return _("show %(number)s / house %(label)s, %(position)s") % values


def _readings(comparison: Comparison) -> Iterable[str]:
    """What each reading of an unclear word would give."""
    for reading in comparison.readings:
        shown = "; ".join(show_at_house(pair, comparison.house) for pair in reading.pairs)
        values = {"reading": verdict.reading_words(reading.reading), "pairs": shown or _("no pair is sure")}
        yield _("  If %(reading)s: %(pairs)s.") % values


def _flags(comparison: Comparison) -> Iterable[str]:
    asked = {"unclear", "convention-missing"}
    return (
        f"  {verdict.flag_sentence(flag, comparison)}"
        for flag in comparison.flags
        if flag.flag not in asked or comparison.pairs
    )


def _ways(comparison: Comparison) -> Iterable[str]:
    return (f"  {_way(way)}" for way in comparison.ways_out)


def _way(way: WayOut) -> str:
    count = len(way.changes)
    if way.way == "tape":
        text = ngettext("Choice: tape %(count)s lamp.", "Choice: tape %(count)s lamps.", count)
    elif way.way == "move":
        text = ngettext("Choice: move %(count)s operator.", "Choice: move %(count)s operators.", count)
    else:
        text = ngettext("Choice: renumber %(count)s line.", "Choice: renumber %(count)s lines.", count)
    return text % {"count": count}
