"""k of n with its interval, and the difference of two such.

Wilson (1927) 95 % interval and Newcombe (1998b) method 10, both without continuity correction. Mirrored in
pwa/src/trade/proportions.ts over tests/vectors/proportions.json. Numbers are not rounded.

    >>> found = rate_of(9, 12)
    >>> found.rate, round(found.low, 5), round(found.high, 5)
    (0.75, 0.46769, 0.91106)
    >>> rate_of(0, 0).as_json()
    {'k': 0, 'n': 0, 'rate': None, 'low': None, 'high': None}
"""

from dataclasses import dataclass
from math import sqrt
from typing import Any

Z_95 = 1.959963984540054


@dataclass(frozen=True, slots=True)
class Rate:
    """k of n. rate, low, high: shares of 1 with the 95 % interval, None where n is 0 or the counts do not fit.

    basis: "opened", "candled" or "mixed": how the denominator was judged. open: up to so many more or fewer, from
    moves whose family is not known. so_far: the setting still runs.
    """

    k: int
    n: int
    rate: float | None
    low: float | None
    high: float | None
    basis: str | None = None
    open: int = 0
    so_far: bool = False

    def as_json(self) -> dict[str, Any]:
        """As reports write it; basis, open and so_far only where they say something."""
        written: dict[str, Any] = {"k": self.k, "n": self.n, "rate": self.rate, "low": self.low, "high": self.high}
        if self.basis is not None:
            written["basis"] = self.basis
        if self.open:
            written["open"] = self.open
        if self.so_far:
            written["so_far"] = True
        return written


@dataclass(frozen=True, slots=True)
class Difference:
    """First share minus second, with its 95 % interval."""

    difference: float
    low: float
    high: float


def wilson(k: int, n: int) -> tuple[float, float]:
    """The Wilson 95 % interval of k in n, 0 <= k <= n, n >= 1, as shares of 1. Raises ValueError otherwise."""
    if not 0 <= k <= n or n == 0:
        raise ValueError(f"{k} of {n} is no share")
    share = k / n
    spread = Z_95 * Z_95 / n
    middle = (share + spread / 2) / (1 + spread)
    half = Z_95 * sqrt(share * (1 - share) / n + spread / (4 * n)) / (1 + spread)
    return (0.0 if k == 0 else middle - half), (1.0 if k == n else middle + half)


def rate_of(
    k: int, n: int, *, sound: bool = True, basis: str | None = None, open_: int = 0, so_far: bool = False
) -> Rate:
    """The rate of k in n. Where the counts are not sound (below zero, k over n) or n is 0, only k and n stand."""
    if not sound or n <= 0 or not 0 <= k <= n:
        return Rate(k, n, None, None, None, basis, open_, so_far)
    low, high = wilson(k, n)
    return Rate(k, n, k / n, low, high, basis, open_, so_far)


def difference_newcombe(k1: int, n1: int, k2: int, n2: int) -> Difference:
    """k1/n1 - k2/n2 with Newcombe's interval (Stat. Med. 17:873-890, method 10). Raises ValueError as `wilson`.

    >>> found = difference_newcombe(56, 70, 48, 80)
    >>> round(found.low, 4), round(found.high, 4)
    (0.0524, 0.3339)
    """
    low1, high1 = wilson(k1, n1)
    low2, high2 = wilson(k2, n2)
    p1, p2 = k1 / n1, k2 / n2
    below = sqrt((p1 - low1) ** 2 + (high2 - p2) ** 2)
    above = sqrt((high1 - p1) ** 2 + (p2 - low2) ** 2)
    return Difference(p1 - p2, p1 - p2 - below, p1 - p2 + above)
