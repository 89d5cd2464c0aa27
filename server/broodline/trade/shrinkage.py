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
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize_scalar
from scipy.special import betaln, xlogy
from scipy.stats import beta as beta_distribution

from broodline.trade.proportions import wilson

Counts = Sequence[tuple[int, int]]

_SPREADS = np.geomspace(1e-6, 1e3, 55)
_MOST_STEPS = 2_000
_NO_GAIN, _NO_GAIN_BY_GAMMA = 1e-9, 1e-5
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
    if best <= flat + (_NO_GAIN if max(n for _, n in counts) <= _MOST_STEPS else _NO_GAIN_BY_GAMMA):
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
    return list(_chances(tuple(counts), alpha, beta))


@lru_cache(maxsize=256)
def _chances(counts: tuple[tuple[int, int], ...], alpha: float, beta: float) -> tuple[float, ...]:
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
    return tuple(chance / whole for chance in chances)


def _shrunk(k: int, n: int, alpha: float, beta: float) -> Shrunk:
    rate = (alpha + k) / (alpha + beta + n)
    if alpha + beta < 1:
        return Shrunk(rate, *wilson(k, n))
    low, high = beta_distribution.ppf([0.025, 0.975], alpha + k, beta + n - k)
    return Shrunk(rate, float(low), float(high))


def _log_likelihood(counts: Counts) -> Callable[[float, float], float]:
    """Log likelihood in (mean, spread), spread = 1/(alpha + beta) = rho/(1 - rho); steady down to spread 0.

    Products of rising factors instead of beta functions: the i-th egg of a kind adds log(mean + i x spread). Above
    2,000 eggs a family by gamma functions, which lose the last digits there.
    """
    most = max(n for _, n in counts)
    hatched = np.array([k for k, _ in counts], dtype=np.float64)
    eggs = np.array([n for _, n in counts], dtype=np.float64)
    if most > _MOST_STEPS:

        def by_gamma(mean: float, spread: float) -> float:
            if spread == 0:
                return float((xlogy(hatched, mean) + xlogy(eggs - hatched, 1 - mean)).sum())
            a, b = mean / spread, (1 - mean) / spread
            return float((betaln(a + hatched, b + eggs - hatched) - betaln(a, b)).sum())

        return by_gamma
    steps = np.arange(most)
    good, lost, both = (_how_many_exceed(sizes, most) for sizes in (hatched, eggs - hatched, eggs))

    def by_steps(mean: float, spread: float) -> float:
        rise = steps * spread
        return float((good * np.log(mean + rise) + lost * np.log(1 - mean + rise) - both * np.log1p(rise)).sum())

    return by_steps


def _how_many_exceed(sizes: NDArray[np.float64], most: int) -> NDArray[np.float64]:
    """For i = 0 ... most - 1: how many of the sizes are over i."""
    return np.asarray((sizes[:, None] > np.arange(most)).sum(axis=0), dtype=np.float64)


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
