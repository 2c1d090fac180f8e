"""What the pages of an advance show: the list for those who signed in, the house's answer for the tour."""

from typing import Any

from shows.advance import Advance, BookPoint, is_overdue
from shows.advance_answer import AnsweredNumber, AnsweredPlace, HouseAnswer
from shows.fit import Decided
from shows.models import AdvanceItem
from shows.models.advance import OwedBy
from shows.wording import advance as words
from shows.wording.fit import GRAVITY, WAYS

CLIMBS = frozenset({"needs-certification", "no-rescue-plan"})


def list_context(advance: Advance, may_write: bool) -> dict[str, Any]:
    """What is open, what the book finds besides, what is done, who confirmed."""
    return {
        "engagement": advance.engagement,
        "may_write": may_write,
        "advance": advance,
        "answer": words.answer(advance),
        "open": [_row(item, advance) for item in advance.open],
        "done": [_row(item, advance) for item in advance.done],
        "to_note": [_found(each, advance) for each in advance.to_note],
        "noted": [_found(each, advance) for each in advance.noted],
        "confirmed": _confirmed(advance),
    }


def answer_context(advance: Advance) -> dict[str, Any]:
    """The house's answer as the tour reads it; nothing of other shows, and mail addresses struck out."""
    said = advance.answer
    comparison, system = advance.comparison, words.system_of(advance.engagement)
    rows = [_outside(_row(item, advance)) for item in said.points]
    return {
        "engagement": advance.engagement,
        "verdict": said.verdict,
        "statement": words.outside(advance.engagement.statement),
        "numbers": [_number(each, said) for each in said.numbers],
        "climbs": any(each.finding.code in CLIMBS for number in said.numbers for each in number.findings),
        "from_tour": [row for row in rows if row["item"].owed_by == "tour" and row["item"].done_at is None],
        "from_house": [row for row in rows if row["item"].owed_by == "house" and row["item"].done_at is None],
        "agreed": [row for row in rows if row["item"].done_at is not None],
        "asked": [words.outside(words.point_sentence(point, comparison, system)) for point in said.asked],
        "confirmed": _confirmed(advance),
        "sha256": said.sha256["whole"],
    }


def _row(item: AdvanceItem, advance: Advance) -> dict[str, Any]:
    zone = advance.engagement.house.time_zone
    return {
        "item": item,
        "what": item.what,
        "answer": item.answer,
        "by": item.get_owed_by_display(),
        "due": words.due_words(item, advance.today),
        "is_overdue": is_overdue(item, advance.today),
        "done_by": item.done_by,
        "done_at": "" if item.done_at is None else words.when_words(item.done_at, zone),
    }


def _outside(row: dict[str, Any]) -> dict[str, Any]:
    return {**row, **{name: words.outside(row[name]) for name in ("what", "answer", "done_by")}}


def _found(each: BookPoint, advance: Advance) -> dict[str, Any]:
    sentence = words.point_sentence(each.point, advance.comparison, words.system_of(advance.engagement))
    by = OwedBy(each.point.owed_by).label
    return {"point": each.point, "sentence": sentence, "by": by, "item": each.item}


def _confirmed(advance: Advance) -> list[dict[str, Any]]:
    zone = advance.engagement.house.time_zone
    return [{"each": each, "said": words.confirmed_words(each, zone)} for each in advance.confirmations]


def _number(each: AnsweredNumber, said: HouseAnswer) -> dict[str, Any]:
    findings = [_finding(one, said) for one in each.findings]
    return {
        "number": each.number,
        "places": [_place(place) for place in each.places],
        "findings": [row for row in findings if row["finding"].gravity != "note"],
        "notes": [row for row in findings if row["finding"].gravity == "note"],
    }


def _place(place: AnsweredPlace) -> dict[str, Any]:
    return {"line": place.line, "unit": words.unit_words(place), "limits": list(words.limits_words(place))}


def _finding(each: Decided, said: HouseAnswer) -> dict[str, Any]:
    zone, decision = said.engagement.house.time_zone, each.decision
    row = {
        "finding": each.finding,
        "gravity": GRAVITY[each.finding.gravity],
        "sentence": words.finding_outside(each.finding, words.system_of(said.engagement)),
        "decision": decision,
    }
    if decision is None:
        return row
    way, when = WAYS.get(decision.way, decision.way), words.when_words(decision.decided_at, zone)
    return {**row, "way": way, "reason": words.outside(decision.reason), "by": decision.decided_by, "when": when}
