"""The questions of a relamp, asked wherever the lamp is under pressure."""

from dataclasses import dataclass

from venue.core.sources import source_of, traits
from venue.models import LogEntry
from venue.models.upkeep import LogKind


@dataclass(frozen=True)
class RelampAnswers:
    """Was the supply isolated, the lamp house cool, the person protected, the lamp aligned? None: not answered."""

    isolated: bool | None = None
    cooled: bool | None = None
    protected: bool | None = None
    aligned: bool | None = None

    @property
    def closes(self) -> bool:
        """Whether nothing is left to answer or to do. An honest no to the first three is kept and closes too."""
        is_answered = None not in (self.isolated, self.cooled, self.protected)
        return is_answered and self.aligned is True

    def columns(self) -> dict[str, bool | None]:
        """The answers by the columns of a log entry."""
        return {
            "is_isolated": self.isolated,
            "is_cooled": self.cooled,
            "is_protected": self.protected,
            "is_aligned": self.aligned,
        }


def answers_of(entry: LogEntry) -> RelampAnswers:
    """What the entry says so far."""
    return RelampAnswers(entry.is_isolated, entry.is_cooled, entry.is_protected, entry.is_aligned)


def stays_open(entry: LogEntry) -> bool:
    """Whether the entry is a relamp under pressure whose questions are not all answered.

    What lamp it was says the fitting, else the unit; where neither is known, the questions are asked.
    """
    if entry.kind != LogKind.RELAMP:
        return False
    return is_under_pressure(entry) and not answers_of(entry).closes


def is_under_pressure(entry: LogEntry) -> bool:
    """Whether the lamp of the entry can burst."""
    kind = entry.fitting.lamp.kind.source if entry.fitting is not None else ""
    source = kind or (entry.unit.source if entry.unit is not None else "")
    return traits(source_of(source)).is_under_pressure
