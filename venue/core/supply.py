"""What hangs on a circuit or on a truss against the limit that is recorded for it.

A recorded limit is exceeded, not exceeded, or nothing can be said. Never "ok": what is plugged or hung, and
whether the record is right, an electrician or a rigger decides.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
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
class Weight:
    """So many things alike that hang on something or stand on it [kg each]; None: not recorded."""

    name: str
    kg: float | None
    count: int = 1


@dataclass(frozen=True)
class Sum:
    """What comes together, in amperes or kilograms, of what is recorded, and the verdict.

    `is_at_least`: something is not recorded, so that the true value is higher; `missing` names it. A sum that is
    over the limit already is over it whatever is missing.
    """

    total: float
    limit: float | None
    verdict: Verdict
    is_at_least: bool
    missing: tuple[str, ...]


def amperes(watts: float, volts: float, power_factor: float = 1.0) -> float:
    """The current of one phase: P = U * I * power factor."""
    return watts / (volts * power_factor)


def circuit_sum(loads: Sequence[Load], volts: float | None, rating_a: float | None) -> Sum:
    """The amperes on a single-phase circuit of the voltage against its rating.

    A load without a power factor counts with 1, which is the least that it draws: the sum is then a lower bound.
    """
    if not volts:
        return Sum(0.0, rating_a, "not-recorded", bool(loads), tuple(load.name for load in loads))
    known = [
        amperes(load.watts, volts, load.power_factor or 1.0) * load.count for load in loads if load.watts is not None
    ]
    missing = tuple(load.name for load in loads if load.watts is None)
    is_least = bool(missing) or any(load.power_factor is None for load in loads)
    return _judged(known, rating_a, is_least, missing)


def weight_sum(weights: Sequence[Weight], limit_kg: float | None) -> Sum:
    """The kilograms on a truss, platform or floor against its limit. Where they hang is not looked at."""
    known = [weight.kg * weight.count for weight in weights if weight.kg is not None]
    missing = tuple(weight.name for weight in weights if weight.kg is None)
    return _judged(known, limit_kg, bool(missing), missing)


def _judged(parts: Iterable[float], limit: float | None, is_least: bool, missing: tuple[str, ...]) -> Sum:
    total = sum(parts)
    if limit is None:
        verdict: Verdict = "not-recorded"
    elif total > limit * (1 + _SLACK):
        verdict = "exceeded"
    else:
        verdict = "not-recorded" if missing else "not-exceeded"
    return Sum(total, limit, verdict, is_least, missing)
