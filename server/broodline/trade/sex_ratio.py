"""Whether as many cockerels as pullets hatched, and whether families differ in that.

>>> round(even_p(432, 870), 4), round(even_p(9, 10), 5)
(0.8654, 0.02148)
"""

from collections.abc import Sequence
from dataclasses import dataclass

from scipy.stats import binomtest, chi2_contingency


@dataclass(frozen=True, slots=True)
class Heterogeneity:
    """Chi-square of groups against their common ratio, its degrees of freedom, and p by the chi-square curve."""

    chi_square: float
    degrees: int
    p: float


def even_p(males: int, n: int) -> float | None:
    """Exact two-sided p that half of n chicks are males, 0 <= males <= n. None for no chick.

    Half and half is what to expect. Under some hundred chicks nothing can be read into a ratio: 55 to 45 shows in
    about 783.
    """
    return float(binomtest(males, n, 0.5).pvalue) if n > 0 else None


def heterogeneity(groups: Sequence[tuple[int, int]]) -> Heterogeneity | None:
    """Whether (males, females) of several groups come from one ratio. None where the groups cannot tell.

    That is so with fewer than two groups that hold a chick, or where all chicks are of one sex.

    >>> heterogeneity([(5, 5), (0, 0)]) is None
    True
    """
    held = [group for group in groups if sum(group) > 0]
    if len(held) < 2 or any(sum(group[sex] for group in held) == 0 for sex in (0, 1)):
        return None
    found = chi2_contingency(held, correction=False)
    return Heterogeneity(float(found.statistic), int(found.dof), float(found.pvalue))
