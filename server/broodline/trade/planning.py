"""How many eggs to set for the pullets and cockerels wished for, and the chance to get them.

Each step from egg to grown chick (fertile, hatched, alive) is a beta-binomial: how sure its share is counts as well as
the share. The chance is exact, by convolution of the steps; half of the chicks are taken to be of each sex.

>>> sure = Share(1e9, 1.0)
>>> round(chance_of(3, [sure], pullets=1, cockerels=1), 3)
0.75
>>> eggs_needed([sure], pullets=1, cockerels=1, chance=0.9)
5
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import betaln, gammaln
from scipy.stats import binom

from broodline.trade.shrinkage import shrink

MOST_EGGS = 600


@dataclass(frozen=True, slots=True)
class Share:
    """What is known of a share: Beta(a, b)."""

    a: float
    b: float

    @property
    def mean(self) -> float:
        """The share to expect."""
        return self.a / (self.a + self.b)


def family_share(own: tuple[int, int], flock: Sequence[tuple[int, int]], usual: float, weight: float) -> Share:
    """A family's share from its own (k, n), drawn to the flock's families, and these to the trade's usual share.

    weight: how many eggs the usual share counts for. Where the flock's families do not differ, or there are too few of
    them to tell, all their eggs speak for this one. flock: (k, n) of all families, its own among them.

    >>> family_share((0, 0), [], 0.75, 8)
    Share(a=6.0, b=2.0)
    """
    held = [one for one in flock if one[1] > 0]
    k, n = sum(one[0] for one in held), sum(one[1] for one in held)
    pooled = Share(usual * weight + k, (1 - usual) * weight + n - k)
    found = shrink(held)
    if found is None or found.alpha is None or found.beta is None:
        return pooled
    strength = found.alpha + found.beta
    return Share(pooled.mean * strength + own[0], (1 - pooled.mean) * strength + own[1] - own[0])


def chance_of(eggs: int, steps: Sequence[Share], *, pullets: int, cockerels: int) -> float:
    """Chance that of so many eggs at least so many pullets and at least so many cockerels are left after all steps."""
    left = np.zeros(eggs + 1)
    left[eggs] = 1.0
    for step in steps:
        left = _after(left, step)
    n = np.arange(eggs + 1)
    enough = binom.cdf(n - cockerels, n, 0.5) - binom.cdf(pullets - 1, n, 0.5)
    return float(left @ np.where(n >= pullets + cockerels, np.maximum(enough, 0.0), 0.0))


def eggs_needed(steps: Sequence[Share], *, pullets: int, cockerels: int, chance: float) -> int | None:
    """The fewest eggs that give at least this chance; None where 600 eggs do not. 0 < chance < 1."""
    low, high = 0, MOST_EGGS
    if chance_of(high, steps, pullets=pullets, cockerels=cockerels) < chance:
        return None
    while low < high:
        middle = (low + high) // 2
        if chance_of(middle, steps, pullets=pullets, cockerels=cockerels) >= chance:
            high = middle
        else:
            low = middle + 1
    return low


def _after(left: NDArray[np.float64], step: Share) -> NDArray[np.float64]:
    """How many are left after a step: each number before it (down) spread over the numbers after it (across)."""
    before = np.flatnonzero(left > 0)[:, None]
    after = np.arange(len(left))[None, :]
    lost = np.maximum(before - after, 0)
    chosen = gammaln(before + 1) - gammaln(after + 1) - gammaln(lost + 1)
    spread = np.exp(chosen + betaln(after + step.a, lost + step.b) - betaln(step.a, step.b))
    found: NDArray[np.float64] = left[before[:, 0]] @ np.where(after <= before, spread, 0.0)
    return found
