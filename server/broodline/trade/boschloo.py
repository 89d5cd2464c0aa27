"""Boschloo's exact test of two shares: a pair is judged by Fisher's p, its chance by the worst common share.

>>> round(boschloo(56, 70, 48, 80), 5)
0.00884
"""

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammaln

Floats = NDArray[np.float64]
Counts = NDArray[np.int64]

_GRID = 96
_ROUNDS = 3
_TIES = 1 + 1e-10


def boschloo(k1: int, n1: int, k2: int, n2: int) -> float:
    """Two-sided p (twice the smaller side, at most 1) that one share gave k1 of n1 and k2 of n2; n1, n2 >= 1.

    Boschloo 1970, Statistica Neerlandica 24:1-35. The worst share is found on a grid that is drawn closer twice.
    Memory and time grow with n1 x n2 and with the square of the smaller group.
    """
    if n1 > n2:
        k1, n1, k2, n2 = k2, n2, k1, n1
    below, above = fisher_tails(n1, n2)
    few = (below <= below[k1, k2] * _TIES).sum(axis=0)
    many = (above <= above[k1, k2] * _TIES).sum(axis=0)
    return min(1.0, 2 * min(_worst_chances(few, many, n1, n2)))


def fisher_tails(n1: int, n2: int) -> tuple[Floats, Floats]:
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


def _worst_chances(few: Counts, many: Counts, n1: int, n2: int) -> tuple[float, float]:
    """The highest chance, over all common shares, of a table with few in the first place, and of one with many.

    few: for each k2, how many k1 are extreme, from the smallest; many: from the largest. Fisher's p rises with k1.
    """
    shares = np.linspace(0, 1, _GRID + 1)[1:-1]
    first, second = _binomials(n1, shares), _binomials(n2, shares)
    return (
        _closer(few, n1, n2, 1, shares, _chances(few, first, second, 1)),
        _closer(many, n1, n2, -1, shares, _chances(many, first, second, -1)),
    )


def _closer(extreme: Counts, n1: int, n2: int, way: int, shares: Floats, chances: Floats) -> float:
    """The top of the chances, with a finer grid about it drawn in each further round."""
    worst = float(chances.max())
    for _ in range(_ROUNDS - 1):
        top, step = shares[int(np.argmax(chances))], shares[1] - shares[0]
        shares = np.linspace(max(0, top - step), min(1, top + step), _GRID + 1)[1:-1]
        chances = _chances(extreme, _binomials(n1, shares), _binomials(n2, shares), way)
        worst = max(worst, float(chances.max()))
    return worst


def _chances(extreme: Counts, first: Floats, second: Floats, way: int) -> Floats:
    """At each share: the chance of an extreme table. way: 1 where the smallest k1 are extreme, -1 the largest."""
    up_to = np.zeros((first.shape[0], first.shape[1] + 1))
    np.cumsum(first[:, ::way], axis=1, out=up_to[:, 1:])
    return np.asarray(np.einsum("ij,ij->i", up_to[:, extreme], second), dtype=np.float64)


def _binomials(n: int, shares: Floats) -> Floats:
    """[share, k]: the chance of k of n at each share, 0 < share < 1."""
    ks = np.arange(n + 1)
    logs = _log_ways(n) + np.log(shares)[:, None] * ks + np.log1p(-shares)[:, None] * (n - ks)
    return np.asarray(np.exp(logs), dtype=np.float64)


def _log_ways(n: int) -> Floats:
    ks = np.arange(n + 1)
    return np.asarray(gammaln(n + 1) - gammaln(ks + 1) - gammaln(n - ks + 1), dtype=np.float64)
