"""Two other ways to draw families towards each other, to hold the likelihood's answer against: by moments, and by
James and Stein's rule. Both are plain sums.
"""

from collections.abc import Sequence
from statistics import fmean, pvariance


def by_moments(counts: Sequence[tuple[int, int]]) -> tuple[float, float]:
    """alpha, beta with the mean and spread of the raw shares (Gelman, Bayesian Data Analysis, ch. 5)."""
    shares = [k / n for k, n in counts]
    mean, spread = fmean(shares), pvariance(shares)
    weight = mean * (1 - mean) / spread - 1
    return mean * weight, (1 - mean) * weight


def james_stein(shares: Sequence[float], n: int) -> tuple[float, list[float]]:
    """The factor 1 - (k - 3) s2 / sum of squares, and each share drawn to the mean by it; each of n trials.

    Efron and Morris 1977, Sci. Amer. 236:119-127.
    """
    mean = fmean(shares)
    chance = mean * (1 - mean) / n
    factor = 1 - (len(shares) - 3) * chance / sum((share - mean) ** 2 for share in shares)
    return factor, [mean + factor * (share - mean) for share in shares]
