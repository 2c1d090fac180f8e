"""Rows are added, never changed or deleted."""

from dataclasses import dataclass

from django.db.models import Model

from venue.errors import DomainError, HistoryIsKept
from venue.guards.base import MARK, Guard


@dataclass(frozen=True)
class AppendOnly(Guard):
    """Refuses every update and delete on the table, from whichever program they come."""

    @property
    def fields(self) -> tuple[str, ...]:
        return ()

    def sqlite(self, table: str, columns: tuple[str, ...]) -> dict[str, str]:
        refusal = f"SELECT RAISE(ABORT, '{MARK}{self.name}');"
        return {
            f"{self.name}_{verb.lower()}": f'CREATE TRIGGER "{self.name}_{verb.lower()}" '
            f'BEFORE {verb} ON "{table}" BEGIN {refusal} END'
            for verb in ("UPDATE", "DELETE")
        }

    def postgresql(self, table: str, columns: tuple[str, ...]) -> list[str]:
        return [
            f'CREATE FUNCTION "{self.name}"() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN '
            f"RAISE EXCEPTION '{MARK}{self.name}' USING ERRCODE = 'integrity_constraint_violation'; END $$",
            f'CREATE TRIGGER "{self.name}" BEFORE UPDATE OR DELETE ON "{table}" '
            f'FOR EACH ROW EXECUTE FUNCTION "{self.name}"()',
        ]

    def postgresql_drop(self, table: str) -> list[str]:
        return [f'DROP TRIGGER "{self.name}" ON "{table}"', f'DROP FUNCTION "{self.name}"()']

    def refusal(self, row: Model) -> DomainError:
        return HistoryIsKept()
