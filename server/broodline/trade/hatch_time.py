"""When chicks hatched, from counts every few hours: a normal curve fitted to intervals, with eggs that never hatch.

A chick found at a look hatched some time since the look before. Eggs that lay unhatched at time T either never hatch or
hatch later: each contributes 1 - d x Phi((T - median)/sd), d the share that hatches at all. Hours since setting.

    >>> looks = [(None, 492, 2), (492, 496, 5), (496, 500, 14), (500, 504, 20), (504, 508, 11), (508, 512, 4)]
    >>> found = fit_hatch([Found(*look) for look in [*looks, (512, None, 1)]])
    >>> round(found.median_h, 3), round(found.sd_h, 3), round(found.spread_h, 2)
    (501.429, 4.87, 16.02)
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, inf, log

from scipy.optimize import minimize
from scipy.special import ndtr

Z_05_TO_95 = 1.6448536269514722
_LEAST = 1e-300


@dataclass(frozen=True, slots=True)
class Found:
    """n chicks that hatched after after_h (None: no earlier look is known) and by by_h (None: nobody looked since)."""

    after_h: float | None
    by_h: float | None
    n: int


@dataclass(frozen=True, slots=True)
class Unhatched:
    """n eggs that lay unhatched at at_h."""

    at_h: float
    n: int


@dataclass(frozen=True, slots=True)
class HatchFit:
    """median_h, sd_h: of the eggs that hatch. share: how many of all these eggs hatch at all. log_likelihood: of it."""

    median_h: float
    sd_h: float
    share: float
    log_likelihood: float

    @property
    def p05_h(self) -> float:
        return self.median_h - Z_05_TO_95 * self.sd_h

    @property
    def p95_h(self) -> float:
        return self.median_h + Z_05_TO_95 * self.sd_h

    @property
    def spread_h(self) -> float:
        """From 5 to 95 % hatched."""
        return 2 * Z_05_TO_95 * self.sd_h


def fit_hatch(found: Sequence[Found], unhatched: Sequence[Unhatched] = ()) -> HatchFit | None:
    """Maximum likelihood over median, sd and share. None where the looks cannot tell a spread.

    That is so while all chicks lie in one interval, or in two that touch: a spread of nothing would then fit best.
    """
    seen = sorted((one for one in found if one.n > 0), key=_start)
    if len(seen) < 2 or (len(seen) == 2 and seen[0].by_h == seen[1].after_h):
        return None
    waiting = [one for one in unhatched if one.n > 0]
    middles = [(_middle(one), one.n) for one in seen]
    hatched = sum(n for _, n in middles)
    mean = sum(at * n for at, n in middles) / hatched
    sd = max(1.0, (sum(n * (at - mean) ** 2 for at, n in middles) / hatched) ** 0.5)

    def height(median_h: float, sd_h: float) -> tuple[float, float]:
        share = _share(hatched, [(float(ndtr((one.at_h - median_h) / sd_h)), one.n) for one in waiting])
        total = hatched * log(share)
        for one in seen:
            total += one.n * log(max(_LEAST, _chance(one, median_h, sd_h)))
        for left in waiting:
            total += left.n * log(max(_LEAST, 1 - share * float(ndtr((left.at_h - median_h) / sd_h))))
        return total, share

    best = minimize(
        lambda at: -height(mean + at[0], sd * exp(at[1]))[0],
        [0.0, 0.0],
        method="Nelder-Mead",
        bounds=[(-1e4, 1e4), (-12, 12)],
        options={"xatol": 1e-8, "fatol": 1e-11, "maxiter": 2000, "initial_simplex": [[0, 0], [sd / 2, 0], [0, 0.3]]},
    )
    median_h, sd_h = mean + float(best.x[0]), sd * exp(float(best.x[1]))
    total, share = height(median_h, sd_h)
    return HatchFit(median_h, sd_h, share, total)


def shares_by_look(found: Sequence[Found]) -> list[tuple[float, float]]:
    """(hour, share of all chicks out by then) at every look: needs no curve. Chicks after the last look count in all.

    >>> [round(share, 4) for _, share in shares_by_look([Found(None, 492, 2), Found(492, 496, 5), Found(496, None, 1)])]
    [0.25, 0.875]
    """
    total = sum(one.n for one in found)
    out = 0
    shares = []
    for one in sorted(found, key=_start):
        out += one.n
        if one.by_h is not None and total:
            shares.append((one.by_h, out / total))
    return shares


def _start(one: Found) -> float:
    return -inf if one.after_h is None else one.after_h


def _middle(one: Found) -> float:
    ends = [end for end in (one.after_h, one.by_h) if end is not None]
    return sum(ends) / len(ends)


def _chance(one: Found, median_h: float, sd_h: float) -> float:
    low = -inf if one.after_h is None else (one.after_h - median_h) / sd_h
    high = inf if one.by_h is None else (one.by_h - median_h) / sd_h
    if low > 0:
        low, high = -high, -low
    return float(ndtr(high) - ndtr(low))


def _share(hatched: int, waiting: Sequence[tuple[float, int]]) -> float:
    """The most likely share that hatches at all, where so many hatched and others waited with that chance to be out."""

    def slope(share: float) -> float:
        return hatched / share - sum(n * out / max(_LEAST, 1 - share * out) for out, n in waiting)

    if slope(1.0) >= 0:
        return 1.0
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if slope(middle) > 0 else (low, middle)
    return (low + high) / 2
