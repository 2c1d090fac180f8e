"""What people are told by mail, or by hand: a subject and some lines of plain text. No contact of anybody."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.models import Call, CallLine, Message
from crew.models.calls import LineRole
from crew.models.offers import Answer, MessageKind
from crew.moments import moment
from crew.told_lines import ToldLine
from crew.wording.sheet import late_tell, place_words
from venue.core.local_time import wall_time


@dataclass(frozen=True)
class Text:
    """A message as it goes out."""

    subject: str
    body: str


def text_of(message: Message, told: ToldLine, link: str) -> Text:
    """The message in words, as the rows stand now; `link` is the person's own page, "" without one."""
    lines = [_("Hello %(name)s,") % {"name": message.person.name}, "", *BODIES[message.kind](message, told)]
    if message.words:
        lines += ["", message.words]
    lines += ["", *_ending(message, link)]
    return Text(subject_of(message, told), "\n".join(lines) + "\n")


def subject_of(message: Message, told: ToldLine) -> str:
    """ "Can you come? Nine Paper Boats, Mar 3, 2026, 6:30 PM"."""
    subjects = {
        MessageKind.OFFER: _("Can you come? %(what)s"),
        MessageKind.BOOKED: _("You are on a call: %(what)s"),
        MessageKind.CHANGED: _("Changed for you, please look: %(what)s"),
        MessageKind.FILLED: _("Not needed any more: %(what)s"),
        MessageKind.RELEASED: _("You are not on this call any more: %(what)s"),
        MessageKind.REVISION: _("Call sheet, please look: %(what)s"),
        MessageKind.CALLED_OFF: _("CALLED OFF: %(what)s"),
    }
    what = f"{told.call.engagement.name}, {moment(told.wall)}"
    return " ".join((subjects[MessageKind(message.kind)] % {"what": what}).split())


def _ending(message: Message, link: str) -> Iterator[str]:
    what = {
        MessageKind.OFFER: _("Answer here, no account is needed:"),
        MessageKind.CHANGED: _("Please say here that you have seen it:"),
        MessageKind.REVISION: _("Please say here that you have seen it:"),
    }.get(MessageKind(message.kind), _("All your calls:"))
    if link:
        yield f"{what} {link}"
    else:
        yield _("Please answer dispatch: you have no page of your own just now.")
    yield _("Dispatch of %(roster)s") % {"roster": message.person.roster.name}


def facts(told: ToldLine) -> Iterator[str]:
    """Event, house, when and where to come, number and house label, what the position needs: a line each."""
    call = told.call
    yield _("%(show)s, %(event)s, %(house)s") % {
        "show": call.engagement.name,
        "event": event_words(told),
        "house": call.engagement.house.name,
    }
    yield ", ".join(filter(None, (_("Call: %(when)s") % {"when": moment(told.wall)}, call.place)))
    yield _("Expected end: %(when)s. All times by the clocks of %(zone)s.") % {
        "when": moment(call.ends_wall),
        "zone": call.zone,
    }
    if call.talk_wall is not None:
        yield talk_words(call)
    if call.meal_wall is not None:
        yield _("Meal: %(when)s") % {"when": moment(call.meal_wall)}
    yield number_words(told)
    yield from needs(told)
    if call.weather:
        yield _("Weather: %(words)s") % {"words": call.weather}
    if call.notes:
        yield call.notes
    yield from filter(None, [late_tell(call.roster.late_tell)])


def talk_words(call: Call) -> str:
    """ "Spot talk: Mar 3, 2026, 7:15 PM, rear booth"; empty where there is none."""
    if call.talk_wall is None:
        return ""
    return ", ".join(filter(None, (_("Spot talk: %(when)s") % {"when": moment(call.talk_wall)}, call.talk_place)))


def event_words(told: ToldLine) -> str:
    event = told.call.event
    return event.name or capfirst(event.get_kind_display())


def number_words(told: ToldLine) -> str:
    """ "Show 3 = house A: Rear booth, place A, unit FS-04"; else what the person does instead."""
    line = told.line
    if not line.number_key:
        return line_words(line)
    if told.light is None or not told.light.label:
        return _("Show %(number)s, no place yet") % {"number": line.number}
    values = {"number": line.number, "label": told.light.label, "where": place_words(told.light)}
    return _("Show %(number)s = house %(label)s: %(where)s") % values


def line_words(line: CallLine) -> str:
    """The line in a few words, without its place."""
    if line.number_key:
        words = _("Show %(number)s") % {"number": line.number}
        return words if line.role == LineRole.OPERATOR else f"{words}, {line.get_role_display()}"
    if line.role == LineRole.OPERATOR:
        return _("Spot operator; the number is told at the spot talk")
    return capfirst(line.get_role_display())


def needs(told: ToldLine) -> list[str]:
    """What the position asks of its operator, and what the unit can't do, a sentence each."""
    return [capfirst(each) for each in told.light.cautions] if told.light else []


# -- what each kind says ---------------------------------------------------------------------------------


def _offer(message: Message, told: ToldLine) -> Iterator[str]:
    yield _("can you come to this call?")
    yield ""
    yield from facts(told)
    if message.offer is not None and message.offer.answer_by is not None:
        when = moment(wall_time(message.offer.answer_by, told.call.zone))
        yield _("Please answer by %(when)s.") % {"when": when}


def _booked(message: Message, told: ToldLine) -> Iterator[str]:
    yield _("you are on this call:")
    yield ""
    yield from facts(told)


def _changed(message: Message, told: ToldLine) -> Iterator[str]:
    yield _("something changed for you on this call. Now it is:")
    yield ""
    yield from facts(told)
    if told.call.talk_wall is None:
        yield _("Spot talk: none")


def _filled(message: Message, told: ToldLine) -> Iterator[str]:
    is_filled = message.offer is not None and message.offer.answer == Answer.FILLED
    yield _("somebody else has this call now; thank you.") if is_filled else _("nobody is wanted for this any more:")
    yield ""
    yield from list(facts(told))[:2]


def _released(message: Message, told: ToldLine) -> Iterator[str]:
    yield _("you are not on this call any more:")
    yield ""
    yield from list(facts(told))[:2]
    yield line_words(told.line)
    yield released_words(told.line, told.call.lines.standing().select_related("person"))


def _revision(message: Message, told: ToldLine) -> Iterator[str]:
    n = told.issued.n if told.issued else 0
    yield _("revision %(n)s of the call sheet is issued. For you it says:") % {"n": n}
    yield ""
    if told.sheet.called_off:
        yield _("CALLED OFF: %(reason)s") % {"reason": told.sheet.called_off}
    yield from facts(told)


def _called_off(message: Message, told: ToldLine) -> Iterator[str]:
    yield _("this call is off, nobody is to come:")
    yield ""
    yield from list(facts(told))[:2]
    if told.call.ended_reason:
        yield _("Why: %(reason)s") % {"reason": told.call.ended_reason}


BODIES: Mapping[str, Callable[[Message, ToldLine], Iterator[str]]] = {
    MessageKind.OFFER: _offer,
    MessageKind.BOOKED: _booked,
    MessageKind.CHANGED: _changed,
    MessageKind.FILLED: _filled,
    MessageKind.RELEASED: _released,
    MessageKind.REVISION: _revision,
    MessageKind.CALLED_OFF: _called_off,
}


BEFORE: Mapping[str, str | Promise] = {
    "call": gettext_lazy("Call before: %(when)s"),
    "talk": gettext_lazy("Spot talk before: %(when)s"),
    "ends": gettext_lazy("Expected end before: %(when)s"),
    "meal": gettext_lazy("Meal before: %(when)s"),
}
"""What a time of the call was, a line each."""


def time_before(what: str, wall: datetime | None) -> str:
    """ "Call before: Mar 3, 2026, 6:30 PM"; "Spot talk before: none"."""
    return str(BEFORE[what]) % {"when": moment(wall) if wall else _("none")}


def joined_befores(earlier: str, befores: Mapping[str, str], nows: Mapping[str, str]) -> str:
    """What the times were: as `earlier` lines say, which nobody was sent, else as `befores`; but not what is so now."""
    lines = []
    for what, template in BEFORE.items():
        begins = str(template) % {"when": ""}
        line = next((each for each in earlier.splitlines() if each.startswith(begins)), befores.get(what, ""))
        lines += [line] if line and line != nows[what] else []
    return "\n".join(lines)


def released_words(line: CallLine, standing: Iterable[CallLine]) -> str:
    """Who has the line now, when that was and why; `standing` are the lines of its call now."""
    if line.ended_at is None:
        return ""
    values = {"when": _when(line.ended_at, line.zone), "reason": line.ended_reason, "name": name_after(line, standing)}
    if values["name"]:
        return _("%(name)s has it now; released %(when)s: %(reason)s") % values
    return _("Released %(when)s: %(reason)s") % values


def name_after(line: CallLine, standing: Iterable[CallLine]) -> str:
    """Who is on the line now, after somebody left it; "" where nobody is."""
    taken = [each for each in standing if each.person is not None and each.call_id == line.call_id]
    following = [each for each in taken if each.follows_id == line.pk]
    if line.number_key:
        following += [each for each in taken if (each.number_key, each.seat) == (line.number_key, line.seat)]
    return following[0].person.name if following and following[0].person else ""


def _when(at: datetime, zone: str) -> str:
    return moment(wall_time(at, zone))
