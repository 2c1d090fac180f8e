"""Two who close one fault, record one care or attach a last file at the same instant: nothing is lost or twice."""

from functools import partial

import pytest

from tests.factories import ACTOR, NOON, make_unit
from tests.racing import race
from tests.venue.cared import PNG, a_fault, an_entry
from venue.actions import add_care_plan, attach, care_done, close_fault
from venue.actions.log import MOST_ATTACHED
from venue.errors import AlreadyClosed, AlreadyDone, Invalid, StaleVersion
from venue.models import CareItem, Fault, LogEntry

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("shared_database")]

WRITERS = 4


def test_of_several_who_close_one_fault_one_does_and_one_entry_is_written() -> None:
    fault = a_fault(make_unit())
    copies = [Fault.objects.select_related("unit__house").get(pk=fault.pk) for _ in range(WRITERS)]
    closes = [
        partial(close_fault, actor=ACTOR, fault=copy, seen=1, at=NOON, done=f"way {number}")
        for number, copy in enumerate(copies)
    ]
    outcomes = race(closes)
    (entry,) = [outcome for outcome in outcomes if isinstance(outcome, LogEntry)]
    assert {type(outcome) for outcome in outcomes} <= {LogEntry, StaleVersion, AlreadyClosed}
    assert [Fault.objects.get().closing, *LogEntry.objects.all()] == [entry, entry]


@pytest.mark.parametrize("covers", ["all", "accessory"])
def test_of_several_taps_at_once_one_records_the_care(covers: str) -> None:
    house = make_unit().house
    facts = {"accessory": "gloves"} if covers == "accessory" else {}
    add_care_plan(actor=ACTOR, house=house, what="look", covers=covers, every_days=7, at=NOON, **facts)
    item = CareItem.objects.select_related("unit", "plan").get()
    outcomes = race([partial(care_done, actor=ACTOR, item=item, at=NOON)] * WRITERS)
    assert sorted(type(outcome).__name__ for outcome in outcomes) == ["AlreadyDone"] * (WRITERS - 1) + ["LogEntry"]
    assert {type(outcome) for outcome in outcomes} == {AlreadyDone, LogEntry}
    assert (LogEntry.objects.count(), CareItem.objects.standing().count()) == (1, 1)


def test_two_files_at_once_do_not_both_become_the_last_one() -> None:
    entry = an_entry(make_unit())
    for _ in range(MOST_ATTACHED - 1):
        attach(actor=ACTOR, entry=entry, name="a.png", content=PNG, at=NOON)
    outcomes = race([partial(attach, actor=ACTOR, entry=entry, name="b.png", content=PNG, at=NOON)] * 2)
    assert sum(isinstance(outcome, Invalid) for outcome in outcomes) == 1
    assert entry.attachments.count() == MOST_ATTACHED
