"""The rules that the database keeps itself: which stand, what they refuse, that they outlast a table's remake."""

import pytest
from django.apps import apps
from django.core.management import call_command
from django.db import IntegrityError, connection, connections, models, transaction
from django.db.migrations.state import ProjectState

from tests.factories import ACTOR, NOON, make_a_house, make_place, make_unit
from venue.actions import change, make_code, place_unit
from venue.errors import HistoryIsKept, Invalid, Overlap
from venue.guards import AddGuard, Guard
from venue.history import record
from venue.models import Event, House, Placement, PrintedCode

GUARDED = [model for model in apps.get_models() if getattr(model, "guards", ())]


def declared() -> set[str]:
    """The names that the database must have: of triggers, and on PostgreSQL of exclusion constraints."""
    return {name for model in GUARDED for guard in model.guards for name in names_of(guard, model)}  # type: ignore[attr-defined]


def names_of(guard: Guard, model: type[models.Model]) -> list[str]:
    if connection.vendor == "postgresql":
        return [guard.name]
    return list(guard.sqlite(model._meta.db_table, guard.columns(model)))


def standing(alias: str = "default") -> set[str]:
    """The names that the database has."""
    queries = {
        "sqlite": "SELECT name FROM sqlite_master WHERE type = 'trigger'",
        "postgresql": "SELECT conname FROM pg_constraint WHERE contype = 'x'"
        " UNION SELECT tgname FROM pg_trigger WHERE NOT tgisinternal",
    }
    with connections[alias].cursor() as cursor:
        cursor.execute(queries[connections[alias].vendor])
        return {name for (name,) in cursor.fetchall()}


def test_the_guards_cover_overlap_history_and_what_never_changes() -> None:
    assert {guard.name for model in GUARDED for guard in model.guards} == {  # type: ignore[attr-defined]
        "house_slug_unchanging",
        "placement_no_overlap_by_unit",
        "placement_no_overlap_by_place",
        "event_append_only",
        "fitting_no_overlap_by_lamp",
        "fitting_no_overlap_by_unit",
        "lamp_decision_append_only",
        "link_secret_unchanging",
        "meter_no_overlap_by_unit",
        "printed_code_unchanging",
        "paperwork_content_unchanging",
        "issued_sheet_append_only",
        "line_confirmation_append_only",
        "call_line_no_overlap_by_person",
        "meal_break_no_overlap",
        "passed_over_append_only",
        "check_mark_append_only",
        "check_signature_append_only",
    }


@pytest.mark.django_db
def test_every_declared_guard_stands_in_the_database_and_no_other() -> None:
    assert standing() == declared()


@pytest.mark.django_db
def test_history_is_not_changed_or_deleted_through_the_model() -> None:
    line = record(ACTOR, "house.changed", make_a_house(), house=None)
    line.verb = "forged"
    for attempt in (line.save, line.delete, Event.objects.all().delete, Event.objects.filter(pk=line.pk).delete):
        with pytest.raises(HistoryIsKept):
            attempt()
    with pytest.raises(HistoryIsKept):
        Event.objects.update(verb="forged")
    assert Event.objects.get(pk=line.pk).verb == "house.changed"


@pytest.mark.django_db
@pytest.mark.parametrize("sql", ["UPDATE venue_event SET verb = 'forged'", "DELETE FROM venue_event"])
def test_history_is_not_changed_or_deleted_behind_the_model(sql: str) -> None:
    make_a_house()
    lines = Event.objects.count()
    with pytest.raises(IntegrityError, match="event_append_only"), transaction.atomic():
        connection.cursor().execute(sql)
    assert Event.objects.exclude(verb="forged").count() == lines > 0


@pytest.mark.django_db
def test_a_house_keeps_its_slug() -> None:
    house = make_a_house(slug="kept")
    with pytest.raises(Invalid, match="once it is made"):
        change(actor=ACTOR, row=house, house=house, seen=1, values={"slug": "other"})
    with pytest.raises(IntegrityError), transaction.atomic():
        House.objects.filter(pk=house.pk).update(slug="other")
    assert House.objects.get(pk=house.pk).slug == "kept"


@pytest.mark.django_db
def test_a_printed_code_stays_what_was_printed() -> None:
    house = make_a_house()
    code = make_code(actor=ACTOR, purpose="place", subject=make_place(), house=house)
    with pytest.raises(IntegrityError, match="printed_code_unchanging"), transaction.atomic():
        PrintedCode.objects.filter(pk=code.pk).update(code="2222222222A")


@pytest.mark.django_db(transaction=True)
@pytest.mark.usefixtures("shared_database")
def test_a_table_that_is_made_anew_has_its_guards_again_after_the_migration() -> None:
    place = make_place()
    make_table_anew(Placement)
    if connection.vendor == "sqlite":
        assert declared() - standing() == {name for guard in Placement.guards for name in names_of(guard, Placement)}
    call_command("migrate", verbosity=0)
    assert standing() == declared()
    units = [make_unit(place.position.house) for _ in range(2)]
    place_unit(actor=ACTOR, unit=units[0], place=place, starts_at=NOON)
    with pytest.raises(Overlap):
        place_unit(actor=ACTOR, unit=units[1], place=place, starts_at=NOON)


def make_table_anew(model: type[models.Model]) -> None:
    """Alter a column there and back, which SQLite does by a new table in the old one's place."""
    column = model._meta.get_field("starts_at")
    altered = column.clone()
    altered.null = True
    altered.set_attributes_from_name("starts_at")
    altered.model = model
    for before, after in ((column, altered), (altered, column)):
        with connection.schema_editor() as editor:
            editor.alter_field(model, before, after)


@pytest.mark.django_db(transaction=True)
@pytest.mark.usefixtures("shared_database")
def test_guards_go_and_come_with_their_migration() -> None:
    state, before = ProjectState.from_apps(apps), standing()
    for model, guard in [(each, guard) for each in GUARDED for guard in each.guards]:  # type: ignore[attr-defined]
        adding, app = AddGuard(model._meta.model_name or "", guard), model._meta.app_label
        with connection.schema_editor() as editor:
            adding.database_backwards(app, editor, state, state)
        assert before - standing() == set(names_of(guard, model))
        with connection.schema_editor() as editor:
            adding.database_forwards(app, editor, state, state)
        assert standing() == before
