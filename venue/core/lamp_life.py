"""How long lamps of a kind last, for counting spares and for nothing else.

A lamp goes out at its stop, whatever a distribution says about those that are left. Rated life is a median: by
definition half of the lamps are dead at it. Hours a lamp may still run are no business of this module.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, fsum, gamma, log
from typing import Literal

_STEPS = 200
_STEEPEST = 1000.0
"""A steeper shape says that all lamps die at one hour, which no data can tell."""

Problem = Literal["too-few", "not-positive", "all-alike"]


class LifeProblem(ValueError):
    """These lives tell no distribution; `code` says why."""

    def __init__(self, code: Problem) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True)
class Weibull:
    """Lives whose survival is exp(-(h / scale) ** shape); scale in hours."""

    shape: float
    scale: float

    def survival(self, hours: float) -> float:
        """The share of lamps that live longer than so many hours."""
        return exp(-((max(0.0, hours) / self.scale) ** self.shape))

    def quantile(self, share: float) -> float:
        """The hours at which so large a share has died; `share` lies between 0 and 1."""
        return float(self.scale * (-log(1.0 - share)) ** (1.0 / self.shape))

    @property
    def mean(self) -> float:
        return self.scale * gamma(1.0 + 1.0 / self.shape)

    @property
    def median(self) -> float:
        return self.quantile(0.5)

    def dying_within(self, hours: float, more: float) -> float:
        """The share of lamps alive at some hours that die within some more: spares to expect."""
        alive = self.survival(hours)
        return 1.0 if alive == 0.0 else 1.0 - self.survival(hours + max(0.0, more)) / alive


def fit_weibull(failed_h: Sequence[float], unfailed_h: Sequence[float] = ()) -> Weibull:
    """The most likely Weibull for lamps that died at some hours and others that were alive at theirs.

    Lamps taken out at their stop, or still in, are alive (censored on the right). The shape k solves
    sum(x^k ln x) / sum(x^k) - 1/k = mean(ln x of the failed), the sums over all, and the scale is
    (sum(x^k) / failed) ^ (1/k): NIST/SEMATECH e-Handbook, 8.4.1.3. The left side rises with k, so that halving
    finds it. Raises LifeProblem for fewer than two failures, hours that are not positive, or lives all alike.
    """
    everything = [*failed_h, *unfailed_h]
    if len(failed_h) < 2:
        raise LifeProblem("too-few")
    if min(everything) <= 0:
        raise LifeProblem("not-positive")
    longest = max(everything)
    logs = [log(hours / longest) for hours in everything]
    wanted = fsum(logs[: len(failed_h)]) / len(failed_h)
    if _excess(_STEEPEST, logs, wanted) <= 0:
        raise LifeProblem("all-alike")
    shape = _root(logs, wanted)
    total = fsum(exp(shape * each) for each in logs)
    return Weibull(shape, longest * (total / len(failed_h)) ** (1.0 / shape))


def _excess(shape: float, logs: Sequence[float], wanted: float) -> float:
    """How far the likelihood's slope is from 0: below 0 for a shape too small, above for one too large."""
    weights = [exp(shape * each) for each in logs]
    return fsum(weight * each for weight, each in zip(weights, logs, strict=True)) / fsum(weights) - 1 / shape - wanted


def _root(logs: Sequence[float], wanted: float) -> float:
    low, high = 1e-6, _STEEPEST
    for _step in range(_STEPS):
        middle = (low + high) / 2
        if not low < middle < high:
            break
        low, high = (middle, high) if _excess(middle, logs, wanted) < 0 else (low, middle)
    return (low + high) / 2
