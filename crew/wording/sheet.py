"""The words of a call sheet, the same on paper and on the phone."""

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
    known = (
        (_("Channel %(what)s"), line.channel),
        (_("Pick-up: %(what)s"), line.pick_up),
        (_("Tape on the lamp: %(what)s"), line.tape),
    )
    return [text % {"what": what} for text, what in known if what]


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
