"""The words of a call sheet, the same on paper and on the phone."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils import dateformat
from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine


def day(iso: str) -> str:
    """ "Monday, March 2, 2026" of a time as sheets keep it."""
    return dateformat.format(datetime.fromisoformat(iso), "l, F j, Y")


def clock(iso: str) -> str:
    """ "6:30 PM" of a time as sheets keep it."""
    return dateformat.format(datetime.fromisoformat(iso), "g:i A")


def moment(wall: datetime) -> str:
    """ "Mar 2, 2026, 6:30 PM"."""
    return dateformat.format(wall, "M j, Y, g:i A")


def clocks(sheet: CallSheet) -> str:
    """Whose clocks all times of the sheet go by."""
    return _("All times by the clocks of %(zone)s.") % {"zone": sheet.zone}


def times(sheet: CallSheet) -> list[tuple[str, str, str]]:
    """The day's times: what, when, where. Another day than the event's is said with its time."""
    found = [(_("Call"), _at(sheet.call, sheet), sheet.place)]
    if sheet.talk:
        found.append((_("Spot talk"), _at(sheet.talk, sheet), sheet.talk_place))
    return [*found, (sheet.event, _span(sheet), "")]


def _at(iso: str, sheet: CallSheet) -> str:
    return clock(iso) if iso[:10] == sheet.starts[:10] else moment(datetime.fromisoformat(iso))


def _span(sheet: CallSheet) -> str:
    if not sheet.ends:
        return clock(sheet.starts)
    return _("%(from)s – %(until)s") % {"from": clock(sheet.starts), "until": _at(sheet.ends, sheet)}


def place_words(line: SheetLine) -> str:
    """Where the light is and which unit: "Rear booth, place 4, 1st from house left, unit FS-04"."""
    if not line.label:
        return _("no place yet")
    parts = [_("%(position)s, place %(label)s") % {"position": line.position, "label": line.label}, line.side]
    parts += [_("unit %(unit)s") % {"unit": line.unit}] if line.unit else []
    return ", ".join(filter(None, parts))


def spoken(line: SheetLine) -> list[str]:
    """Headset channel, pick-up and the tape on the lamp, as far as they are known."""
    return [
        *([_("Channel %(what)s") % {"what": line.channel}] if line.channel else []),
        *([_("Pick-up: %(what)s") % {"what": line.pick_up}] if line.pick_up else []),
        *([_("Tape on the lamp: %(what)s") % {"what": line.tape}] if line.tape else []),
    ]


def called_off(sheet: CallSheet) -> str:
    return _("CALLED OFF: %(reason)s") % {"reason": sheet.called_off} if sheet.called_off else ""


def house_label(line: SheetLine) -> str:
    """What is painted there, or a dash."""
    return line.label or "—"


def operator(name: str, sheet: CallSheet) -> str:
    """Who is on a line; where nobody is, whether somebody of the spot talk will be."""
    return name or (_("TO FILL") if sheet.to_fill else _("told at the spot talk"))


def frames(line: SheetLine) -> str:
    """ "1 pale pink · 2 amber"."""
    return " · ".join(f"{number} {held}" for number, held in line.held_frames)


def frames_and_notes(line: SheetLine) -> list[str]:
    """A sentence each, as far as there is something to say."""
    held = frames(line)
    return [
        *([_("Frames: %(what)s") % {"what": held}] if held else []),
        *([_("Notes: %(what)s") % {"what": line.notes}] if line.notes else []),
    ]


def unit_state(line: SheetLine) -> list[str]:
    """Why the unit is out of service and what it can't do, a sentence each."""
    return [
        *(_("OUT OF SERVICE: %(why)s") % {"why": why} for why in line.stops),
        *(_("LIMIT: %(what)s") % {"what": limit} for limit in line.limits),
    ]


@dataclass(frozen=True)
class ShownLight:
    """One light as a page says it: who is on it, and a sentence a line for all else. `is_open`: nobody yet."""

    number: str
    label: str
    operator: str
    is_open: bool
    told: tuple[str, ...]
    cautions: tuple[str, ...]
    unit_state: tuple[str, ...] = ()


def shown_lights(sheet: CallSheet) -> list[ShownLight]:
    """The lights of the sheet in its order."""
    nobody = operator("", sheet)
    is_short = sheet.to_fill > 0
    return [_shown(line, line.operator or nobody, is_short and not line.operator) for line in sheet.lines]


def _shown(line: SheetLine, name: str, is_open: bool) -> ShownLight:
    told = (place_words(line), " · ".join(spoken(line)), *frames_and_notes(line))
    return ShownLight(
        line.number, line.label, name, is_open, tuple(filter(None, told)), line.cautions, tuple(unit_state(line))
    )


def notice_heading(kind: str) -> str:
    """What to do about the notice, before it is read."""
    return {
        "fix": _("FIX: wrong lights"),
        "tell": _("TELL every operator: right lights, different paint"),
        "ask": _("ASK the tour"),
    }.get(kind, _("Numbers and labels"))


def landmarks(sheet: CallSheet) -> list[str]:
    """Both sides and the stage end by what the house has there; none where nothing is on file."""
    named = (
        (_("HOUSE LEFT · stage right: %(what)s"), sheet.house_left),
        (_("HOUSE RIGHT · stage left: %(what)s"), sheet.house_right),
        (_("Stage end: %(what)s"), sheet.stage_end),
    )
    return [words % {"what": what} for words, what in named if what]


def filled(sheet: CallSheet) -> str:
    """ "6 of 8, 2 to fill"."""
    return fill_words(sheet.filled, sheet.wanted)


def fill_words(filled: int, wanted: int) -> str:
    """ "6 of 8, 2 to fill"; "8 of 8, all filled"."""
    if not wanted:
        return _("nobody is wanted yet")
    values = {"filled": filled, "wanted": wanted, "open": wanted - filled}
    return (_("%(filled)s of %(wanted)s, %(open)s to fill") if filled < wanted else _("all %(wanted)s filled")) % values


def code_in_groups(code: str) -> str:
    """The code as it is read aloud: three groups."""
    return "-".join(filter(None, (code[:4], code[4:7], code[7:])))


def caution() -> str:
    return _(
        "Lamps are hot and bright, and many positions are high: the maker's manual, local codes and a qualified "
        "person come first."
    )


def age(span: timedelta) -> str:
    """ "5 min", "3 h", "2 days": rounded down."""
    minutes = max(0, int(span.total_seconds() // 60))
    if minutes < 60:
        return _("%(n)s min") % {"n": minutes}
    if minutes < 48 * 60:
        return _("%(n)s h") % {"n": minutes // 60}
    return _("%(n)s days") % {"n": minutes // (24 * 60)}
