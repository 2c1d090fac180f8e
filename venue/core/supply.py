"""What hangs on a circuit or on a truss against the limit that is recorded for it.

A recorded limit is exceeded, not exceeded, or nothing can be said. Never "ok": what is plugged or hung, and
whether the record is right, an electrician or a rigger decides.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

Verdict = Literal["exceeded", "not-exceeded", "not-recorded"]
_SLACK = 1e-9  # three times a tenth is not more than three tenths


@dataclass(frozen=True)
class Load:
    """So many units alike on a circuit. `watts` of one, taken in from the supply; None: not recorded.

    `power_factor` above 0, at most 1; None: not recorded. The watts of a lamp are less than its supply takes in.
    """

    name: str
    watts: float | None
    count: int = 1
    power_factor: float | None = None


@dataclass(frozen=True)
class Current:
    """What draws on a circuit besides [A, all together]; None: not recorded."""

    name: str
    amperes: float | None


@dataclass(frozen=True)
class Weight:
    """So many things alike that hang on something or stand on it [kg each]; None: not recorded."""

    name: str
    kg: float | None
    count: int = 1


@dataclass(frozen=True)
class Sum:
    """What comes together, in amperes or kilograms, of what is recorded, and the verdict.

    `is_at_least`: the true value may be higher. `missing` names what is not in the sum since it is not recorded,
    `least` what is in it with the least that it can be. A sum that is over the limit already is over it whatever is
    missing; one that may be higher is never told to be within it.
    """

    total: float
    limit: float | None
    verdict: Verdict
    is_at_least: bool
    missing: tuple[str, ...]
    least: tuple[str, ...] = ()

    @property
    def over(self) -> float | None:
        """By how much the limit is exceeded; None where it is not, or nothing can be said."""
        return self.total - self.limit if self.verdict == "exceeded" and self.limit is not None else None


def amperes(watts: float, volts: float, power_factor: float = 1.0) -> float:
    """The current of one phase: P = U * I * power factor."""
    return watts / (volts * power_factor)


def circuit_sum(
    loads: Sequence[Load], volts: float | None, rating_a: float | None, others: Sequence[Current] = ()
) -> Sum:
    """The amperes on a single-phase circuit of the voltage against its rating.

    A load without a power factor counts with 1, which is the least that it draws: the sum is then a lower bound.
    Without the voltage only the `others` are in the sum.
    """
    known = [load for load in loads if load.watts is not None] if volts else []
    drawn = [amperes(load.watts or 0.0, volts or 0.0, load.power_factor or 1.0) * load.count for load in known]
    missing = [load.name for load in loads if load not in known]
    missing += [other.name for other in others if other.amperes is None]
    least = tuple(load.name for load in known if load.power_factor is None)
    found = _judged([*drawn, *(other.amperes or 0.0 for other in others)], rating_a, tuple(missing), least)
    return found if volts or found.verdict == "exceeded" else replace(found, verdict="not-recorded")


def weight_sum(weights: Sequence[Weight], limit_kg: float | None) -> Sum:
    """The kilograms on a truss, platform or floor against its limit. Where they hang is not looked at."""
    known = [weight.kg * weight.count for weight in weights if weight.kg is not None]
    missing = tuple(weight.name for weight in weights if weight.kg is None)
    return _judged(known, limit_kg, missing)


def _judged(parts: Iterable[float], limit: float | None, missing: tuple[str, ...], least: tuple[str, ...] = ()) -> Sum:
    total, is_at_least = sum(parts), bool(missing or least)
    if limit is None:
        verdict: Verdict = "not-recorded"
    elif total > limit * (1 + _SLACK):
        verdict = "exceeded"
    else:
        verdict = "not-recorded" if is_at_least else "not-exceeded"
    return Sum(total, limit, verdict, is_at_least, missing, least)
