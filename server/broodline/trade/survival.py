"""How many of a group are alive by day: the product-limit curve with its interval, its median, and two groups compared.

Kaplan and Meier 1958, J. Amer. Statist. Assoc. 53:457-481. A chick that was sold, given or culled is seen no more from
that day on: it counts as alive until then (censored), never as dead. Days are whole days since hatching.

    >>> curve = survival([Fate(3, 1, died=True), Fate(5, 2, died=False), Fate(9, 1, died=True)])
    >>> [(step.day, step.at_risk, step.died, round(step.rate, 2)) for step in curve]
    [(3, 4, 1, 0.75), (9, 1, 1, 0.0)]
    >>> median_day(curve)
    9
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log, sqrt

from scipy.stats import CensoredData, logrank

from broodline.trade.proportions import Z_95

_SURE = 1e-9
"""A product of shares misses one half by as much as a computer's fractions do."""


@dataclass(frozen=True, slots=True)
class Fate:
    """n of the group that died on a day, or were seen alive on it for the last time."""

    day: int
    n: int
    died: bool


@dataclass(frozen=True, slots=True)
class Step:
    """A day on which some died: how many there were that morning, how many died, and the share alive after it.

    low, high: 95 % interval on the log-log scale; None where nobody is alive.
    """

    day: int
    at_risk: int
    died: int
    rate: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Apart:
    """Log-rank test of two groups: chi-square on one degree of freedom, and its p.

    first_lost_more: more of the first died, day by day, than of as many of the second.
    """

    chi_square: float
    p: float
    first_lost_more: bool


def survival(fates: Sequence[Fate]) -> list[Step]:
    """The curve, a step for each day with a death, in order of days; nothing without a death."""
    steps = []
    rate, variance = 1.0, 0.0
    for day in sorted({one.day for one in fates if one.died and one.n > 0}):
        at_risk = sum(one.n for one in fates if one.day >= day)
        died = sum(one.n for one in fates if one.died and one.day == day)
        rate *= 1 - died / at_risk
        if died < at_risk:
            variance += died / (at_risk * (at_risk - died))  # Greenwood's, of the logarithm of the rate
            spread = Z_95 * sqrt(variance) / log(rate)
            steps.append(Step(day, at_risk, died, rate, rate ** exp(-spread), rate ** exp(spread)))
        else:
            steps.append(Step(day, at_risk, died, 0.0, None, None))
    return steps


def median_day(curve: Sequence[Step]) -> int | None:
    """The first day on which no more than half are alive; None while more are."""
    return next((step.day for step in curve if step.rate <= 0.5 + _SURE), None)


def log_rank(one: Sequence[Fate], other: Sequence[Fate]) -> Apart | None:
    """Whether two groups died at the same pace. None where one of them is empty or nobody died.

    scipy's `logrank` gives z, which is squared here; above zero the first lost more than was to be expected.

    >>> log_rank([Fate(2, 5, died=True)], [Fate(9, 5, died=False)]).chi_square > 3.84
    True
    """
    first, second = _censored(one), _censored(other)
    if first is None or second is None or not any(fate.died and fate.n > 0 for fate in (*one, *other)):
        return None
    found = logrank(first, second)
    return Apart(float(found.statistic) ** 2, float(found.pvalue), bool(found.statistic > 0))


def _censored(fates: Sequence[Fate]) -> CensoredData | None:
    days = [one.day for one in fates for _ in range(one.n)]
    return CensoredData.right_censored(days, [not one.died for one in fates for _ in range(one.n)]) if days else None
