"""Boschloo's exact test of two shares: a pair is judged by Fisher's p, its chance by the worst common share.

>>> round(boschloo(56, 70, 48, 80), 5)
0.00884
"""

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammaln

Floats = NDArray[np.float64]

_GRID = 128
_ROUNDS = 4
_TIES = 1 + 1e-10


def boschloo(k1: int, n1: int, k2: int, n2: int) -> float:
    """Two-sided p (twice the smaller side, at most 1) that one share gave k1 of n1 and k2 of n2; n1, n2 >= 1.

    Boschloo 1970, Statistica Neerlandica 24:1-35. The worst share is found on a grid that is drawn closer four times.
    Memory and time grow with n1 x n2.
    """
    below, above = _fisher_tails(n1, n2)
    few = (below <= below[k1, k2] * _TIES).sum(axis=0)
    many = (above <= above[k1, k2] * _TIES).sum(axis=0)
    return min(1.0, 2 * min(_worst_chance(few, n1, n2, 1), _worst_chance(many, n1, n2, -1)))


def _fisher_tails(n1: int, n2: int) -> tuple[Floats, Floats]:
    """Fisher's one-sided p of every table [k1, k2]: share 1 at most, and at least, as large as seen."""
    chance = np.exp(
        _log_ways(n1)[:, None] + _log_ways(n2)[None, :] - _log_ways(n1 + n2)[np.add.outer(range(n1 + 1), range(n2 + 1))]
    )
    below = np.zeros_like(chance)
    above = np.zeros_like(chance)
    first, second = np.indices(chance.shape)
    total = first + second
    by_total = np.zeros((n1 + n2 + 1, n1 + 1))
    by_total[total, first] = chance
    below[first, second] = by_total.cumsum(axis=1)[total, first]
    above[first, second] = by_total[:, ::-1].cumsum(axis=1)[:, ::-1][total, first]
    return below, above


def _worst_chance(extreme: NDArray[np.int64], n1: int, n2: int, way: int) -> float:
    """The highest chance, over all common shares, of an extreme table.

    extreme: for each k2, how many k1 are: the smallest (way 1) or the largest (way -1); Fisher's p rises with k1.
    """
    low, high = 0.0, 1.0
    worst = 0.0
    for _ in range(_ROUNDS):
        shares = np.linspace(low, high, _GRID + 1)[1:-1]
        up_to = np.zeros((len(shares), n1 + 2))
        up_to[:, 1:] = _binomials(n1, shares)[:, ::way].cumsum(axis=1)
        chances = (up_to[:, extreme] * _binomials(n2, shares)).sum(axis=1)
        top = int(np.argmax(chances))
        worst = max(worst, float(chances[top]))
        step = (high - low) / _GRID
        low, high = max(low, shares[top] - step), min(high, shares[top] + step)
    return worst


def _binomials(n: int, shares: Floats) -> Floats:
    """[share, k]: the chance of k of n at each share, 0 < share < 1."""
    ks = np.arange(n + 1)
    logs = _log_ways(n) + np.log(shares)[:, None] * ks + np.log1p(-shares)[:, None] * (n - ks)
    return np.asarray(np.exp(logs), dtype=np.float64)


def _log_ways(n: int) -> Floats:
    ks = np.arange(n + 1)
    return np.asarray(gammaln(n + 1) - gammaln(ks + 1) - gammaln(n - ks + 1), dtype=np.float64)
