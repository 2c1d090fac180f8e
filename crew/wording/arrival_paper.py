"""The words of an arrival check on paper."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime

from django.utils import dateformat
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from crew.core.arrival_paper import PaperItem, PaperSignature, short_code
from crew.moments import moment
from shows.arrival import Arrival, CheckedPlace, Signed
from shows.core.checking import ItemState, Mark
from shows.models import CheckMark, Engagement
from shows.models.arrival import CheckResult, Signer
from shows.wording.arrival import SHORT, item_title, short, signature_standing
from venue.core.local_time import wall_time
from venue.models import Blockage, Fault


def title() -> str:
    return _("Arrival check")


def day(on: date) -> str:
    return dateformat.format(on, "M j, Y")


def days(engagement: Engagement) -> str:
    """ "Mar 2, 2026 – Mar 8, 2026, End stage"."""
    first, last = engagement.starts_on, engagement.ends_on
    span = day(first) if first == last else f"{day(first)} – {day(last)}"
    return _("%(days)s · set-up: %(setup)s") % {"days": span, "setup": engagement.setup.name}


def clock(at: datetime, zone: str) -> str:
    """ "Mar 2, 2:02 PM" by the house's clocks."""
    return dateformat.format(wall_time(at, zone), "M j, g:i A")


def item(state: ItemState, zone: str) -> PaperItem | None:
    """One item with what was found last, and what another person found before if it differs; None: not looked at."""
    last = state.last
    if last is None or last.result == "open":
        return None
    before = "" if state.other is None else _("before, %(what)s") % {"what": _mark(state.other, zone)}
    is_failed = last.result == "fail"
    return PaperItem(
        title=capfirst(item_title(state.item)),
        result=_("FAILS") if is_failed else str(CheckResult(last.result).label),
        who=_("%(by)s, %(at)s") % {"by": last.by, "at": clock(last.at, zone)},
        note="; ".join(filter(None, [last.note, before])),
        is_failed=is_failed,
    )


def _mark(mark: Mark, zone: str) -> str:
    facts = {"by": mark.by, "result": CheckResult(mark.result).label, "at": clock(mark.at, zone)}
    said = _("%(by)s: %(result)s, %(at)s") % facts
    return f"{said} ({mark.note})" if mark.note else said


def state(checked: CheckedPlace) -> str:
    """What the place has come to, without the notes, which stand beside the items."""
    if checked.state.failed:
        return _("FAILS: %(items)s") % {"items": short(mark.item for mark in checked.state.failed)}
    return {
        "passed": _("Everything passes"),
        "begun": _("Begun, not looked at whole"),
        "untouched": _("NOT CHECKED: nobody looked at it"),
    }[checked.state.state]


def not_checked(checked: CheckedPlace) -> str:
    """ "Not checked: iris, sight"; "" where everything was looked at, or nothing at all."""
    items = checked.state.open_items
    if not items or checked.state.state == "untouched":
        return ""
    return _("NOT CHECKED: %(items)s") % {"items": short(items)}


def where(checked: CheckedPlace) -> str:
    """ "Rear booth, place 2 · unit FS-02"."""
    unit = _("unit %(unit)s") % {"unit": checked.unit.tag} if checked.unit else _("no unit stands here, by the book")
    said = f"{checked.place} · {unit}"
    return said if checked.number else _("%(said)s · no show number") % {"said": said}


def in_the_way(checked: CheckedPlace) -> list[str]:
    """What is in the way of the place, as its own lines say it; nothing where nothing is noted."""
    return [_("In the way: %(what)s") % {"what": row.name} for row in checked.blockages]


def all_not_checked(found: Arrival) -> list[str]:
    """Everything that nobody looked at, a sentence each; none where nothing is left."""
    places = [each for each in found.places if each.state.open_items]
    told = [_("%(place)s: %(items)s") % {"place": _named(each), "items": _left(each)} for each in places]
    spare = [str(each.place) for each in found.spare if each.state.state == "untouched"]
    if spare:
        told.append(_("In use without a show number, not looked at: %(places)s") % {"places": "; ".join(spare)})
    if found.unplaced:
        told.append(_("Without a place, so not checked: show %(numbers)s") % {"numbers": ", ".join(found.unplaced)})
    return told


def _named(checked: CheckedPlace) -> str:
    if not checked.number:
        return str(checked.place)
    return _("Show %(number)s, %(place)s") % {"number": checked.number, "place": checked.place}


def _left(checked: CheckedPlace) -> str:
    return _("everything") if checked.state.state == "untouched" else short(checked.state.open_items)


def blockage(row: Blockage, place: str) -> str:
    """ "speaker array: Rear booth, place 2, for this show, noted on Mar 2, 2026"."""
    parts = [place, _("for this show") if row.only_for else ""]
    parts.append(_("noted on %(day)s") % {"day": day(row.noted_on)} if row.noted_on else "")
    return f"{row.name}: {', '.join(filter(None, parts))}"


def fault(mark: CheckMark, fault: Fault, zone: str) -> str:
    """Which unit, what, who saw it, and whether it is mended."""
    facts = {
        "unit": fault.unit.tag,
        "place": mark.place,
        "item": SHORT[mark.item],
        "means": fault.get_means_display(),
        "note": mark.note,
        "at": clock(fault.opened_at, zone),
        "by": fault.opened_by,
    }
    said = _("%(unit)s at %(place)s: %(item)s (%(note)s); for use it means: %(means)s; seen %(at)s by %(by)s") % facts
    if fault.closed_at is None:
        return _("%(said)s. OPEN") % {"said": said}
    closed = {"said": said, "at": clock(fault.closed_at, zone), "by": fault.closed_by or _("somebody unnamed")}
    return _("%(said)s. Closed %(at)s by %(by)s") % closed


def standing(signatures: Sequence[Signed]) -> str:
    """Who signed, first of all: "NOT SIGNED" where nobody did."""
    sides = {each.row.side for each in signatures}
    if not sides:
        return _("NOT SIGNED: nobody has signed for this check.")
    said = "; ".join(_side_standing(side, side in sides) for side in Signer)
    last = [next(each for each in reversed(signatures) if each.row.side == side) for side in sides]
    if all(each.is_current and not each.is_renumbered for each in last):
        return f"{capfirst(said)}."
    return _("%(said)s. CHANGED since: see the signatures.") % {"said": capfirst(said)}


def _side_standing(side: Signer, is_signed: bool) -> str:
    words = _("signed %(side)s") if is_signed else _("NOT SIGNED %(side)s")
    return words % {"side": side.label}


def signatures(some: Iterable[Signed], zone: str) -> list[PaperSignature]:
    """The signatures of both sides in their order; a side without any says so."""
    some = list(some)
    found = []
    for side in Signer:
        own = [PaperSignature(_side(side), _signature(each, zone), True) for each in some if each.row.side == side]
        found += own or [PaperSignature(_side(side), _("NOT SIGNED"), False)]
    return found


def _side(side: Signer) -> str:
    return capfirst(str(side.label))


def _signature(signed: Signed, zone: str) -> str:
    row = signed.row
    at = dateformat.format(wall_time(row.at, zone), "M j, Y, g:i A")
    facts = {"name": row.name, "at": at, "code": short_code(row.sha256), "standing": signature_standing(signed)}
    return _("%(name)s, %(at)s, check code %(code)s: %(standing)s") % facts


def about_signatures() -> str:
    return _(
        "A signature stands for the marks whose check code it has, as they were then. It does not cover which number "
        "stands at which place, and it mends nothing: what fails goes on failing."
    )


def item_columns() -> tuple[str, str, str, str]:
    return _("item"), _("found"), _("by, when"), _("note")


def caution(words: str) -> str:
    return _("CAUTION: %(what)s") % {"what": words}


def link_lines(engagement: Engagement) -> tuple[str, ...]:
    """What the link opens, above its code."""
    return _("Arrival check of the follow spots"), f"{engagement.house.name} · {days(engagement)}"


def link_rules(until: datetime, zone: str) -> tuple[str, ...]:
    """What whoever scans the code may do, for how long, and what to mind."""
    facts = {"until": moment(until), "zone": zone}
    return (
        _("Scan it and go place by place: whoever has this may mark, put numbers elsewhere, sign for the road crew."),
        _("It works until %(until)s, by the clocks of %(zone)s. Only the crew should see it; take it down later.")
        % facts,
        _("No phone in the hand on a ladder. What the house asks for before going up comes first."),
    )
