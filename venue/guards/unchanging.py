"""Some columns keep the value they were made with: they stand in addresses and on paper."""

from dataclasses import dataclass

from django.db.models import Model
from django.utils.translation import gettext

from venue.errors import DomainError, Invalid
from venue.guards.base import MARK, Guard


@dataclass(frozen=True)
class Unchanging(Guard):
    """Refuses an update that changes field `field`."""

    field: str

    @property
    def fields(self) -> tuple[str, ...]:
        return (self.field,)

    def sqlite(self, table: str, columns: tuple[str, ...]) -> dict[str, str]:
        (column,) = columns
        return {
            self.name: f'CREATE TRIGGER "{self.name}" BEFORE UPDATE OF "{column}" ON "{table}" '
            f'WHEN NEW."{column}" IS NOT OLD."{column}" '
            f"BEGIN SELECT RAISE(ABORT, '{MARK}{self.name}'); END"
        }

    def postgresql(self, table: str, columns: tuple[str, ...]) -> list[str]:
        (column,) = columns
        return [
            f'CREATE FUNCTION "{self.name}"() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN '
            f"RAISE EXCEPTION '{MARK}{self.name}' USING ERRCODE = 'integrity_constraint_violation'; END $$",
            f'CREATE TRIGGER "{self.name}" BEFORE UPDATE ON "{table}" FOR EACH ROW '
            f'WHEN (NEW."{column}" IS DISTINCT FROM OLD."{column}") EXECUTE FUNCTION "{self.name}"()',
        ]

    def postgresql_drop(self, table: str) -> list[str]:
        return [f'DROP TRIGGER "{self.name}" ON "{table}"', f'DROP FUNCTION "{self.name}"()']

    def refusal(self, row: Model) -> DomainError:
        return Invalid({self.field: [gettext("This can't be changed once it is made.")]})
