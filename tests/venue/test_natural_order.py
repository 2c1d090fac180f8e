"""Labels come in their natural order from either database, whatever language it was made for."""

import pytest
from django.db import connection

from tests.factories import make_position
from venue.core.labels import sort_key
from venue.models import Place

LABELS = [
    "10",
    "B",
    "2",
    "t10",
    "Ä1",
    "1",
    "2B",
    "Éa",
    "T2",
    "a",
    "_1",
    "100",
    "2a10",
    "2a9",
    "Z",
    "é",
    "１２",
    "007",
    "ß",
]


@pytest.fixture
def labelled(db: None) -> None:
    position = make_position()
    Place.objects.bulk_create([Place(position=position, label=label) for label in LABELS])


def test_the_stored_order_is_the_natural_order(labelled: None) -> None:
    stored = list(Place.objects.order_by("sort_key").values_list("label", flat=True))
    assert stored == sorted(LABELS, key=sort_key)


def test_backward_is_the_same_order_backward(labelled: None) -> None:
    stored = list(Place.objects.order_by("-sort_key").values_list("label", flat=True))
    assert stored == sorted(LABELS, key=sort_key, reverse=True)


def test_the_key_columns_carry_the_binary_collation(labelled: None) -> None:
    with connection.cursor() as cursor:
        assert {column_collation(cursor, name) for name in ("label_key", "sort_key")} == {binary_collation()}


def binary_collation() -> str:
    return {"postgresql": "C", "sqlite": "BINARY"}[connection.vendor]


def column_collation(cursor: object, column: str) -> str | None:
    description = connection.introspection.get_table_description(cursor, "venue_place")
    return next(found.collation for found in description if found.name == column)
