"""Revisions in words: who confirmed, which lines say something else."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine
from crew.core.confirming import Confirmed, Key, Named, line_of
from crew.wording.sheet import without_number


@dataclass(frozen=True)
class ShownConfirmation:
    """Somebody on a sheet: on a number with its house label, or as what instead; `held` is what they confirmed."""

    key: Key
    name: str
    held: Confirmed | None
    number: str = ""
    label: str = ""
    what: str = ""


def shown_confirmations(sheet: CallSheet, held: Mapping[Key, Confirmed]) -> list[ShownConfirmation]:
    """Everybody on the sheet, in its order."""
    lines = [line for line in sheet.lines if line.operator]
    bare = [each for each in without_number(sheet) if each.name]
    return [
        *(ShownConfirmation(each.key, each.operator, held.get(each.key), each.number, each.label) for each in lines),
        *(ShownConfirmation(Named(each.name), each.name, held.get(Named(each.name)), what=each.what) for each in bare),
    ]


def confirmed_sentence(n: int, shown: Sequence[ShownConfirmation]) -> str:
    """How many of the people on the sheet have confirmed it."""
    if not shown:
        return _("Nobody is on revision %(n)s yet.") % {"n": n}
    facts = {"n": n, "done": sum(each.held is not None for each in shown), "all": len(shown)}
    if facts["done"] == facts["all"]:
        return _("All %(all)s have confirmed what revision %(n)s says of them.") % facts
    return _("%(done)s of %(all)s have confirmed what revision %(n)s says of them.") % facts


def key_words(sheet: CallSheet, key: Key) -> str:
    """ "Show 3, Ada Quillfeather"; without a number "Head spot, Ada Quillfeather"."""
    if isinstance(key, Named):
        parts = [each.what for each in without_number(sheet) if each.name == key.name]
        return ", ".join([capfirst(" · ".join(parts)), key.name])
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
