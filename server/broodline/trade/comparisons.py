"""Do these eggs separate the families? Tests on k of n, and how many eggs would settle it.

>>> families = [(18, 24), (11, 22), (9, 12), (25, 40), (2, 6)]
>>> round(overall_test(families), 4)
0.202
>>> eggs_needed(0.80, 0.65)
150
"""

from collections.abc import Sequence
from functools import lru_cache
from math import asin, prod, sqrt

import numpy as np
from numpy.typing import NDArray
from scipy.stats import binom, chi2, fisher_exact

from broodline.trade.boschloo import boschloo, fisher_tails

Counts = Sequence[tuple[int, int]]

MOST_TABLES = 200_000
DRAWS = 50_000
DRAWN_AT_ONCE = 2_500
LEAST_EXPECTED, FAR = 5, 2.5
SEED = 19_970_401
MOST_FOR_BOSCHLOO = 250_000
MOST_FOR_POWER = 500
AT_MOST, POWER = 0.05, 0.80
Z_TWO_SIDED_5_PCT = 1.959963984540054
Z_POWER_80_PCT = 0.8416212335729143


def overall_test(counts: Counts) -> float | None:
    """p of the chi-square statistic with the totals held: could one common share have given these counts?

    counts: (k, n) of each family; those with n = 0 are left out. Exact, by listing every table with the same
    totals, up to 200,000 tables; beyond that from 50,000 tables drawn with a fixed seed, so the same counts
    always give the same p. None with fewer than two families.
    """
    return _overall_test(_held(counts))


def is_uneven(counts: Counts) -> bool:
    """Whether `overall_test` gives these counts a p of at most 5 %.

    Where it would draw, the chi-square distribution settles what is far from that, if no family is expected to have
    fewer than 5 of either kind (Cochran 1954, Biometrics 10:417-451, from memory); the rest is drawn, and no more of
    it than settles it.
    """
    return _is_uneven(_held(counts))


@lru_cache(maxsize=256)
def _is_uneven(held: tuple[tuple[int, int], ...]) -> bool:
    total, eggs = sum(k for k, _ in held), sum(n for _, n in held)
    if len(held) < 2 or total in (0, eggs):
        return False
    if _is_listed(held, total):
        return _p_by_listing(held, total, eggs) <= AT_MOST
    share = total / eggs
    if min(n for _, n in held) * min(share, 1 - share) >= LEAST_EXPECTED:
        square = sum((k - n * share) ** 2 / n for k, n in held) / (share * (1 - share))
        p = float(chi2.sf(square, len(held) - 1))
        if not AT_MOST / FAR < p < AT_MOST * FAR:
            return p <= AT_MOST
    most = int(AT_MOST * (1 + DRAWS)) - 1
    return _hits(held, total, most) <= most


def _held(counts: Counts) -> tuple[tuple[int, int], ...]:
    return tuple(sorted(((k, n) for k, n in counts if n > 0), key=lambda one: (one[1], one[0])))


def _is_listed(held: tuple[tuple[int, int], ...], total: int) -> bool:
    return prod(min(n, total) + 1 for _, n in held[:-1]) <= MOST_TABLES


@lru_cache(maxsize=256)
def _overall_test(held: tuple[tuple[int, int], ...]) -> float | None:
    if len(held) < 2:
        return None
    total, eggs = sum(k for k, _ in held), sum(n for _, n in held)
    if total in (0, eggs):
        return 1.0
    if _is_listed(held, total):
        return _p_by_listing(held, total, eggs)
    return (1 + _hits(held, total, DRAWS)) / (1 + DRAWS)


def _statistic(ks: NDArray[np.int64], ns: NDArray[np.int64]) -> NDArray[np.float64]:
    """The part of chi-square that varies while the totals are held: sum of k squared over n."""
    return np.asarray((ks * ks / ns).sum(axis=-1), dtype=np.float64)


def _p_by_listing(held: tuple[tuple[int, int], ...], total: int, eggs: int) -> float:
    """held: by n. What the last and largest family has is what the totals leave to it, so it is never listed."""
    share = total / eggs
    sums = np.zeros(1, dtype=np.int64)
    statistics = np.zeros(1)
    weights = np.ones(1)
    left = eggs
    for _, n in held[:-1]:
        left -= n
        ks = np.arange(min(n, total) + 1)
        sums = (sums[:, None] + ks).ravel()
        fits = (sums <= total) & (total - sums <= left)
        sums = sums[fits]
        statistics = (statistics[:, None] + ks * ks / n).ravel()[fits]
        weights = (weights[:, None] * binom.pmf(ks, n, share)).ravel()[fits]
    last, rest = held[-1][1], total - sums
    statistics += rest * rest / last
    weights *= binom.pmf(rest, last, share)
    seen = sum(k * k / n for k, n in held)
    return float(min(1.0, weights[statistics >= seen * (1 - 1e-9)].sum() / weights.sum()))


def _hits(held: tuple[tuple[int, int], ...], total: int, most: int) -> int:
    """How many of the drawn tables lie as far out as what was seen; no more is drawn once it is over `most`."""
    ns = np.array([n for _, n in held], dtype=np.int64)
    seen = _statistic(np.array([k for k, _ in held], dtype=np.int64), ns)
    chance = np.random.default_rng(SEED)
    hits = 0
    for _ in range(DRAWS // DRAWN_AT_ONCE):
        drawn = chance.multivariate_hypergeometric(ns, total, size=DRAWN_AT_ONCE, method="marginals")
        hits += int(np.count_nonzero(_statistic(drawn, ns) >= seen * (1 - 1e-9)))
        if hits > most:
            break
    return hits


@lru_cache(maxsize=4096)
def pair_test(k1: int, n1: int, k2: int, n2: int) -> float:
    """Two-sided p that one share gave both k1 of n1 and k2 of n2 (n1, n2 >= 1).

    Boschloo's exact test; where n1 x n2 is over 250,000 Fisher's, which is slower to call a difference.
    """
    if n1 * n2 <= MOST_FOR_BOSCHLOO:
        return boschloo(k1, n1, k2, n2)
    return float(min(1.0, fisher_exact([[k1, k2], [n1 - k1, n2 - k2]]).pvalue))


def holm(ps: Sequence[float]) -> list[float]:
    """Holm's adjustment for several tests, in the order given.

    >>> [round(p, 4) for p in holm([0.01, 0.04, 0.03, 0.005])]
    [0.03, 0.06, 0.06, 0.02]
    """
    adjusted = [0.0] * len(ps)
    so_far = 0.0
    for rank, place in enumerate(sorted(range(len(ps)), key=ps.__getitem__)):
        so_far = max(so_far, min(1.0, (len(ps) - rank) * ps[place]))
        adjusted[place] = so_far
    return adjusted


@lru_cache(maxsize=1024)
def eggs_needed(share1: float, share2: float) -> int | None:
    """Eggs of each of two families by which `overall_test` would find such a difference: at 5 %, with power 80 %.

    Exact up to 500 eggs of each: one fewer has less power. Beyond that, and over 500, the normal approximation on the
    arcsine scale (Cohen 1988) with what held totals cost, two eggs over the difference (Casagrande, Pike and Smith
    1978, Biometrics 34:483-486, from memory). None where the shares are equal.
    """
    apart = 2 * abs(asin(sqrt(share1)) - asin(sqrt(share2)))
    if apart < 1e-6:
        return None
    about = 2 * ((Z_TWO_SIDED_5_PCT + Z_POWER_80_PCT) / apart) ** 2
    few, enough = 0, max(1, min(MOST_FOR_POWER, round(about)))
    while _power(share1, share2, enough) < POWER:
        if enough == MOST_FOR_POWER:
            return max(MOST_FOR_POWER + 1, round(about + 2 / abs(share1 - share2)))
        few, enough = enough, min(MOST_FOR_POWER, enough + enough // 4 + 1)
    while enough - few > 1:
        between = (few + enough) // 2
        few, enough = (few, between) if _power(share1, share2, between) >= POWER else (between, enough)
    return enough


def _power(share1: float, share2: float, n: int) -> float:
    """The chance that n eggs of each of two families are found to differ. With as many of each, the tables at least as
    far from even as one seen are the two tails of Fisher's test."""
    below, above = fisher_tails(n, n)
    differs = 2 * np.minimum(below, above) <= AT_MOST
    ks = np.arange(n + 1)
    return float(binom.pmf(ks, n, share1) @ differs @ binom.pmf(ks, n, share2))
