"""Faults and what they mean for use, in sentences for pages and sheets."""

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from venue.core.frame_numbers import FrameProblem, read_frames
from venue.core.local_time import wall_time
from venue.models import Fault, LampDecision, LampTally, LogEntry
from venue.models.faults import Danger, Limit
from venue.wording_hours import hours_words

LIMIT_SENTENCES: dict[str, str | Promise] = {
    Limit.BLACKOUT: gettext_lazy("No full blackout"),
    Limit.CAMERA: gettext_lazy("Not on camera"),
    Limit.SHUTTERS: gettext_lazy("Shutters are taped"),
}
DANGER_SENTENCES: dict[str, str | Promise] = {
    Danger.INTERLOCK: gettext_lazy("Interlock bypassed"),
    Danger.GLASS: gettext_lazy("Cracked heat or UV glass"),
    Danger.GROUND: gettext_lazy("No ground, or a frayed lead"),
    Danger.CABLE: gettext_lazy("Safety cable missing"),
    Danger.LAMP: gettext_lazy("Lamp past its end of life"),
}
UNTIL_CLOSED = gettext_lazy("out of service until a named person closes it")
FRAME_PROBLEMS: dict[str, str | Promise] = {
    "empty": gettext_lazy("Write which frames are out, such as 2, 4."),
    "unreadable": gettext_lazy("“%(found)s” can't be read as frames. Write their numbers, such as 2, 4."),
    "backward": gettext_lazy("“%(found)s” runs backward. Write the lower frame first, such as 2-4."),
    "too-high": gettext_lazy("There is no frame %(found)s: %(unit)s has frames 1 to %(frames)s. Correct the number."),
    "none": gettext_lazy("%(unit)s has no frames on file. Choose another limit, or correct the unit."),
}


def frames_of(fault: Fault) -> tuple[int, ...]:
    """The frames that the fault puts out; none where the text lists none."""
    try:
        return read_frames(fault.frames_out, None)
    except FrameProblem:
        return ()


def fault_words(fault: Fault) -> str:
    """What is wrong, in one sentence."""
    if fault.danger or fault.means == "out":
        return stop_words(fault)
    return limit_words(fault) if fault.means == "limited" else note_words(fault)


def stop_words(fault: Fault) -> str:
    """Why the unit is out of service: "Interlock bypassed: out of service until a named person closes it"."""
    if fault.danger:
        what = ", ".join(filter(None, [str(DANGER_SENTENCES[fault.danger]), fault.part, fault.limit]))
        return f"{what}: {UNTIL_CLOSED}"
    return note_words(fault) or _("Out of service")


def limit_words(fault: Fault) -> str:
    """What the unit can't do: "No full blackout", "Frame 4 is out", "Iris is fixed at head and shoulders"."""
    if fault.limit_kind == Limit.FRAMES:
        return _with(_frames_sentence(fault), fault.limit)
    if fault.limit_kind == Limit.IRIS:
        return _("Iris is fixed at %(size)s") % {"size": fault.limit} if fault.limit else _("Iris is fixed")
    known = LIMIT_SENTENCES.get(fault.limit_kind)
    return _with(str(known), fault.limit) if known else note_words(fault)


def _frames_sentence(fault: Fault) -> str:
    numbers = frames_of(fault)
    listed = ", ".join(map(str, numbers)) or fault.frames_out
    return ngettext("Frame %(frames)s is out", "Frames %(frames)s are out", len(numbers)) % {"frames": listed}


def _with(sentence: str, more: str) -> str:
    return f"{sentence} ({more})" if more else sentence


def note_words(fault: Fault) -> str:
    """The part and what was written of it: "Sight: missing"."""
    part = fault.part[:1].upper() + fault.part[1:]
    return ": ".join(filter(None, [part, fault.limit]))


def lamp_stop_words(tally: LampTally) -> str:
    """A lamp that no named person let burn on: "Lamp L-0117 is past its stop: relamp, or a named person decides"."""
    return _("Lamp %(serial)s is past its stop: relamp, or a named person decides") % {"serial": tally.lamp}


def decision_words(decision: LampDecision) -> str:
    """Who lets a lamp burn past its stop, and until when."""
    facts = {"serial": decision.lamp, "until": hours_words(decision.until_h), "by": decision.by}
    return _("Lamp %(serial)s burns past its stop until %(until)s h, decided by %(by)s") % facts


def open_relamp_words(entry: LogEntry) -> str:
    """A relamp whose questions are not all answered; the entry comes with its house."""
    day = wall_time(entry.at, entry.house.time_zone)
    return _("Relamp of %(day)s: its questions are not all answered") % {"day": f"{day:%Y-%m-%d}"}
