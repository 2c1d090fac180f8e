"""The words of a call's other papers: operator cards, frame lists, tapes and the caller's chart."""

from collections.abc import Iterator, Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.core.call_sheet import CallSheet, SheetLine
from crew.core.cards import Frame, counts_other_way, first_name, frames_of
from crew.core.chart import Band
from crew.core.neighbors import Beside
from crew.wording import sheet as words
from venue.core.labels import label_key

ENDS: Mapping[str, str | Promise] = {"lens": gettext_lazy("the lens end"), "lamp": gettext_lazy("the lamp end")}


def beside_words(number_at: Mapping[int, str], slot: int, beside: Beside) -> Iterator[str]:
    """ "1 is to your left": a sentence for each light beside the slot, left first."""
    for slots, one, same in (
        (beside.left, _("%(number)s is to your left"), _("another %(number)s is to your left")),
        (beside.right, _("%(number)s is to your right"), _("another %(number)s is to your right")),
    ):
        for each in slots:
            is_same = label_key(number_at[each]) == label_key(number_at[slot])
            yield (same if is_same else one) % {"number": number_at[each]}


def beside_line(line: SheetLine) -> str:
    """Who is beside the lens, on one line, with the way to stand."""
    return _("Facing the stage: %(who)s.") % {"who": ", ".join(line.neighbors)} if line.neighbors else ""


def where(line: SheetLine) -> str:
    """ "Rear booth, place 4, unit FS-04"."""
    if not line.label:
        return _("no place yet")
    place = _("%(position)s, place %(label)s") % {"position": line.position, "label": line.label}
    return ", ".join(filter(None, (place, words.unit_words(line))))


def times_line(sheet: CallSheet) -> str:
    """ "Call 6:30 PM · Spot talk 7:15 PM · Show 8:00 PM – 10:30 PM"."""
    return " · ".join(f"{what} {when}" for what, when, _where in words.times(sheet))


def facts(line: SheetLine, sheet: CallSheet) -> list[tuple[str, str]]:
    """Channel, home, pick-up, tape and the caller, as far as they are known: what it is, what it says."""
    named = (
        (_("Channel"), line.channel),
        (_("Home"), line.home),
        (_("Pick-up"), line.pick_up),
        (_("Caller"), sheet.caller),
        (_("Tape on the lamp"), line.tape),
        (_("Notes"), line.notes),
    )
    return [(name, said) for name, said in named if said]


def cautions(line: SheetLine) -> list[str]:
    """What stops or limits the unit, and what to know before going up, a sentence each."""
    return [*words.unit_state(line), *(_("CAUTION: %(what)s") % {"what": each} for each in line.cautions)]


def counting(line: SheetLine, sheet: CallSheet) -> list[str]:
    """From which end the show and the unit count their frames, as far as anybody said."""
    ends = {"show": ENDS.get(sheet.frame_1_end), "unit": ENDS.get(line.frame_1_end), "name": line.unit}
    return [
        *([_("As the show counts: frame 1 at %(show)s.") % ends] if ends["show"] else []),
        *([_("As %(name)s counts: frame 1 at %(unit)s.") % ends] if ends["unit"] else []),
        *([_other_way(line)] if counts_other_way(line, sheet) else []),
    ]


def _other_way(line: SheetLine) -> str:
    if not line.magazine:
        return _("THE TWO COUNT FROM OPPOSITE ENDS.")
    told = {"n": line.magazine}
    return _("THE TWO COUNT FROM OPPOSITE ENDS: the show's frame 1 is the unit's frame %(n)s.") % told


def held_words(frame: Frame) -> str:
    return frame.held or _("empty")


def frame_words(frame: Frame) -> str:
    """ "pale pink" or "empty"; with the unit's own number where it counts the other way."""
    held = held_words(frame)
    return _("%(held)s (the unit's frame %(n)s)") % {"held": held, "n": frame.on_unit} if frame.on_unit else held


def frames_line(line: SheetLine, sheet: CallSheet) -> str:
    """ "1 pale pink · 2 empty", as the show counts; empty where the sheet says nothing of frames."""
    return " · ".join(f"{frame.number} {held_words(frame)}" for frame in frames_of(line, sheet))


def on_tape(line: SheetLine) -> tuple[str, str, str, str]:
    """What a tape says beside its number: house label, first name, channel, home; empty where nobody said it."""
    return (
        _("house %(label)s") % {"label": words.house_label(line)},
        first_name(line.operator),
        _("Channel %(what)s") % {"what": line.channel} if line.channel else "",
        _("Home: %(what)s") % {"what": line.home} if line.home else "",
    )


def light_title(line: SheetLine) -> str:
    """ "Show 3 · house 2 · FS-02"."""
    parts = [_("Show %(number)s") % {"number": line.number}]
    parts += [_("house %(label)s") % {"label": line.label}] if line.label else []
    return " · ".join(filter(None, [*parts, line.unit]))


def revision(title: str, n: int | None) -> str:
    """ "Operator cards, revision 2"."""
    return _("%(title)s, revision %(n)s") % {"title": title, "n": n}


def no_frames() -> str:
    return _("The sheet says nothing of its frames.")


def view(is_turned: bool) -> str:
    """From where the chart is seen."""
    if is_turned:
        return _("TURNED BY 180 DEGREES, as seen from the stage: house right at left, stage at the bottom.")
    return _("As seen facing the stage: house left at left, stage at the top.")


def corners(is_turned: bool) -> tuple[str, str]:
    """What stands over the left and the right edge of the chart."""
    sides = (_("HOUSE LEFT · stage right"), _("HOUSE RIGHT · stage left"))
    return sides[::-1] if is_turned else sides


def band_notes(band: Band) -> list[str]:
    """What nothing orders in a band, a sentence each."""
    if band.kind == "loose":
        return [_("The order in this position is not known; listed by number.")]
    told = {"numbers": ", ".join(band.tied)}
    return [_("%(numbers)s stand too near each other to be told apart.") % told] if band.tied else []
