"""Families drawn towards each other as far as their eggs allow: beta-binomial, marginal maximum likelihood.

Each family's share is taken as a draw from Beta(alpha, beta); alpha and beta come from all families together.
Where the families differ no more than chance alone would make them, the likelihood is highest at no spread at all
(intra-class correlation 0): alpha and beta are then None and every family is shown at the pooled share.

    >>> found = shrink([(22, 24), (9, 22), (30, 36), (14, 30), (5, 6), (17, 24)])
    >>> [round(one.rate, 4) for one in found.families]
    [0.8648, 0.4757, 0.8095, 0.508, 0.7542, 0.7033]
    >>> shrink([(18, 24), (11, 22), (9, 12), (25, 40), (2, 6)]).alpha is None
    True
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize_scalar
from scipy.stats import beta as beta_distribution

from broodline.trade.proportions import wilson

Counts = Sequence[tuple[int, int]]

_SPREADS = np.geomspace(1e-6, 1e3, 55)
_NO_GAIN = 1e-9
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(400)


@dataclass(frozen=True, slots=True)
class Shrunk:
    """A family's share after shrinking, with its 95 % interval."""

    rate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Shrinkage:
    """alpha, beta: the families' distribution, None where they show no spread. pooled: share of all eggs together.

    log_likelihood: of the counts, without binomial coefficients. families: in the order given.
    """

    alpha: float | None
    beta: float | None
    pooled: float
    log_likelihood: float
    families: tuple[Shrunk, ...]


def shrink(counts: Counts) -> Shrinkage | None:
    """Shrink (k, n) of each family, all n >= 1. None for no family at all.

    The interval is the middle 95 % of Beta(alpha + k, beta + n - k). Where the families' distribution weighs less
    than one egg (alpha + beta < 1) it says nothing, and the family's own Wilson interval stands; where there is no
    spread, the Wilson interval of all eggs together.
    """
    if not counts:
        return None
    total, eggs = sum(k for k, _ in counts), sum(n for _, n in counts)
    pooled = total / eggs
    likelihood = _log_likelihood(counts)
    flat = 0.0 if total in (0, eggs) else likelihood(pooled, 0.0)
    mean, spread, best = pooled, 0.0, flat
    if total not in (0, eggs) and len(counts) > 1:
        mean, spread, best = _climb(likelihood)
    if best <= flat + _NO_GAIN:
        low, high = wilson(total, eggs)
        return Shrinkage(None, None, pooled, flat, tuple(Shrunk(pooled, low, high) for _ in counts))
    alpha, beta = mean / spread, (1 - mean) / spread
    return Shrinkage(alpha, beta, pooled, best, tuple(_shrunk(k, n, alpha, beta) for k, n in counts))


def best_probability(counts: Counts, alpha: float | None, beta: float | None) -> list[float]:
    """The chance of each family that its share is the highest, given Beta(alpha, beta) for all.

    By quadrature over each family's own quantiles. Where alpha and beta are None (no spread) all chances are equal.

    >>> round(best_probability([(18, 24), (11, 22)], 1, 1)[0], 5)
    0.95735
    """
    if alpha is None or beta is None:
        return [1 / len(counts)] * len(counts)
    after = [(alpha + k, beta + n - k) for k, n in counts]
    shares = (_NODES + 1) / 2
    chances = []
    for place, own in enumerate(after):
        at = beta_distribution.ppf(shares, *own)
        below = np.ones_like(at)
        for other, theirs in enumerate(after):
            if other != place:
                below = below * beta_distribution.cdf(at, *theirs)
        chances.append(float((below * _WEIGHTS).sum() / 2))
    whole = sum(chances)
    return [chance / whole for chance in chances]


def _shrunk(k: int, n: int, alpha: float, beta: float) -> Shrunk:
    rate = (alpha + k) / (alpha + beta + n)
    if alpha + beta < 1:
        return Shrunk(rate, *wilson(k, n))
    low, high = beta_distribution.ppf([0.025, 0.975], alpha + k, beta + n - k)
    return Shrunk(rate, float(low), float(high))


def _log_likelihood(counts: Counts) -> Callable[[float, float], float]:
    """Log likelihood in (mean, spread), spread = 1/(alpha + beta) = rho/(1 - rho); steady down to spread 0.

    Products of rising factors instead of beta functions: the i-th egg of a kind adds log(mean + i x spread).
    """
    most = max(n for _, n in counts)
    steps = np.arange(most)
    hatched = _how_many_exceed([k for k, _ in counts], most)
    failed = _how_many_exceed([n - k for k, n in counts], most)
    all_eggs = _how_many_exceed([n for _, n in counts], most)

    def likelihood(mean: float, spread: float) -> float:
        rise = steps * spread
        return float(hatched @ np.log(mean + rise) + failed @ np.log(1 - mean + rise) - all_eggs @ np.log1p(rise))

    return likelihood


def _how_many_exceed(sizes: Sequence[int], most: int) -> NDArray[np.float64]:
    """For i = 0 ... most - 1: how many of the sizes are over i."""
    return np.asarray((np.asarray(sizes)[:, None] > np.arange(most)).sum(axis=0), dtype=np.float64)


def _climb(likelihood: Callable[[float, float], float]) -> tuple[float, float, float]:
    """The highest point over mean and spread: a grid of spreads, then the peak between its neighbours."""

    def best_mean(spread: float) -> tuple[float, float]:
        found = minimize_scalar(
            lambda mean: -likelihood(mean, spread), bounds=(1e-9, 1 - 1e-9), method="bounded", options={"xatol": 1e-11}
        )
        return float(found.x), float(-found.fun)

    heights = [best_mean(float(spread))[1] for spread in _SPREADS]
    top = int(np.argmax(heights))
    lower, upper = np.log(_SPREADS[max(top - 1, 0)]), np.log(_SPREADS[min(top + 1, len(_SPREADS) - 1)])
    peak = minimize_scalar(
        lambda log_spread: -best_mean(float(np.exp(log_spread)))[1],
        bounds=(lower, upper),
        method="bounded",
        options={"xatol": 1e-9},
    )
    spread = float(np.exp(peak.x))
    return best_mean(spread)[0], spread, float(-peak.fun)
