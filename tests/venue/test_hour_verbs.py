"""Readings, meters, relamps and hours added through the verbs, against ledgers worked by hand."""

from collections.abc import Callable
from decimal import Decimal
from functools import partial
from typing import Any

import pytest
from django.db import transaction
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.factories import ACTOR, make_a_house, make_unit
from tests.venue.lamped import a_kind, a_lamp, a_unit, burned, day, fit, h, read
from venue.actions import (
    add_hours,
    change_lamp_kind,
    count_spares,
    decide_past_stop,
    end_lamp,
    end_lamp_kind,
    fit_lamp,
    put_meter,
    replace_meter,
    strike_hours,
    strike_reading,
    take_out,
    undo_entry,
)
from venue.actions.readings import may_undo
from venue.core.hours import run_problems
from venue.errors import (
    AddedBesideMeter,
    AlreadyEnded,
    AlreadyExists,
    AlreadyStruck,
    DomainError,
    FittedThen,
    InUse,
    Invalid,
    LiesAhead,
    NoMeter,
    NotFitted,
    Overlap,
    PointedAt,
    ReadingQuestioned,
    ReadingRefused,
    TooLateToUndo,
    WrongHouse,
)
from venue.history import Actor
from venue.ledgers import whole_book
from venue.models import Event, Fitting, Lamp, LampKind, LampTally, LogEntry, Reading, Unit, UnitTally
from venue.tallies import lamp_tally, retally_house, unit_tally

pytestmark = pytest.mark.django_db


def codes(refused: pytest.ExceptionInfo[Any]) -> list[str]:
    return [problem.code for problem in refused.value.problems]


def lit(shows: float = 500) -> tuple[Unit, Lamp]:
    """A unit with a lamp fitted on day 0."""
    unit = a_unit(starts=shows)
    lamp = a_lamp(a_kind(unit.house))
    fit(unit, 0, lamp, shows)
    return unit, lamp


def test_512_then_498_is_refused_and_with_a_relamp_the_lamp_starts_at_zero() -> None:
    unit, old = lit()
    read(unit, 3, 512)
    with pytest.raises(ReadingRefused) as refused:
        read(unit, 4, 498)
    assert codes(refused) == ["backward"]
    assert "512.0 h" in str(refused.value)
    new = a_lamp(old.kind, "L-2")
    fit(unit, 4, new, 498)
    assert (burned(old), burned(new)) == (h("12.00"), h("0.00"))
    read(unit, 5, 501)
    assert (burned(old), burned(new), burned(unit)) == (h("12.00"), h("3.00"), h("515.00"))
    assert [meter.starts_h for meter in unit.meters.all()] == [500, 498]


def test_a_meter_replaced_while_the_lamp_is_in() -> None:
    """Fitted at 500, closed at 520: 20 h; the new meter from 0 to 7.5: 27.5 lamp hours, 527.5 unit hours."""
    unit, lamp = lit()
    read(unit, 2, 510)
    replace_meter(actor=ACTOR, unit=unit, at=day(4), closing_h=h(520))
    read(unit, 6, 7.5)
    assert (burned(lamp), burned(unit)) == (h("27.50"), h("527.50"))
    assert UnitTally.objects.get(unit=unit).meter_h == h("7.50")


def test_a_dead_meters_gap_is_bridged_by_hours_added() -> None:
    """500 to 510, then 8 h by the show reports, then 0 to 4: 22 lamp hours."""
    unit, lamp = lit()
    read(unit, 2, 510)
    replace_meter(actor=ACTOR, unit=unit, at=day(4), closing_h=None, gap_h=h(8))
    read(unit, 5, 4)
    assert (burned(lamp), burned(unit)) == (h("22.00"), h("522.00"))
    assert "bridge" in unit.hours_added.get().why
    with pytest.raises(Invalid):
        replace_meter(actor=ACTOR, unit=unit, at=day(6), closing_h=h(9), gap_h=h(1))
    with pytest.raises(ReadingRefused):
        replace_meter(actor=ACTOR, unit=unit, at=day(6), closing_h=None, gap_h=h(30))


def test_a_lamp_moved_between_units_keeps_its_hours() -> None:
    """10 h in one unit, on the shelf, 5 h in the other: 15."""
    one, lamp = lit()
    other = a_unit(one.house, "FS-02", starts=90)
    read(one, 2, 510)
    take_out(actor=ACTOR, unit=one, at=day(3), meter_out_h=h(510))
    fit(other, 4, lamp, 92)
    read(other, 5, 97)
    read(one, 5, 512)
    assert (burned(lamp), burned(one), burned(other)) == (h("15.00"), h("512.00"), h("97.00"))
    assert LampTally.objects.get(lamp=lamp).unit == other
    with pytest.raises(Overlap):
        fit(one, 6, lamp, 512)


def test_a_late_reading_slots_in_and_changes_no_sum() -> None:
    unit, lamp = lit()
    read(unit, 6, 530)
    read(unit, 3, 511)
    assert burned(lamp) == h("30.00")
    for at, shows, code in (
        (2, 515, "ahead-of-later"),
        (4, 505, "backward"),
        (3, 511, "same-time"),
        (3, 509, "same-time"),
    ):
        with pytest.raises(ReadingRefused) as refused:
            read(unit, at, shows)
        assert codes(refused) == [code], (at, shows)


def test_a_relamp_on_the_day_of_a_reading_splits_the_hours_there() -> None:
    """Read 508 at noon, relamped at 509.5 three hours later, read 511 at midnight: 9.5 h and 1.5 h."""
    unit, old = lit()
    read(unit, 3, 508)
    new = a_lamp(old.kind, "L-2")
    fit(unit, 3.125, new, 509.5, out_reason="dim", fate="spent")
    read(unit, 3.5, 511)
    assert (burned(old), burned(new)) == (h("9.50"), h("1.50"))
    gone = Lamp.objects.get(pk=old.pk)
    assert (gone.ended_at, gone.ended_reason.endswith("dim")) == (day(3.125), True)


def test_a_relamp_at_the_instant_of_a_reading_goes_by_that_reading() -> None:
    unit, old = lit()
    reading = read(unit, 3, 508)
    fitting = fit(unit, 3, a_lamp(old.kind, "L-2"), 508)
    assert fitting.from_reading == reading
    assert Fitting.objects.get(lamp=old).until_reading == reading


def test_a_relamp_entered_late_parts_the_fitting_and_its_fate_goes_to_the_later_lamp() -> None:
    unit, first = lit()
    read(unit, 2, 510)
    read(unit, 4, 520)
    take_out(actor=ACTOR, unit=unit, at=day(6), meter_out_h=h(530), fate="broken", out_reason="burst")
    assert Lamp.objects.get(pk=first.pk).has_ended
    second = a_lamp(first.kind, "L-2")
    fit(unit, 3, second, 515, fate="shelf")
    assert (burned(first), burned(second)) == (h("15.00"), h("15.00"))
    assert not Lamp.objects.get(pk=first.pk).has_ended
    assert Lamp.objects.get(pk=second.pk).ended_at == day(6)


def test_a_lamp_in_an_empty_unit_stays_until_the_next_on_file() -> None:
    unit = a_unit()
    kind = a_kind(unit.house)
    late, early = a_lamp(kind, "L-late"), a_lamp(kind, "L-early")
    fit(unit, 4, late, 520)
    fit(unit, 2, early, 512)
    assert burned(early) == h("8.00")
    assert early.fittings.get().until_at == day(4)


@pytest.mark.parametrize(
    ("at", "shows", "code"),
    [(0.5, 512.2, "faster-than-clock"), (1, 515, "over-14"), (1, 524.2, "faster-than-clock"), (2, 528.1, "over-14")],
)
def test_more_than_the_clock_is_refused_and_more_than_14_h_a_day_asked_about(
    at: float, shows: float, code: str
) -> None:
    unit = a_unit()
    with pytest.raises(ReadingRefused if code == "faster-than-clock" else ReadingQuestioned) as found:
        read(unit, at, shows)
    assert codes(found) == [code]
    assert not Reading.objects.exists()
    if code == "over-14":
        assert read(unit, at, shows, confirmed=True).hours == h(shows)


def test_few_hours_a_strike_are_asked_about_and_strikes_never_fall() -> None:
    unit = a_unit(starts=0)
    read(unit, 1, 4, strikes=3)
    with pytest.raises(ReadingQuestioned) as asked:
        read(unit, 2, 5, strikes=9)
    assert codes(asked) == ["few-hours-a-strike"]
    read(unit, 2, 5, strikes=9, confirmed=True)
    read(unit, 3, 8)
    with pytest.raises(ReadingRefused) as refused:
        read(unit, 4, 11, strikes=8)
    assert codes(refused) == ["strikes-backward"]
    assert UnitTally.objects.get(unit=unit).strikes == 9


def test_strikes_of_a_lamp_are_told_only_between_two_counts() -> None:
    unit = a_unit()
    lamp = a_lamp(a_kind(unit.house), came_with_strikes=10)
    fit(unit, 0, lamp, 500, strikes=100)
    assert LampTally.objects.get(lamp=lamp).strikes == 10
    read(unit, 1, 504, strikes=102)
    read(unit, 2, 508)
    read(unit, 3, 512, strikes=105)
    assert LampTally.objects.get(lamp=lamp).strikes == 15


def test_a_reading_without_a_meter_ahead_of_the_clock_or_of_a_retired_unit_is_refused() -> None:
    unit = make_unit(tag="FS-09")
    for act, error in ((partial(read, unit, 1, 5), NoMeter), (partial(read, unit, 999, 5), LiesAhead)):
        with pytest.raises(error):
            act()
    Unit.objects.filter(pk=unit.pk).update(ended_at=day(1), ended_reason="sold")
    with pytest.raises(AlreadyEnded):
        read(unit, 1, 5)


def test_hours_are_added_to_a_unit_without_a_meter() -> None:
    unit = make_unit(tag="FS-09", source="tungsten halogen")
    lamp = a_lamp(a_kind(unit.house, rated_h=100.0))
    fit(unit, 0, lamp)
    add_hours(actor=ACTOR, unit=unit, at=day(1), hours=h(6), strikes=2)
    mistake = add_hours(actor=ACTOR, unit=unit, at=day(2), hours=h(4))
    assert (burned(lamp), burned(unit)) == (h("10.00"), h("10.00"))
    strike_hours(actor=ACTOR, added=mistake, at=day(3), reason="that was the other unit")
    assert burned(lamp) == h("6.00")
    with pytest.raises(AlreadyStruck):
        strike_hours(actor=ACTOR, added=mistake, at=day(3), reason="again")


def test_hours_added_beside_a_counting_meter_are_asked_about_and_never_more_than_the_clock() -> None:
    unit, lamp = lit()
    with pytest.raises(AddedBesideMeter):
        add_hours(actor=ACTOR, unit=unit, at=day(1), hours=h(2))
    add_hours(actor=ACTOR, unit=unit, at=day(1), hours=h(2), confirmed=True)
    assert burned(lamp) == h("2.00")
    with pytest.raises(ReadingRefused):
        add_hours(actor=ACTOR, unit=unit, at=day(2), hours=h(25), confirmed=True)
    for wrong in (h(0), h(-1)):
        with pytest.raises(DomainError):
            add_hours(actor=ACTOR, unit=unit, at=day(2), hours=wrong, confirmed=True)


def test_a_struck_reading_stays_with_its_reason_and_counts_no_more() -> None:
    unit, lamp = lit()
    read(unit, 1, 504)
    mistake = read(unit, 2, 520, confirmed=True)
    strike_reading(actor=ACTOR, reading=mistake, at=day(3), reason="read from the other unit")
    assert burned(lamp) == h("4.00")
    kept = Reading.objects.get(pk=mistake.pk)
    assert (kept.struck_reason, kept.struck_by) == ("read from the other unit", ACTOR.name)
    read(unit, 2, 508)
    with pytest.raises(Invalid):
        strike_reading(actor=ACTOR, reading=read(unit, 4, 509), at=day(5), reason=" ")


def test_a_reading_that_a_relamp_goes_by_needs_one_in_its_place() -> None:
    unit, lamp = lit()
    read(unit, 2, 510)
    reading = lamp.fittings.get().from_reading
    assert reading is not None
    with pytest.raises(PointedAt) as refused:
        strike_reading(actor=ACTOR, reading=reading, at=day(3), reason="misread")
    assert "instead" in str(refused.value)
    with pytest.raises(ReadingRefused), transaction.atomic():
        strike_reading(actor=ACTOR, reading=reading, at=day(3), reason="misread", instead_h=h(511))
    Reading.objects.filter(pk=reading.pk).update(struck_at=None, struck_reason="")
    instead = strike_reading(actor=ACTOR, reading=reading, at=day(3), reason="misread", instead_h=h(500))
    assert lamp.fittings.get().from_reading == instead
    assert burned(lamp) == h("10.00")


def test_only_the_last_entry_of_ones_own_is_undone() -> None:
    unit, lamp = lit()
    first, last = read(unit, 1, 504), read(unit, 2, 508)
    somebody = Actor.of_command("somebody else")
    for actor, entry in ((ACTOR, first), (somebody, last)):
        with pytest.raises(TooLateToUndo):
            undo_entry(actor=actor, entry=entry, now=last.entered_at)
    undo_entry(actor=ACTOR, entry=last, now=last.entered_at)
    assert burned(lamp) == h("4.00")
    assert may_undo(first, unit, ACTOR.name, first.entered_at)


def test_a_relamp_under_pressure_stays_open_until_it_is_answered() -> None:
    unit, _lamp = lit()
    entry = LogEntry.objects.get(unit=unit, kind="relamp")
    assert (entry.is_open, entry.meter_h, entry.fitting) == (True, h(500), unit.fittings.get())


def test_a_spare_under_a_new_serial_is_taken_from_the_count() -> None:
    unit = a_unit()
    kind = a_kind(unit.house, spares=1)
    for serial, at in (("L-7", 0), ("L-8", 1)):
        fit_lamp(actor=ACTOR, unit=unit, at=day(at), kind=kind, serial=serial, meter_in_h=h(500 + at))
        assert LampKind.objects.get(pk=kind.pk).spares == 0
    for wrong in ({"serial": "L-7", "kind": kind}, {"serial": "", "kind": kind}, {}):
        with pytest.raises((AlreadyExists, Invalid)), transaction.atomic():
            fit_lamp(actor=ACTOR, unit=unit, at=day(2), meter_in_h=h(503), **wrong)
    assert unit.fittings.count() == 2


def test_a_relamp_needs_a_reading_where_a_meter_counts_and_refuses_what_does_not_fit() -> None:
    unit, lamp = lit()
    other = a_lamp(lamp.kind, "L-2")
    foreign = a_lamp(a_kind(make_a_house()), "L-3")
    with pytest.raises(Invalid):
        fit(unit, 1, other)
    with pytest.raises(Invalid):
        fit(unit, 1, other, 510, meter_out_h=h(505))
    with pytest.raises(FittedThen):
        fit(unit, 0, other, 500)
    with pytest.raises(WrongHouse):
        fit(unit, 1, foreign, 501)
    with pytest.raises(NotFitted):
        take_out(actor=ACTOR, unit=a_unit(unit.house, "FS-03"), at=day(1), meter_out_h=h(500))
    with pytest.raises(NoMeter):
        fit(make_unit(unit.house, tag="FS-04"), 1, other, 5)
    assert burned(lamp) == h("0.00")


def test_a_meter_goes_before_the_one_on_file_and_never_beside_it() -> None:
    unit = make_unit(tag="FS-05")
    put_meter(actor=ACTOR, unit=unit, at=day(5), starts_h=h(100))
    earlier = put_meter(actor=ACTOR, unit=unit, at=day(1), starts_h=h(40))
    assert earlier.ends_at == day(5)
    with pytest.raises(Overlap):
        put_meter(actor=ACTOR, unit=unit, at=day(6), starts_h=h(0))
    read(unit, 4, 60)
    assert burned(unit) == h("60.00")


def test_a_replacement_entered_late_takes_over_the_readings_after_it() -> None:
    """The meter was swapped on day 2 at 510 for one that showed 512; day 4's 520 is the new one's: 10 + 8."""
    unit, lamp = lit()
    read(unit, 4, 520)
    replace_meter(actor=ACTOR, unit=unit, at=day(2), closing_h=h(510), starts_h=h(512))
    assert burned(lamp) == h("18.00")
    with pytest.raises(ReadingRefused):
        replace_meter(actor=ACTOR, unit=unit, at=day(3), closing_h=h(515), starts_h=h(530))


def test_a_lamp_past_its_stop_burns_on_only_by_a_named_decision_with_the_makers_source() -> None:
    unit = a_unit()
    lamp = a_lamp(a_kind(unit.house), came_with_h=h(1001))
    fit(unit, 0, lamp, 500)
    said = {"by": "Hollis Varga", "makers_source": "maker's sheet, page 4: up to 1,100 h", "reason": "spare is late"}
    decision = decide_past_stop(actor=ACTOR, lamp=lamp, at=day(1), until_h=h(1100), **said)
    assert (decision.by, lamp.decisions.count()) == ("Hollis Varga", 1)
    for wrong in ({"by": " "}, {"makers_source": ""}, {"reason": ""}, {"until_h": h(900)}):
        with pytest.raises(Invalid):
            decide_past_stop(actor=ACTOR, lamp=lamp, at=day(1), **{"until_h": h(1100), **said, **wrong})
    assert LampTally.objects.get(lamp=lamp).left_h == h("-1.00")


def test_hours_left_follow_the_kinds_new_figures() -> None:
    unit, lamp = lit()
    read(unit, 2, 520)
    kind = LampKind.objects.get(pk=lamp.kind_id)
    assert LampTally.objects.get(lamp=lamp).left_h == h("980.00")
    change_lamp_kind(actor=ACTOR, kind=kind, seen=kind.version, values={"rated_h": 500.0})
    assert LampTally.objects.get(lamp=lamp).left_h == h("480.00")


def test_lamps_and_kinds_end_only_when_nothing_relies_on_them() -> None:
    unit, lamp = lit()
    with pytest.raises(InUse):
        end_lamp(actor=ACTOR, lamp=lamp, at=day(1), fate="broken")
    take_out(actor=ACTOR, unit=unit, at=day(1), meter_out_h=h(505))
    kind = LampKind.objects.get(pk=lamp.kind_id)
    with pytest.raises(InUse):
        end_lamp_kind(actor=ACTOR, kind=kind, at=day(2), reason="not bought any more")
    with pytest.raises(Invalid):
        end_lamp(actor=ACTOR, lamp=lamp, at=day(2), fate="shelf")
    end_lamp(actor=ACTOR, lamp=lamp, at=day(2), fate="broken", reason="dropped")
    with pytest.raises(AlreadyEnded):
        fit(unit, 3, lamp, 505)
    end_lamp_kind(actor=ACTOR, kind=kind, at=day(2), reason="not bought any more")
    assert LampKind.objects.get(pk=kind.pk).has_ended


def test_spares_are_counted_against_the_version_that_was_shown() -> None:
    kind = a_kind(make_a_house())
    count_spares(actor=ACTOR, kind=kind, seen=1, spares=5, on_order=2)
    stored = LampKind.objects.get(pk=kind.pk)
    assert (stored.spares, stored.on_order, stored.version) == (5, 2, 2)


def test_every_verb_writes_one_sentence_of_history() -> None:
    from venue.wording import event_sentence

    unit, lamp = lit()
    read(unit, 1, 504)
    take_out(actor=ACTOR, unit=unit, at=day(2), meter_out_h=h(505), out_reason="swap")
    sentences = [event_sentence(event) for event in Event.objects.filter(house=unit.house).order_by("pk")]
    assert "put a meter on FS-01, which showed 500.0 h" in sentences
    assert "read 504.0 h on the meter of FS-01" in sentences
    assert f"took lamp {lamp.serial} out of FS-01: swap" in sentences
    assert not [sentence for sentence in sentences if "…" in sentence]


def entries(unit: Unit, lamps: list[Lamp]) -> list[Callable[[], Any]]:
    """Eight entries of one unit, true in any order: readings, relamps, hours that the meter missed."""
    return [
        partial(read, unit, 1, 504, strikes=2),
        partial(read, unit, 3, 512),
        partial(read, unit, 5, 522.5, strikes=9),
        partial(read, unit, 9, 541),
        partial(fit, unit, 2, lamps[0], 508),
        partial(fit, unit, 4, lamps[1], 516, fate="spent"),
        partial(fit, unit, 7, lamps[2], 530, fate="broken", out_reason="burst"),
        partial(add_hours, actor=ACTOR, unit=unit, at=day(6), hours=h(2), confirmed=True),
    ]


@settings(max_examples=5)
@given(order=st.permutations(range(8)))
def test_the_order_of_entry_does_not_matter(order: list[int]) -> None:
    """By hand: 500 to 508; to 516; to 530 and 2 added; to 541. The unit: 541 and 2 added."""
    with transaction.atomic():
        unit, first = lit()
        lamps = [a_lamp(first.kind, f"N-{number}") for number in range(3)]
        acts = entries(unit, lamps)
        for index in order:
            acts[index]()
        assert [burned(lamp) for lamp in (first, *lamps)] == [h("8.00"), h("8.00"), h("16.00"), h("11.00")]
        assert burned(unit) == h("543.00")
        ended = [Lamp.objects.get(pk=lamp.pk).ended_at for lamp in lamps]
        assert ended == [day(4), day(7), None]
        assert_tallies_are_what_the_book_says(unit, lamps)
        transaction.set_rollback(True)


def assert_tallies_are_what_the_book_says(unit: Unit, lamps: list[Lamp]) -> None:
    """The stored tallies against all rows, of which `retally` asks for few; and no meter runs backward."""
    book = whole_book([unit.pk], [lamp.pk for lamp in lamps])
    columns = ("hours", "strikes", "counted_to")
    stored: Any = UnitTally.objects.get(unit=unit)
    assert [getattr(stored, each) for each in columns] == [getattr(unit_tally(unit, book), each) for each in columns]
    for lamp in lamps:
        stored, found = LampTally.objects.get(lamp=lamp), lamp_tally(lamp, book)
        assert [getattr(stored, each) for each in columns] == [getattr(found, each) for each in columns]
    for run in book.runs[unit.pk]:
        assert not [problem for _mark, problem in run_problems(run) if not problem.is_question]


def test_a_whole_house_is_counted_as_its_units_are_one_by_one() -> None:
    unit, lamp = lit()
    read(unit, 3, 512)
    shelf = a_lamp(lamp.kind, "L-9", came_with_h=Decimal("3.5"))
    before = list(UnitTally.objects.values()), list(LampTally.objects.order_by("lamp").values())
    UnitTally.objects.all().delete()
    LampTally.objects.all().delete()
    retally_house(unit.house)
    assert (list(UnitTally.objects.values()), list(LampTally.objects.order_by("lamp").values())) == before
    assert burned(shelf) == h("3.50")
