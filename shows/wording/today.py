"""What the day's page says: each part with its lines, one sentence on top, and the one step to take first."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.urls import reverse
from django.utils import dateformat
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shows.today import Ending, Relied, Today
from venue.condition import DueItem
from venue.core.local_time import wall_time
from venue.lamp_book import KindStock
from venue.models import Event, House, LogEntry, Placement, Unit
from venue.today import HouseToday, Judged, Part
from venue.wording import event_sentence
from venue.wording_moves import hire_sentence, moment_words, nowhere_sentence, stay_sentence


@dataclass(frozen=True)
class Line:
    """One thing: its name, what is to be said of it, and the page where it is put right (empty: none)."""

    name: str
    words: str
    url: str = ""


@dataclass(frozen=True)
class Section:
    """One part of the page. `step` is the button if this is what is most urgent, leading to its first line."""

    code: str
    title: str
    lines: tuple[Line, ...]
    are_more: bool
    all_url: str = ""
    step: str = ""


@dataclass(frozen=True)
class Step:
    """The page's one button."""

    url: str
    label: str


def sections(today: Today, house: House, now: datetime) -> list[Section]:
    """The parts that have something to say, the most pressing first."""
    shows = [
        _part("stopped", _("Shows without a light"), today.stopped, _relied, "", _("Put %(name)s on another place")),
        _part("relied", _("Shows with a limited light"), today.limited, _relied, ""),
    ]
    lights = [_lamps(today.ending, house), *_of_the_lights(today.house, house), *_whereabouts(today.house, house, now)]
    return _with_lines([shows[0], *lights, shows[1]])


def against_the_lights(known: HouseToday, ending: Part[Ending], house: House) -> str:
    """How much stands against the house's own lights, whatever the shows; empty where nothing does."""
    return short_answer(_with_lines([_lamps(ending, house), *_of_the_lights(known, house)]))


def _lamps(ending: Part[Ending], house: House) -> Section:
    step_to, all_lamps = _("See %(name)s, whose lamp will not last"), reverse("shows:outlook", args=[house.slug])
    return _part("lamps", _("Lamps that will not last"), ending, _ending(house), all_lamps, step_to)


def _of_the_lights(known: HouseToday, house: House) -> Iterable[Section]:
    yield from _stopping(known, house)
    yield from _to_do(known, house)


def _with_lines(found: Iterable[Section]) -> list[Section]:
    return [section for section in found if section.lines]


def _stopping(known: HouseToday, house: House) -> Iterable[Section]:
    faults = _address(house, "fault_list")
    yield _part("out", _("Out of service"), known.out, _judged(house), faults, _("See %(name)s, which is out"))
    yield _part("limited", _("Limited"), known.limited, _judged(house), faults)


def _to_do(known: HouseToday, house: House) -> Iterable[Section]:
    relamp = _("Finish the relamp of %(name)s")
    yield _part("relamps", _("Relamps to finish"), known.relamps, _relamp(house), _address(house, "log_list"), relamp)
    yield _part("due", _("Due"), known.due, _due(house), _address(house, "care_list"), _("See what is due"))
    lamps = _address(house, "lamp_list")
    yield _part("short", _("Spares short"), known.short, _stock(lamps), lamps, _("See the spares of %(name)s"))


def _whereabouts(known: HouseToday, house: House, now: datetime) -> Iterable[Section]:
    units = _address(house, "unit_list")
    back = _("Say where %(name)s stands")
    yield _part("late", _("Back?"), known.late, _late(house), units, back)
    yield _part("hired", _("Hired, going back"), known.going_back, _hired(house, now), units, _("See %(name)s"))
    yield _part("away", _("Not at a place"), known.away, _away(house, now), units)


def changes(today: Today, house: House) -> Section:
    """What was written down since the house's day began yesterday."""
    return _part("changed", _("Changed since yesterday"), today.house.changed, _change(house), "")


def answer(found: Sequence[Section]) -> str:
    """The page in one sentence."""
    return short_answer(found) or _("Nothing stands against the lights today.")


def short_answer(found: Sequence[Section]) -> str:
    """How much stands against the lights; empty where nothing does."""
    said = [_count(section) for section in found if section.code in _COUNTED]
    return f"{'; '.join(said)}." if said else ""


def step(found: Sequence[Section], house: House, may_write: bool) -> Step:
    """What to do first; where nothing presses, or the user may only look, the units."""
    urgent = next((section for section in found if section.step), None)
    if urgent is None or not may_write:
        return Step(_address(house, "unit_list"), _("See the units"))
    first = urgent.lines[0]
    return Step(first.url or urgent.all_url, urgent.step % {"name": first.name})


def _count(section: Section) -> str:
    """ "2 units are out of service"; a list that was cut says "more than 8"."""
    number = len(section.lines)
    count = _("More than %(number)s") % {"number": number} if section.are_more else str(number)
    return _COUNTED[section.code](number) % {"count": count}


_COUNTED: dict[str, Callable[[int], str]] = {
    "stopped": lambda n: ngettext("%(count)s show number has no light", "%(count)s show numbers have no light", n),
    "out": lambda n: ngettext("%(count)s unit is out of service", "%(count)s units are out of service", n),
    "lamps": lambda n: ngettext("%(count)s lamp will not last", "%(count)s lamps will not last", n),
    "limited": lambda n: ngettext("%(count)s unit is limited", "%(count)s units are limited", n),
    "relamps": lambda n: ngettext("%(count)s relamp is to finish", "%(count)s relamps are to finish", n),
    "due": lambda n: ngettext("%(count)s piece of care is due", "%(count)s pieces of care are due", n),
    "short": lambda n: ngettext("%(count)s kind of lamp is short", "%(count)s kinds of lamps are short", n),
}


def _part(
    code: str, title: str, part: Part[Any], line: Callable[[Any], Line], all_url: str, first: str = ""
) -> Section:
    return Section(code, title, tuple(map(line, part.rows)), part.are_more, all_url, first)


def _address(house: House, page: str, *args: Any) -> str:
    return reverse(f"venue:{page}", args=[house.slug, *args])


def _relied(each: Relied) -> Line:
    """ "Show 3, Nine Paper Boats": "Tue, Mar 3, 8:00 PM: FS-03 is out of service: …"."""
    engagement = each.event.engagement
    name = _("show %(number)s of %(show)s") % {"number": each.number, "show": engagement.name}
    at = dateformat.format(each.event.starts_wall, "D, M j, g:i A")
    page = "assign" if each.is_stopped else "compare"
    words = f"{at}: {'; '.join(each.sentences)}"
    return Line(name, words, reverse(f"shows:{page}", args=[engagement.ref]))


def _ending(house: House) -> Callable[[Ending], Line]:
    def line(each: Ending) -> Line:
        event = each.outlook.stops_in
        told = {
            "lamp": each.outlook.count.lamp,
            "show": event.engagement.name if event else "",
            "at": dateformat.format(event.starts_wall, "D, M j, g:i A") if event else "",
        }
        words = _("Lamp %(lamp)s passes its stop in %(show)s, %(at)s") % told
        return Line(each.unit.tag, words, _address(house, "unit_detail", each.unit.ref))

    return line


def _judged(house: House) -> Callable[[Judged], Line]:
    def line(each: Judged) -> Line:
        said = each.condition.stops or each.condition.limits
        return Line(each.unit.tag, "; ".join(said), _address(house, "unit_detail", each.unit.ref))

    return line


def _due(house: House) -> Callable[[DueItem], Line]:
    def line(each: DueItem) -> Line:
        item = each.item
        what = ", ".join(filter(None, [item.plan.what, item.unit.tag if item.unit else item.plan.accessory]))
        query = f"?unit={item.unit.ref}" if item.unit else ""
        return Line(what, f"{each.state_words}: {each.words}", _address(house, "care_list") + query)

    return line


def _relamp(house: House) -> Callable[[LogEntry], Line]:
    def line(entry: LogEntry) -> Line:
        words = _("relamped %(at)s; not every question is answered") % {"at": moment_words(entry.at, house.time_zone)}
        return Line(str(entry.unit or entry.accessory), words, _address(house, "relamp_answer", entry.ref))

    return line


def _stock(lamps: str) -> Callable[[KindStock], Line]:
    return lambda stock: Line(stock.kind.name, stock.words, lamps)


def _late(house: House) -> Callable[[Placement], Line]:
    def line(stay: Placement) -> Line:
        words = nowhere_sentence(stay, house.time_zone)
        return Line(stay.unit.tag, words, _address(house, "unit_back", stay.unit.ref))

    return line


def _away(house: House, now: datetime) -> Callable[[Placement], Line]:
    def line(stay: Placement) -> Line:
        words = stay_sentence(stay, now, house.time_zone)
        return Line(stay.unit.tag, words, _address(house, "unit_stays", stay.unit.ref))

    return line


def _hired(house: House, now: datetime) -> Callable[[Unit], Line]:
    today = wall_time(now, house.time_zone)

    def line(unit: Unit) -> Line:
        return Line(unit.tag, hire_sentence(unit, today), _address(house, "unit_detail", unit.ref))

    return line


def _change(house: House) -> Callable[[Event], Line]:
    def line(event: Event) -> Line:
        at = dateformat.format(wall_time(event.at, house.time_zone), "D g:i A")
        said = _("%(who)s %(what)s") % {"who": event.actor_name, "what": event_sentence(event)}
        return Line(at, said)

    return line
