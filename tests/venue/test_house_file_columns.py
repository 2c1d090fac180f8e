"""Whatever the format allows fits the column that keeps it."""

import pytest
from django.core.validators import MaxValueValidator, MinValueValidator

from venue.house_file.shape import house_schema, resolved
from venue.models import (
    Area,
    Attachment,
    Blockage,
    CareItem,
    CarePlan,
    Circuit,
    ColorFilter,
    Fault,
    Fitting,
    HoursAdded,
    House,
    Lamp,
    LampDecision,
    LampKind,
    LightReading,
    LogEntry,
    Meter,
    PickUpSize,
    Place,
    Placement,
    Position,
    Reading,
    Setup,
    Unit,
)

COLUMNS = {
    "house": (House, {"units": "unit_system"}),
    "setup": (Setup, {"setup_name": "name"}),
    "position": (Position, {}),
    "slot": (Place, {"order": "row_order"}),
    "area": (Area, {}),
    "blockage": (Blockage, {}),
    "circuit": (Circuit, {}),
    "filter": (ColorFilter, {}),
    "size": (PickUpSize, {}),
    "unit": (Unit, {"ended": "ended_at"}),
    "lamp_kind": (LampKind, {"ended": "ended_at"}),
    "lamp": (Lamp, {"ended": "ended_at"}),
    "fitting": (Fitting, {"from": "from_at", "until": "until_at"}),
    "decision": (LampDecision, {}),
    "meter": (Meter, {"from": "starts_at", "until": "ends_at"}),
    "reading": (Reading, {"meter_h": "hours", "entered": "entered_at", "struck": "struck_at"}),
    "added": (HoursAdded, {"entered": "entered_at", "struck": "struck_at"}),
    "placement": (Placement, {"from": "starts_at", "until": "ends_at"}),
    "fault": (Fault, {"opened": "opened_at", "closed": "closed_at"}),
    "log_entry": (LogEntry, {"open": "is_open", "entered": "entered_at", "struck": "struck_at"}),
    "attachment": (Attachment, {"added": "added_at"}),
    "care_plan": (CarePlan, {"ended": "ended_at"}),
    "done": (CareItem, {"at": "last_done_at", "unit_h": "last_done_h", "ended": "ended_at"}),
    "light_reading": (LightReading, {"entered": "entered_at", "struck": "struck_at"}),
}
NOT_COLUMNS = {
    *("target", "zones", "slots", "operated_from", "fitted", "meter_out_h", "decisions", "done", "position"),
    *("answers", "attachments", "content", "entry", "closed_by_entry", "closes_meter"),
    *("areas", "blocked", "corners", "circuit", "place"),
}
TAKEN_IN_WORDS = {("log_entry", "kind")}
"""Any word may stand there; what is no choice of the column's is kept elsewhere."""


def columns():
    """(model, column, what the schema says of it) for every key that is kept in a column of its own."""
    for part, (model, renamed) in COLUMNS.items():
        names = {field.name for field in model._meta.fields}
        for key, schema in house_schema()["$defs"][part]["properties"].items():
            column = renamed.get(key, key)
            if key not in NOT_COLUMNS and column in names and column != "unit" and (part, key) not in TAKEN_IN_WORDS:
                yield model, column, resolved(schema)


def limit(field, kind, worst):
    """The narrowest limit of the kind that the column's validators set."""
    found = [each.limit_value for each in field.validators if type(each) is kind]
    return worst(found) if found else None


@pytest.mark.parametrize(("model", "column", "schema"), list(columns()), ids=str)
def test_everything_that_the_format_allows_fits_its_column(model, column, schema):
    field = model._meta.get_field(column)
    low, high = limit(field, MinValueValidator, max), limit(field, MaxValueValidator, min)
    if "maxLength" in schema and field.max_length:
        assert schema["maxLength"] <= field.max_length
    if "enum" in schema:
        assert set(schema["enum"]) <= {value for value, _name in field.choices}
    if schema.get("type") in ("number", "integer"):
        assert low is None or schema["minimum"] >= low
        assert high is None or schema.get("maximum", schema.get("exclusiveMaximum")) <= high


OF_EVERY_ROW = {"id", "ref", "version", "ended_at", "ended_reason", "only_for"}
TOLD_OTHERWISE = {
    *(("Setup", "is_default"), ("Setup", "target_x_m"), ("Setup", "target_y_m"), ("Setup", "target_z_m")),
    *(("Position", "row_order"), ("Area", "corners"), ("Blockage", "corners"), ("LogEntry", "kind")),
    *(("LogEntry", f"is_{answer}") for answer in ("isolated", "cooled", "protected", "aligned")),
    *(("Attachment", "content"), ("Attachment", "content_type"), ("Attachment", "size")),
    *(("CareItem", "due_h"), ("CareItem", "due_on")),
}
"""Columns that follow from where a thing stands in the file, from other keys or from other tables."""


def test_every_column_has_its_key_or_is_told_otherwise():
    kept = {(model.__name__, column) for model, column, _schema in columns()}
    all_columns = {
        (model.__name__, field.name)
        for model, _renamed in COLUMNS.values()
        for field in model._meta.fields
        if not (field.is_relation or field.name.endswith("_key") or field.name in OF_EVERY_ROW)
    }
    assert all_columns - kept == TOLD_OTHERWISE


def test_only_what_is_kept_in_other_tables_or_other_columns_has_no_column_of_its_own():
    kept = {column for _model, column, _schema in columns()}
    keys = {key for part in COLUMNS for key in house_schema()["$defs"][part]["properties"]}
    renamed = {key for _model, names in COLUMNS.values() for key in names}
    assert keys - kept - renamed == NOT_COLUMNS | {"unit"}
