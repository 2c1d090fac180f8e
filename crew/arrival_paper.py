"""An arrival check from rows to the records that go on paper.

rows --arrival_paper--> ArrivalPaper    a constant number of queries, however many places and marks there are
"""

from datetime import datetime

from crew.core.arrival_paper import ArrivalPaper, PaperPlace
from crew.wording import arrival_paper as words
from crew.wording.cautions import cautions_at
from shows.arrival import Arrival, CheckedPlace, arrival_of, check_instant
from shows.models import Engagement
from shows.wording.arrival import answer
from shows.wording.limits import unit_sentences
from venue.core.local_time import wall_time


def arrival_paper(engagement: Engagement, now: datetime) -> ArrivalPaper:
    """The check as it stands, signed or not. The engagement comes with its house and set-up."""
    found, house = arrival_of(engagement, check_instant(engagement, now)), engagement.house
    return ArrivalPaper(
        show=engagement.name,
        house=house.name,
        days=words.days(engagement),
        answer=answer(found),
        standing=words.standing(found.signatures),
        places=tuple(_place(each, house.time_zone) for each in _on_paper(found)),
        in_the_way=tuple(_in_the_way(found)),
        faults=tuple(_faults(engagement)),
        not_checked=tuple(words.all_not_checked(found)),
        signatures=tuple(words.signatures(found.signatures, house.time_zone)),
        sha256=found.sha256,
        zone=house.time_zone,
        printed_at=wall_time(now, house.time_zone),
    )


def _on_paper(found: Arrival) -> list[CheckedPlace]:
    """The places of the walk; those without a number as far as somebody looked at them."""
    return [*found.places, *(each for each in found.spare if each.state.state != "untouched")]


def _place(checked: CheckedPlace, zone: str) -> PaperPlace:
    unit = checked.unit.tag if checked.unit else ""
    items = (words.item(state, zone) for state in checked.state.items)
    return PaperPlace(
        number=checked.number,
        label=checked.place.label,
        where=words.where(checked),
        state=words.state(checked),
        items=tuple(item for item in items if item is not None),
        not_checked=words.not_checked(checked),
        told=(
            *unit_sentences(unit, checked.condition.stops, checked.condition.limits),
            *words.in_the_way(checked),
        ),
        cautions=tuple(map(words.caution, cautions_at(checked.place, None))),
    )


def _in_the_way(found: Arrival) -> list[str]:
    """What is in the way of the places on the paper, each once."""
    told: dict[int, str] = {}
    for each in _on_paper(found):
        for row in each.blockages:
            where = each.place if row.place_id else each.place.position
            told.setdefault(row.pk, words.blockage(row, str(where)))
    return list(told.values())


def _faults(engagement: Engagement) -> list[str]:
    """The faults that the check opened, mended or not, each once. One query."""
    marks = engagement.check_marks.filter(fault__isnull=False).select_related("fault__unit", "place__position")
    told: dict[int, str] = {}
    for mark in marks:
        if mark.fault is not None and mark.fault.pk not in told:
            told[mark.fault.pk] = words.fault(mark, mark.fault, engagement.house.time_zone)
    return list(told.values())
