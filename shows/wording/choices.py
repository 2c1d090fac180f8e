"""The three ways out: what each is called, what it costs, and what sheets say once it is chosen."""

from collections.abc import Callable, Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shows.core.numbering.records import Comparison, House, WayOut
from shows.wording.numbers import house_place

NAMES: Mapping[str, str | Promise] = {
    "tape": gettext_lazy("Tape the lamps"),
    "move": gettext_lazy("Move the operators"),
    "renumber": gettext_lazy("Renumber the paperwork"),
}


def price(way: WayOut) -> str:
    """What the way costs: "4 tapes"."""
    count = len(way.changes)
    if way.way == "tape":
        return _tape_price(way)
    if way.way == "move":
        return ngettext("%(count)s operator stands elsewhere", "%(count)s operators stand elsewhere", count) % {
            "count": count
        }
    text = ngettext("%(count)s number, and the caller's yes", "%(count)s numbers, and the caller's yes", count)
    return text % {"count": count}


def _tape_price(way: WayOut) -> str:
    blank = sum(1 for _slot, text in way.changes if text is None)
    written = len(way.changes) - blank
    text = ngettext("%(count)s tape", "%(count)s tapes", written) % {"count": written}
    if not blank:
        return text
    more = ngettext("%(count)s blank over a spare label", "%(count)s blanks over spare labels", blank)
    return f"{text}, {more % {'count': blank}}"


def means(way: WayOut) -> str:
    """What is done, in one sentence."""
    return {
        "tape": _("Tape tonight's number over each label that differs."),
        "move": _("Send whoever was told a number to the place that the number falls on. Nothing is relabeled."),
        "renumber": _("Send the tour this table: its paperwork takes the house's labels."),
    }[way.way]


def change_lines(way: WayOut, house: House) -> list[str]:
    """Each single change in words."""
    return [_CHANGES[way.way](one, other, house) for one, other in way.changes]


def _tape_line(slot: object, text: object, house: House) -> str:
    values = {"place": house_place(int(str(slot)), house), "text": text}
    return (_("%(place)s: tape “%(text)s”") if text is not None else _("%(place)s: blank tape")) % values


def _move_line(number: object, slot: object, house: House) -> str:
    values = {"number": number, "place": house_place(int(str(slot)), house)}
    return _("operator of show %(number)s goes to %(place)s") % values


def _renumber_line(number: object, becomes: object, _house: House) -> str:
    return _("show %(number)s becomes %(becomes)s") % {"number": number, "becomes": becomes}


_CHANGES: Mapping[str, Callable[[object, object, House], str]] = {
    "tape": _tape_line,
    "move": _move_line,
    "renumber": _renumber_line,
}


def on_sheets(comparison: Comparison, way: str) -> str:
    """What every sheet says of the chosen way; empty where none is chosen or needed."""
    chosen = next((out for out in comparison.ways_out if out.way == way), None)
    if chosen is None:
        return ""
    if way == "renumber":
        table = "; ".join(change_lines(chosen, comparison.house))
        return _("The paperwork is renumbered: %(table)s.") % {"table": table}
    if way == "move":
        return _("Operators move: go to the place named beside the show number. No lamp is taped.")
    return _("Lamps are taped: read the tape, not the paint.")
