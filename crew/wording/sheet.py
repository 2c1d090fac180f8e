"""The words of a call sheet, the same on paper and on the phone."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils import dateformat
from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.core.call_sheet import CallSheet, SheetLine
from crew.moments import moment


def day(iso: str) -> str:
    """ "Monday, March 2, 2026" of a time as sheets keep it."""
    return dateformat.format(datetime.fromisoformat(iso), "l, F j, Y")


def clock(iso: str) -> str:
    """ "6:30 PM" of a time as sheets keep it."""
    return dateformat.format(datetime.fromisoformat(iso), "g:i A")


def clocks(sheet: CallSheet) -> str:
    """Whose clocks all times of the sheet go by."""
    return _("All times by the clocks of %(zone)s.") % {"zone": sheet.zone}


def times(sheet: CallSheet) -> list[tuple[str, str, str]]:
    """The day's times in their order: what, when, where. Another day than the event's is said with its time."""
    known = (
        (sheet.call, _("Call"), _at, sheet.place),
        (sheet.talk, _("Spot talk"), _at, sheet.talk_place),
        (sheet.starts, sheet.event, _event_span, ""),
        (sheet.meal, _("Meal"), _at, ""),
        (sheet.released, _("Expected end"), _at, ""),
    )
    told = sorted((each for each in known if each[0]), key=lambda each: datetime.fromisoformat(each[0]))
    return [(what, words(iso, sheet), where) for iso, what, words, where in told]


ROLES: Mapping[str, str | Promise] = {
    "head": gettext_lazy("head spot"),
    "spare": gettext_lazy("spare"),
    "runner": gettext_lazy("runner"),
}
"""What somebody does on a call besides running a light."""


def role_words(role: str) -> str:
    """The role as it is said."""
    return str(ROLES.get(role, role))


def own_call(iso: str, sheet: CallSheet) -> str:
    """The own call time of one person; empty where it is everybody's."""
    return _("Own call: %(at)s") % {"at": _at(iso, sheet)} if iso else ""


@dataclass(frozen=True)
class Bare:
    """Somebody without a number as pages and paper say it: as what, who, and the own call time."""

    what: str
    name: str
    own_call: str = ""


def without_number(sheet: CallSheet) -> list[Bare]:
    """Everybody of the spot talk, then head spots, spares and runners."""
    calls = sheet.talk_calls or ("",) * len(sheet.at_spot_talk)
    talk = _("number told at the spot talk")
    return [
        *(Bare(talk, name, own_call(at, sheet)) for name, at in zip(sheet.at_spot_talk, calls, strict=True)),
        *(Bare(capfirst(role_words(hand.role)), hand.name, own_call(hand.call, sheet)) for hand in sheet.hands),
    ]


def _at(iso: str, sheet: CallSheet) -> str:
    return clock(iso) if iso[:10] == sheet.starts[:10] else moment(datetime.fromisoformat(iso))


def _event_span(starts: str, sheet: CallSheet) -> str:
    if not sheet.ends:
        return clock(starts)
    return _("%(from)s – %(until)s") % {"from": clock(starts), "until": _at(sheet.ends, sheet)}


def place_words(line: SheetLine) -> str:
    """Where the light is and which unit: "Rear booth, place 4, 1st from house left, unit FS-04"."""
    if not line.label:
        return _("no place yet")
    parts = [_("%(position)s, place %(label)s") % {"position": line.position, "label": line.label}, line.side]
    return ", ".join(filter(None, (*parts, unit_words(line))))


def unit_words(line: SheetLine) -> str:
    """ "unit FS-04 (short arc)"; empty where none stands."""
    if not line.unit:
        return ""
    told = {"unit": line.unit, "source": line.unit_source}
    return (_("unit %(unit)s (%(source)s)") if line.unit_source else _("unit %(unit)s")) % told


def spoken(line: SheetLine) -> list[str]:
    """Headset channel, pick-up and the tape on the lamp, as far as they are known."""
    return [
        *([_("Channel %(what)s") % {"what": line.channel}] if line.channel else []),
        *([_("Pick-up: %(what)s") % {"what": line.pick_up}] if line.pick_up else []),
        *([_("Tape on the lamp: %(what)s") % {"what": line.tape}] if line.tape else []),
    ]


def called_off(sheet: CallSheet) -> str:
    return _("CALLED OFF: %(reason)s") % {"reason": sheet.called_off} if sheet.called_off else ""


def weather(sheet: CallSheet) -> str:
    """What is expected outdoors; empty where nobody said anything."""
    return _("Weather: %(words)s") % {"words": sheet.weather} if sheet.weather else ""


def house_label(line: SheetLine) -> str:
    """What is painted there, or a dash."""
    return line.label or "—"


def needs(line: SheetLine) -> str:
    """ "Needs there: harness, no exit until end"."""
    return _("Needs there: %(what)s") % {"what": ", ".join(line.needs)} if line.needs else ""


def tickets(line: SheetLine) -> str:
    """ "Certifications: Climb and harness (held), House orientation (NOT HELD)"."""
    return _("Certifications: %(what)s") % {"what": ", ".join(line.tickets)} if line.tickets else ""


def late_tell(whom: str) -> str:
    """Who is told by somebody who is late; empty where the roster names nobody."""
    return _("Late? Tell %(whom)s.") % {"whom": whom.rstrip(".")} if whom else ""


def on_line(line: SheetLine, sheet: CallSheet) -> str:
    """ "Ada Quillfeather, head spot"."""
    return ", ".join(filter(None, (operator(line.operator, sheet), role_words(line.role))))


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
    return [_shown(line, sheet) for line in sheet.lines]


def _shown(line: SheetLine, sheet: CallSheet) -> ShownLight:
    where = (place_words(line), needs(line), tickets(line), " · ".join(spoken(line)))
    told = (own_call(line.own_call, sheet), *where, *frames_and_notes(line))
    return ShownLight(
        number=line.number,
        label=line.label,
        operator=on_line(line, sheet),
        is_open=sheet.to_fill > 0 and not line.operator,
        told=tuple(filter(None, told)),
        cautions=line.cautions,
        unit_state=tuple(unit_state(line)),
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
