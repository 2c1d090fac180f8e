"""Whatever the format allows fits the column that keeps it."""

import pytest
from django.core.validators import MaxValueValidator, MinValueValidator

from venue.house_file.shape import house_schema, resolved
from venue.models import House, Place, Position, Setup, Unit

COLUMNS = {
    "house": (House, {"units": "unit_system"}),
    "setup": (Setup, {"setup_name": "name"}),
    "position": (Position, {}),
    "slot": (Place, {"order": "row_order"}),
    "unit": (Unit, {}),
}
NOT_COLUMNS = {"target", "zones", "slots", "operated_from"}


def columns():
    """(model, column, what the schema says of it) for every key that is kept in a column of its own."""
    for part, (model, renamed) in COLUMNS.items():
        names = {field.name for field in model._meta.fields}
        for key, schema in house_schema()["$defs"][part]["properties"].items():
            column = renamed.get(key, key)
            if key not in NOT_COLUMNS and column in names and column != "unit":
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


def test_only_what_is_kept_in_other_tables_or_other_columns_has_no_column_of_its_own():
    kept = {column for _model, column, _schema in columns()}
    keys = {key for part in COLUMNS for key in house_schema()["$defs"][part]["properties"]}
    renamed = {key for _model, names in COLUMNS.values() for key in names}
    assert keys - kept - renamed == NOT_COLUMNS | {"unit"}
