"""The arrival check in sentences: how far it is, what was found at a place and by whom, what a look stored."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime

from django.utils import dateformat
from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shows.arrival import Arrival, CheckedPlace, Signed
from shows.core.checking import ItemState, Mark
from shows.models import CheckMark
from shows.models.arrival import CheckItem, CheckResult
from venue.core.local_time import wall_time
from venue.models import Fault

SHORT: Mapping[str, str | Promise] = {
    "label": gettext_lazy("label"),
    "strike": gettext_lazy("strike"),
    "douser": gettext_lazy("douser"),
    "frames": gettext_lazy("frames"),
    "headset": gettext_lazy("headset"),
    "iris": gettext_lazy("iris"),
    "zoom": gettext_lazy("zoom and edge"),
    "focus": gettext_lazy("focus"),
    "level": gettext_lazy("level"),
    "sight": gettext_lazy("sight"),
    "coverage": gettext_lazy("coverage"),
    "access": gettext_lazy("access and rescue"),
}


def short(items: Iterable[str]) -> str:
    """ "douser, headset"."""
    return ", ".join(str(SHORT[item]) for item in items)


def place_words(checked: CheckedPlace) -> str:
    """ "Rear booth, place 2"."""
    return str(checked.place)


def answer(arrival: Arrival) -> str:
    """How far the check is, and where it goes on: "3 of 8 places checked, 1 fails. Next: Rear booth, place 2"."""
    count = len(arrival.places)
    if not count:
        return _("No place is in use for this show yet, so there is nothing to check.")
    said = ngettext("%(done)s of %(count)s place checked", "%(done)s of %(count)s places checked", count)
    words = said % {"done": arrival.done, "count": count}
    if arrival.failing:
        fails = ngettext("%(n)s fails", "%(n)s fail", arrival.failing) % {"n": arrival.failing}
        words = f"{words}, {fails}"
    following = arrival.next()
    if following is not None:
        return _("%(so_far)s. Next: %(place)s") % {"so_far": words, "place": place_words(following)}
    return words + "."


def state_words(checked: CheckedPlace) -> str:
    """What a place has come to: "passes", "fails: headset (dead on B)", "begun, 7 items to go", "not looked at"."""
    state = checked.state
    to_go = len(state.open_items)
    left = ngettext("%(n)s item to go", "%(n)s items to go", to_go) % {"n": to_go} if to_go else ""
    if state.state == "failed":
        failed = "; ".join(f"{SHORT[mark.item]} ({mark.note})" for mark in state.failed)
        return ". ".join(filter(None, [_("fails: %(what)s") % {"what": failed}, left]))
    if state.state == "begun":
        return _("begun, %(left)s") % {"left": left}
    return _("passes") if state.state == "passed" else _("not looked at")


def clock_words(at: datetime, zone: str, now: datetime) -> str:
    """The time of day in the house; with the date where it is not today's."""
    wall = wall_time(at, zone)
    is_today = wall.date() == wall_time(now, zone).date()
    return dateformat.format(wall, "g:i A" if is_today else "M j, g:i A")


def heard(item: ItemState, zone: str, now: datetime) -> str:
    """What was found for an item, another person's view first: "Ada: fails at 2:02 PM (leaks); Dov: passes at …"."""
    return "; ".join(_mark(mark, zone, now) for mark in (item.other, item.last) if mark is not None)


def _mark(mark: Mark, zone: str, now: datetime) -> str:
    words = _("%(by)s: %(result)s at %(time)s")
    said = words % {"by": mark.by, "result": CheckResult(mark.result).label, "time": clock_words(mark.at, zone, now)}
    return f"{said} ({mark.note})" if mark.note else said


def fault_words(fault: Fault) -> str:
    """What stands in the way of a pass being the end of it."""
    words = _("The fault on %(unit)s is open. A pass does not close it: the house does, when it is mended.")
    return words % {"unit": fault.unit.tag}


def stored(before: CheckedPlace, made: Sequence[CheckMark], in_the_way: str) -> Iterator[tuple[bool, str]]:
    """What a look stored, a sentence each, and whether it is a warning."""
    by_result: dict[str, list[str]] = {}
    for mark in made:
        by_result.setdefault(mark.result, []).append(mark.item)
    said = [
        f"{CheckResult(result).label}: {short(by_result[result])}"
        for result in ("fail", "pass", "open")
        if result in by_result
    ]
    if in_the_way:
        said.append(_("in the way: %(words)s") % {"words": in_the_way})
    facts = {"place": place_words(before), "what": "; ".join(said)}
    yield False, _("Stored for %(place)s. %(what)s.") % {**facts, "what": capfirst(facts["what"])}
    yield from ((True, sentence) for sentence in _warnings(before, made))


def _warnings(before: CheckedPlace, made: Sequence[CheckMark]) -> Iterator[str]:
    found = {item.item: item.last for item in before.state.items}
    for mark in made:
        last = found[mark.item]
        if last is not None and last.by != mark.by and last.result not in {mark.result, "open"}:
            facts = {"item": SHORT[mark.item], "by": last.by, "result": CheckResult(last.result).label}
            yield _("%(by)s found before of the %(item)s: %(result)s. Both stay in sight.") % facts
    opened = [mark.item for mark in made if mark.fault is not None and mark.item not in before.faults]
    if opened and before.unit is not None:
        said = ngettext(
            "A fault is open on %(unit)s now: %(items)s.", "Faults are open on %(unit)s now: %(items)s.", len(opened)
        )
        yield said % {"unit": before.unit.tag, "items": short(opened)}
    for mark in made:
        if mark.result == CheckResult.PASS and mark.item in before.faults:
            facts = {"item": capfirst(str(SHORT[mark.item])), "why": fault_words(before.faults[mark.item])}
            yield _("%(item)s: %(why)s") % facts


def signature_standing(signed: Signed) -> str:
    """Whether it still stands for what the check says."""
    said = _("for the check as it stands") if signed.is_current else _("signed before later marks")
    return _("%(said)s; numbers were put on places after it") % {"said": said} if signed.is_renumbered else said


def item_title(item: str) -> str:
    return str(CheckItem(item).label)
