"""No two spans of time of the same thing overlap, however many write at once.

Spans are half-open: one may start at the instant another ends. No end means for good. A span that ends at its
own start is empty and overlaps nothing: that is how a plan is taken back without deleting the row.
"""

from dataclasses import dataclass

from django.db.models import F, Model, Q, QuerySet

from venue.errors import DomainError, Overlap, TryAgain
from venue.guards.base import MARK, Guard


@dataclass(frozen=True)
class NoOverlap(Guard):
    """Rows that agree in field `by` do not overlap in time.

    Writers lock the row that `by` points to before they write: two who insert at the same instant would
    otherwise each wait for the other on PostgreSQL, until it ends one with an error that names no rule.
    """

    by: str
    starts: str = "starts_at"
    ends: str = "ends_at"

    @property
    def fields(self) -> tuple[str, ...]:
        return (self.by, self.starts, self.ends)

    def postgresql(self, table: str, columns: tuple[str, ...]) -> list[str]:
        by, starts, ends = columns
        span = f'tstzrange("{starts}", "{ends}", \'[)\')'
        return [
            f'ALTER TABLE "{table}" ADD CONSTRAINT "{self.name}" EXCLUDE USING gist ("{by}" WITH =, {span} WITH &&)'
        ]

    def postgresql_drop(self, table: str) -> list[str]:
        return [f'ALTER TABLE "{table}" DROP CONSTRAINT "{self.name}"']

    def sqlite(self, table: str, columns: tuple[str, ...]) -> dict[str, str]:
        refusal = _overlap_refusal(table, columns, f"{MARK}{self.name}")
        watched = ", ".join(f'"{column}"' for column in columns)
        inserting, updating = f"{self.name}_insert", f"{self.name}_update"
        return {
            inserting: f'CREATE TRIGGER "{inserting}" BEFORE INSERT ON "{table}" BEGIN {refusal} END',
            updating: f'CREATE TRIGGER "{updating}" BEFORE UPDATE OF {watched} ON "{table}" BEGIN {refusal} END',
        }

    def in_the_way(self, row: Model) -> QuerySet[Model]:
        """The stored rows that the row would overlap."""
        starts, ends = getattr(row, self.starts), getattr(row, self.ends)
        others = type(row)._base_manager.exclude(pk=row.pk).filter(**{self.by: getattr(row, self.by)})
        not_over = Q(**{f"{self.ends}__isnull": True}) | Q(**{f"{self.ends}__gt": starts})
        not_empty = Q(**{f"{self.ends}__isnull": True}) | Q(**{f"{self.ends}__gt": F(self.starts)})
        before_end = Q() if ends is None else Q(**{f"{self.starts}__lt": ends})
        return others.filter(not_over, not_empty, before_end).order_by(self.starts)

    def refusal(self, row: Model) -> DomainError:
        holder = self.in_the_way(row).first()
        if holder is None:
            return TryAgain()
        starts, ends = getattr(holder, self.starts), getattr(holder, self.ends)
        return Overlap(holder, starts, ends, zone=getattr(holder, "zone", "UTC"))


def _overlap_refusal(table: str, columns: tuple[str, ...], message: str) -> str:
    """Refuse NEW if a stored row with another id agrees in the first column and overlaps in time."""
    by, starts, ends = (f'"{column}"' for column in columns)
    return f"""
        SELECT RAISE(ABORT, '{message}') WHERE EXISTS (
            SELECT 1 FROM "{table}" AS other
            WHERE other.{by} = NEW.{by} AND other.id IS NOT NEW.id
              AND (NEW.{ends} IS NULL OR (NEW.{starts} < NEW.{ends} AND other.{starts} < NEW.{ends}))
              AND (other.{ends} IS NULL OR (other.{starts} < other.{ends} AND NEW.{starts} < other.{ends})));
    """
