"""What every guard has in common, the migration operation that adds one, and putting them back."""

import re
from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import Any

from django.apps import AppConfig
from django.db import connections
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.migrations.operations.base import Operation
from django.db.migrations.state import ProjectState
from django.db.models import Model

from venue.errors import DomainError

MARK = "guard:"
"""Begins the message of each refusal, before the guard's name."""


@dataclass(frozen=True)
class Guard(ABC):
    """A rule on one table. `name` is unique in the database; `fields` are those that the rule reads."""

    name: str

    @property
    @abstractmethod
    def fields(self) -> tuple[str, ...]: ...

    @abstractmethod
    def sqlite(self, table: str, columns: tuple[str, ...]) -> dict[str, str]:
        """The triggers: their SQL by name."""

    @abstractmethod
    def postgresql(self, table: str, columns: tuple[str, ...]) -> list[str]:
        """The statements that add the rule."""

    @abstractmethod
    def postgresql_drop(self, table: str) -> list[str]:
        """The statements that take the rule away."""

    def add(self, model: type[Model], vendor: str) -> list[str]:
        """The statements that add the rule, which may stand already on SQLite."""
        table, columns = model._meta.db_table, self.columns(model)
        if vendor == "postgresql":
            return self.postgresql(table, columns)
        triggers = self.sqlite(table, columns)
        return [*map(_drop_trigger, triggers), *triggers.values()]

    def drop(self, model: type[Model], vendor: str) -> list[str]:
        """The statements that take the rule away."""
        if vendor == "postgresql":
            return self.postgresql_drop(model._meta.db_table)
        return [_drop_trigger(name) for name in self.sqlite(model._meta.db_table, self.columns(model))]

    def columns(self, model: type[Model]) -> tuple[str, ...]:
        """The columns of `fields`, in their order."""
        return tuple(str(model._meta.get_field(field).column) for field in self.fields)  # type: ignore[union-attr]

    def is_in(self, error: Exception) -> bool:
        """Whether the database's refusal comes from this guard."""
        return re.search(rf"\b{self.name}\b", str(error)) is not None

    @abstractmethod
    def refusal(self, row: Model) -> DomainError:
        """What the refusal of the row means to a user."""


def _drop_trigger(name: str) -> str:
    return f'DROP TRIGGER IF EXISTS "{name}"'


class AddGuard(Operation):
    """Add a guard to a model's table."""

    reversible = True

    def __init__(self, model_name: str, guard: Guard) -> None:
        self.model_name, self.guard = model_name, guard

    def state_forwards(self, app_label: str, state: ProjectState) -> None:
        """Guards live in the database only."""

    def database_forwards(
        self, app_label: str, schema_editor: BaseDatabaseSchemaEditor, from_state: Any, to_state: Any
    ) -> None:
        model = to_state.apps.get_model(app_label, self.model_name)
        for sql in self.guard.add(model, schema_editor.connection.vendor):
            schema_editor.execute(sql, params=None)

    def database_backwards(
        self, app_label: str, schema_editor: BaseDatabaseSchemaEditor, from_state: Any, to_state: Any
    ) -> None:
        model = from_state.apps.get_model(app_label, self.model_name)
        for sql in self.guard.drop(model, schema_editor.connection.vendor):
            schema_editor.execute(sql, params=None)

    def describe(self) -> str:
        return f"Guard {self.guard.name} on {self.model_name}"


def put_back(sender: AppConfig, using: str, **_signal: Any) -> None:
    """After a migration on SQLite: make the triggers of the app's tables anew."""
    connection = connections[using]
    if connection.vendor != "sqlite":
        return
    with connection.cursor() as cursor:
        for model in sender.get_models():
            for guard in getattr(model, "guards", ()):
                if _has_columns(connection, model, guard):
                    for sql in guard.add(model, connection.vendor):
                        cursor.execute(sql)


def _has_columns(connection: BaseDatabaseWrapper, model: type[Model], guard: Guard) -> bool:
    """Whether the table stands with all the guard needs; not so after a migration part of the way."""
    with connection.cursor() as cursor:
        if model._meta.db_table not in connection.introspection.table_names(cursor):
            return False
        described = connection.introspection.get_table_description(cursor, model._meta.db_table)
    return set(guard.columns(model)) <= {column.name for column in described}
