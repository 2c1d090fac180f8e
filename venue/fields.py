"""Columns whose order and equality both databases must agree on."""

from collections.abc import Callable
from typing import Any

from django.db import models
from django.db.backends.base.base import BaseDatabaseWrapper

BINARY_COLLATIONS = {"postgresql": "C", "sqlite": "BINARY"}


class BinaryCharField(models.CharField):
    """Text compared and ordered by code point, whatever language the database was made for."""

    def db_parameters(self, connection: BaseDatabaseWrapper) -> Any:
        return {**super().db_parameters(connection), "collation": BINARY_COLLATIONS.get(connection.vendor)}


class KeyField(BinaryCharField):
    """A key derived from another column of the row each time the row is stored, singly or in bulk.

    A migration sees a plain `BinaryCharField`: a data migration that writes `source` writes the key too.
    """

    def __init__(
        self,
        *args: Any,
        source: str = "",
        derive: Callable[[str], str] | None = None,
        **kwargs: Any,
    ) -> None:
        self.source, self.derive = source, derive
        super().__init__(*args, **{**kwargs, "editable": False, "blank": True})

    def deconstruct(self) -> tuple[str, str, Any, Any]:
        name, _path, args, kwargs = super().deconstruct()
        return name, "venue.fields.BinaryCharField", args, kwargs

    def pre_save(self, model_instance: models.Model, add: bool) -> Any:
        if self.derive:
            setattr(model_instance, self.attname, self.derive(getattr(model_instance, self.source)))
        return super().pre_save(model_instance, add)


def fill_keys(row: models.Model) -> None:
    """Derive every key of the row from its sources, so that constraints can be checked before storing."""
    for field in row._meta.concrete_fields:
        if isinstance(field, KeyField):
            field.pre_save(row, add=False)
