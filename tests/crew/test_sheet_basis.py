"""A sheet whose basis still stands is current: whatever can change what a sheet says moves its basis."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from django.apps import apps
from django.db import connection
from django.db.models import Model
from django.test.utils import CaptureQueriesContext

from crew.actions import call_off, issue_call_sheet, put_at_spot_talk, put_on_number
from crew.actions.certifying import add_certification
from crew.models import Call, IssuedSheet
from crew.sheet_basis import basis_of
from crew.sheet_content import draft_of
from crew.sheet_standing import standing_of_sheet
from shows.actions import bind_spots, choose_way, end_show_event, put_spots, set_place_use
from shows.models import PlaceUse
from tests.crew.stage import Stage, a_stage, spots
from tests.factories import ACTOR, NOON, make_place, make_position, make_unit
from tests.venue.lamped import a_kind, a_lamp, day, fit, h
from venue.actions import change, decide_past_stop, end_placement, place_unit, put_meter, set_zone
from venue.models import Fault, Lamp, Place, Placement, SetupZone, Versioned

pytestmark = pytest.mark.django_db
RELATED = ("event", "engagement__house", "engagement__setup")
NOT_SAID = {"venue_logentry"}
"""Read for what is good to know of a unit, which no call sheet says."""
WITHOUT_VERSION = {"venue_lamptally", "venue_lampdecision"}
"""Derived rows, which go into the basis by their values, and rows that never change."""


@pytest.fixture
def stage(db: None) -> Stage:
    """Everything that a sheet may read is there: a zone, a place's use, a choice, a remote-run unit, operators."""
    made = a_stage(4)
    show, house = made.cast.engagement, made.cast.house
    elsewhere = make_place(make_position(house, "Catwalk", access="ladder"), "C", x_m=0.0, y_m=-9.0, z_m=9.0)
    made.places[0].operated_from = elsewhere
    made.places[0].save()
    set_place_use(actor=ACTOR, engagement=show, place=elsewhere, in_use=False, at=NOON, seen=0)
    set_zone(actor=ACTOR, setup=show.setup, position=made.places[0].position, zone="overhead")
    choose_way(actor=ACTOR, engagement=show, way="tape", at=NOON)
    put_on_number(actor=ACTOR, call=made.call, number="1", person=made.people[0])
    put_at_spot_talk(actor=ACTOR, call=made.call, person=made.people[1])
    add_certification(actor=ACTOR, person=made.people[0], kind=made.cast.roster.certification_kinds.first())
    limited = {"means": "limited", "limit": "iris sticks", "opened_at": NOON}
    wear_out_a_lamp(made, 2)
    Fault(unit=Placement.objects.get(place=made.places[3]).unit, part="iris", **limited).save()
    return made


def now(stage: Stage) -> Call:
    return Call.objects.select_related(*RELATED).get(pk=stage.call.pk)


def tables_read(work: Callable[[], object]) -> set[str]:
    with CaptureQueriesContext(connection) as captured:
        work()
    return {table for query in captured for table in re.findall(r'(?:FROM|JOIN) "?(\w+_\w+)"?', query["sql"])}


def model_of(table: str) -> type[Model]:
    return next(model for model in apps.get_models() if model._meta.db_table == table)


def test_a_sheet_reads_no_table_whose_rows_have_no_part_in_its_basis(stage: Stage) -> None:
    call = now(stage)
    own = {"crew_call", "shows_showevent", "shows_engagement", "venue_house", "venue_setup"}
    assert tables_read(lambda: draft_of(call)) <= tables_read(lambda: basis_of(call)) | own | NOT_SAID


def test_a_new_version_of_any_row_that_a_sheet_reads_moves_its_basis(stage: Stage) -> None:
    """Rows are found by the tables that the sheet reads, not by a list that could be forgotten."""
    related = {"shows_showevent", "shows_engagement", "venue_house", "venue_setup", "crew_call"}
    tables = tables_read(lambda: draft_of(now(stage))) | related
    assert len(tables) >= 17
    for model in map(model_of, tables - NOT_SAID - WITHOUT_VERSION):
        row = model._default_manager.order_by("pk").first()
        assert isinstance(row, Versioned), f"{model} has no version to go by, or no row"
        before = basis_of(now(stage))
        row.save()
        assert basis_of(now(stage)) != before, f"a change to {model} goes unnoticed"


def test_what_is_set_anew_after_it_was_dropped_moves_the_basis(stage: Stage) -> None:
    setup, position = stage.cast.engagement.setup, stage.places[0].position
    before = basis_of(now(stage))
    set_zone(actor=ACTOR, setup=setup, position=position, zone="")
    set_zone(actor=ACTOR, setup=setup, position=position, zone="rear")
    assert SetupZone.objects.get().version == 1
    assert basis_of(now(stage)) != before


def test_the_basis_stands_while_nothing_is_touched(stage: Stage) -> None:
    sheet = seen(issued(stage))
    assert sheet.basis == basis_of(now(stage))
    with CaptureQueriesContext(connection) as captured:
        assert standing_of_sheet(sheet).state == "current"
    assert len(captured) == 2


def test_a_row_that_was_touched_without_a_word_changed_leaves_the_sheet_current(stage: Stage) -> None:
    sheet = issued(stage)
    stage.places[1].position.save()
    assert sheet.basis != basis_of(now(stage))
    assert standing_of_sheet(seen(sheet)).state == "current"


def test_a_sheet_of_which_no_basis_was_kept_is_held_against_what_it_would_say_now(stage: Stage) -> None:
    sheet = issued(stage)
    sheet.basis = ""
    assert standing_of_sheet(sheet).state == "current"
    rename_unit(stage)
    assert standing_of_sheet(sheet).state == "changed-not-issued"


def issued(stage: Stage) -> IssuedSheet:
    return issue_call_sheet(actor=ACTOR, call=now(stage), now=NOON).sheet


def seen(sheet: IssuedSheet) -> IssuedSheet:
    return IssuedSheet.objects.select_related(*(f"call__{name}" for name in RELATED)).get(pk=sheet.pk)


def edit(stage: Stage, row: Any, **values: Any) -> None:
    row.refresh_from_db()
    change(actor=ACTOR, row=row, house=stage.cast.house, seen=row.version, values=values)


def rename_unit(stage: Stage) -> None:
    edit(stage, Placement.objects.get(place=stage.places[1]).unit, tag="FS-NEW")


def take_away(stage: Stage) -> None:
    end_placement(actor=ACTOR, placement=Placement.objects.get(place=stage.places[1]), at=NOON)


def bind_by_number(stage: Stage) -> None:
    """Show 1 on the lamp that says 1."""
    rows = dict(zip(stage.cast.engagement.spots.standing(), ([place] for place in stage.places), strict=True))
    bind_spots(actor=ACTOR, engagement=stage.cast.engagement, places=rows, at=NOON)


def wear_out_a_lamp(stage: Stage, index: int = 1) -> Lamp:
    """A lamp past its stop, fitted in the unit at the place."""
    unit = Placement.objects.get(place=stage.places[index]).unit
    put_meter(actor=ACTOR, unit=unit, at=day(0), starts_h=h(0))
    lamp = a_lamp(a_kind(stage.cast.house, f"kind {index}"), f"L-{index}", came_with_h=h(1200))
    fit(unit, 0, lamp, 0)
    return lamp


def let_it_burn_on(stage: Stage) -> None:
    said = {"by": "Hollis Varga", "makers_source": "the maker's sheet 7", "reason": "no spare", "until_h": h(1300)}
    decide_past_stop(actor=ACTOR, lamp=Lamp.objects.get(serial="L-2"), at=NOON, **said)


def put_out_of_use(stage: Stage) -> None:
    use = PlaceUse.objects.filter(place=stage.places[2]).first()
    facts = {"place": stage.places[2], "in_use": False, "at": NOON, "seen": use.version if use else 0}
    set_place_use(actor=ACTOR, engagement=stage.cast.engagement, **facts)


def bring_another_unit(stage: Stage) -> None:
    place = make_place(stage.places[0].position, "9", x_m=30.0, y_m=-30.0, z_m=12.0)
    place_unit(actor=ACTOR, unit=make_unit(stage.cast.house), place=place, starts_at=NOON)
    put_spots(actor=ACTOR, engagement=stage.cast.engagement, spots=spots(5), at=NOON)


def call_off_the_event(stage: Stage) -> None:
    end_show_event(actor=ACTOR, event=stage.event, at=NOON, reason="storm")


CHANGES: dict[str, Callable[[Stage], object]] = {
    "a unit's tag": rename_unit,
    "a unit taken away": take_away,
    "a unit more": bring_another_unit,
    "a place's label": lambda stage: edit(stage, stage.places[0], label="1A"),
    "a position's name": lambda stage: edit(stage, stage.places[0].position, name="Attic"),
    "the way up": lambda stage: edit(stage, stage.places[1].position, access="spiral stair"),
    "the way up to where a unit is run from": lambda stage: edit(
        stage, Place.objects.get(label="C").position, access="lift"
    ),
    "where a unit is run from": lambda stage: edit(stage, stage.places[0], operated_from=None),
    "a landmark": lambda stage: edit(stage, stage.cast.engagement.setup, house_left_landmark="mill side"),
    "the house's name": lambda stage: edit(stage, stage.cast.house, name="Quillmark Opera"),
    "the show's name": lambda stage: edit(stage, stage.cast.engagement, name="Ten Paper Boats"),
    "numbers by hand": bind_by_number,
    "a lamp past its stop": wear_out_a_lamp,
    "a lamp that may burn on": let_it_burn_on,
    "a lamp's serial": lambda stage: edit(stage, Lamp.objects.get(), serial="L-2b"),
    "a fault": lambda stage: edit(stage, Fault.objects.get(), limit="iris is stuck open"),
    "a place out of use": put_out_of_use,
    "another way out": lambda stage: choose_way(actor=ACTOR, engagement=stage.cast.engagement, way="move", at=NOON),
    "the paperwork": lambda stage: put_spots(
        actor=ACTOR, engagement=stage.cast.engagement, spots=spots(4, notes="low fog"), at=NOON
    ),
    "an operator more": lambda stage: put_on_number(actor=ACTOR, call=stage.call, number="2", person=stage.people[2]),
    "an operator's name": lambda stage: edit(stage, stage.people[0], name="Ada Q. Quillfeather"),
    "the event off": call_off_the_event,
    "the call off": lambda stage: call_off(actor=ACTOR, call=stage.call, at=NOON, reason="storm"),
}


@pytest.mark.parametrize("what", CHANGES)
def test_a_change_is_noticed(stage: Stage, what: str) -> None:
    sheet = issued(stage)
    CHANGES[what](stage)
    assert draft_of(now(stage)).sha256 != sheet.sha256
    assert standing_of_sheet(seen(sheet)).state == "changed-not-issued"
