"""Revisions in words: who confirmed, which lines say something else."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine
from crew.core.confirming import Confirmed, Key, line_of


def confirmed_sentence(n: int, lines: Sequence[SheetLine], held: Mapping[Key, Confirmed]) -> str:
    """How many of the people on the sheet have confirmed it."""
    if not lines:
        return _("Nobody is on revision %(n)s yet.") % {"n": n}
    facts = {"n": n, "done": sum(line.key in held for line in lines), "all": len(lines)}
    if facts["done"] == facts["all"]:
        return _("All %(all)s have confirmed what revision %(n)s says of them.") % facts
    return _("%(done)s of %(all)s have confirmed what revision %(n)s says of them.") % facts


def line_words(sheet: CallSheet, key: Key) -> str:
    """ "Show 3, Ada Quillfeather"."""
    line = line_of(sheet, key)
    name = line.operator if line and line.operator else _("nobody yet")
    return _("Show %(number)s, %(name)s") % {"number": key[0], "name": name}


@dataclass(frozen=True)
class ComparedLine:
    """One number on both sheets, in words; `differs` where they are not alike."""

    number: str
    before: str
    after: str

    @property
    def differs(self) -> bool:
        return self.before != self.after


def compared_lines(old: CallSheet, new: CallSheet) -> list[ComparedLine]:
    """Every line of both sheets, the new one's order first, what is gone last."""
    keys = [line.key for line in new.lines]
    keys += [line.key for line in old.lines if line.key not in keys]
    return [ComparedLine(key[0], _told(line_of(old, key)), _told(line_of(new, key))) for key in keys]


def _told(line: SheetLine | None) -> str:
    if line is None:
        return _("not on it")
    where = _("house %(label)s, %(position)s") % {"label": line.label, "position": line.position} if line.label else ""
    frames = ", ".join(f"{number}: {held}" for number, held in line.held_frames)
    parts = [line.operator or _("nobody yet"), where or _("no place yet"), line.unit, line.channel, frames, line.notes]
    parts += [line.pick_up, *line.limits, *line.stops, *line.cautions]
    return "; ".join(filter(None, parts))
