"""The words of somebody's own page."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.mine import Mine, News, Released
from crew.models.offers import MessageKind
from crew.moments import moment
from crew.told_lines import ToldLine
from crew.wording.messages import event_words, line_words, needs, number_words, talk_words
from crew.wording.sheet import frames_and_notes, late_tell, spoken, unit_state
from venue.core.local_time import wall_time


@dataclass(frozen=True)
class ShownLine:
    """A line as the page says it; `place` and what follows are "" where nobody knows them yet."""

    told: ToldLine
    what: str
    event: str
    when: str
    ends: str
    where: str
    words: str
    talk: str
    needs: tuple[str, ...]
    light: tuple[str, ...]
    sheet: str

    @property
    def late_tell(self) -> str:
        return late_tell(self.told.call.roster.late_tell)

    @property
    def others(self) -> str:
        """ "2 Ada Quillfeather, 3 Dov Halloran"."""
        return ", ".join(" ".join(filter(None, each)) for each in self.told.others)


def page_of_mine(mine: Mine) -> Mapping[str, Any]:
    """What the page shows, in its order."""
    return {
        "news": [_new(each) for each in mine.news],
        "until": mine.until.ref if mine.until else "",
        "released": [{"words": each.words, **_head(each.line)} for each in mine.released],
        "offers": [
            {"offer": offer, "shown": shown_line(told), "by": _answer_by(offer.answer_by, told)}
            for offer, told in mine.offers
        ],
        "coming": [
            {"shown": shown_line(each.told), "to_see": each.to_see, "off": _off(each.told)} for each in mine.coming
        ],
    }


HEADINGS: Mapping[str, str | Promise] = {
    MessageKind.RELEASED: gettext_lazy("RELEASED:"),
    MessageKind.CHANGED: gettext_lazy("CHANGED:"),
    MessageKind.CALLED_OFF: gettext_lazy("CALLED OFF, nobody is to come:"),
}


def _new(new: News) -> dict[str, Any]:
    """One thing that the person has not said to have seen."""
    heading = HEADINGS[new.message.kind]
    if isinstance(new.about, Released):
        return {"heading": heading, "words": [new.about.words], **_head(new.about.line)}
    told = new.about
    if new.message.kind == MessageKind.CALLED_OFF:
        words = [_off(told)]
    else:
        words = [*new.message.words.splitlines(), _("All that is so now stands below, with the call.")]
    return {"heading": heading, "words": words, **_head(told.line), "line_words": number_words(told)}


def _head(line: Any) -> dict[str, str]:
    told = ToldLine(line, None, None, None)  # type: ignore[arg-type]
    values = {"show": line.call.engagement.name, "event": event_words(told), "when": moment(told.wall)}
    return {"what": _("%(show)s, %(event)s, %(when)s") % values, "line_words": line_words(line)}


def shown_line(told: ToldLine) -> ShownLine:
    """All that the person is told of the line."""
    call, light = told.call, told.light
    place = light.position if light and light.label else ""
    unit = _("unit %(unit)s") % {"unit": light.unit} if light and light.label and light.unit else ""
    return ShownLine(
        told=told,
        what=call.engagement.name,
        event=f"{event_words(told)}, {call.engagement.house.name}",
        when=", ".join(filter(None, (moment(told.wall), call.place))),
        ends=moment(call.ends_wall),
        where=", ".join(filter(None, (place, unit))),
        words=line_words(told.line),
        talk=talk_words(call),
        needs=tuple(needs(told)),
        light=(*unit_state(light), *spoken(light), *frames_and_notes(light)) if light else (),
        sheet=_sheet(told),
    )


def _sheet(told: ToldLine) -> str:
    if told.issued is None:
        return _("No sheet is issued yet: number and place may still change.")
    when = moment(wall_time(told.issued.issued_at, told.call.zone))
    return _("As revision %(n)s of the sheet says, issued %(when)s.") % {"n": told.issued.n, "when": when}


def _off(told: ToldLine) -> str:
    """Why nobody is to come, "" where they are."""
    call = told.call
    return call.ended_reason or call.event.ended_reason


def _answer_by(at: Any, told: ToldLine) -> str:
    return moment(wall_time(at, told.call.zone)) if at else ""
