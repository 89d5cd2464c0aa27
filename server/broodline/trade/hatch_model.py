"""Families with egg age and setting held alike: a logistic model in which each family is a draw from a normal.

    hatched ~ binomial(n, p),  logit p = design x effects + family,  family ~ normal(0, sd)

Marginal maximum likelihood by adaptive Gauss-Hermite quadrature (Pinheiro and Bates 1995, J. Comput. Graph. Stat.
4:12-35). The random family is what draws small families towards the rest; where the families differ no more than chance
would make them, the likelihood is highest at sd 0.

    >>> eggs = [Eggs("rowan", 10, 12, (1.0, 0.0)), Eggs("rowan", 8, 12, (0.0, 1.0))]
    >>> eggs += [Eggs("birch", 6, 12, (1.0, 0.0)), Eggs("birch", 2, 12, (0.0, 1.0))]
    >>> found = fit_hatch_model(eggs)
    >>> round(found.sd, 2), [round(one.effect, 2) for one in found.families.values()]
    (0.88, [-0.77, 0.76])
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize
from scipy.special import expit, gammaln

Floats = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.hermite.hermgauss(25)
_LOG_WEIGHTS = np.log(_WEIGHTS) + _NODES**2
_EDGE, _RUNS_AWAY = 15.0, 12.0
_NO_SPREAD, _MOST_SPREAD = 1e-3, 3.0
_STEP = 1e-4


@dataclass(frozen=True, slots=True)
class Eggs:
    """hatched of n eggs of a family; design: their row of the fixed effects (setting, days of storage, ...)."""

    family: str
    hatched: int
    n: int
    design: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class FamilyEffect:
    """A family's own part on the log-odds scale, given the fixed effects, and its standard deviation."""

    effect: float
    sd: float


@dataclass(frozen=True, slots=True)
class HatchModel:
    """effects, errors: fixed effects and their standard errors, in the order of the design. sd: of the families.

    All on the log-odds scale. log_likelihood: with binomial coefficients; flat: the same with sd held at 0.
    """

    effects: tuple[float, ...]
    errors: tuple[float, ...]
    sd: float
    log_likelihood: float
    flat: float
    families: Mapping[str, FamilyEffect]


def fit_hatch_model(eggs: Sequence[Eggs]) -> HatchModel | None:
    """Fit the model; all n >= 1. None where an effect cannot be told: columns that say the same, or one that runs away.

    A setting of which all or no egg hatched says nothing of its families, and its own column runs away: leave it out.
    """
    eggs = sorted(eggs, key=lambda one: one.family)
    design = np.array([one.design for one in eggs], dtype=np.float64)
    if not eggs or np.linalg.matrix_rank(design) < design.shape[1]:
        return None
    surface = _Surface(eggs, design)
    flat = surface.climb(np.zeros(design.shape[1] + 1), most=0.0)
    best = surface.climb(flat + np.append(0.0 * flat[:-1], 0.5), most=_MOST_SPREAD)
    # A hill beside the edge may be lower than the edge itself, where the families are alike.
    if best[-1] < _NO_SPREAD or surface.fall(best)[0] > surface.fall(flat)[0]:
        best = flat
    if max(np.abs(flat[:-1]).max(), np.abs(best[:-1]).max()) >= _RUNS_AWAY:
        return None
    spread = float(best[-1])
    modes, curves = surface.modes(best)
    return HatchModel(
        effects=tuple(map(float, best[:-1])),
        errors=surface.errors(best),
        sd=spread,
        log_likelihood=-surface.fall(best)[0],
        flat=-surface.fall(flat)[0],
        families={
            name: FamilyEffect(spread * float(mode), spread / float(curve) ** 0.5)
            for name, mode, curve in zip(surface.names, modes, curves, strict=True)
        },
    )


class _Surface:
    """Minus the log likelihood over (effects, sd), with its slope. Each family's own part is sd x a standard normal."""

    def __init__(self, eggs: Sequence[Eggs], design: Floats) -> None:
        """eggs: sorted by family; design: their rows."""
        names, starts, family = np.unique([one.family for one in eggs], return_index=True, return_inverse=True)
        self.names, self.starts, self.family = [str(name) for name in names], starts, family
        self.hatched = np.array([one.hatched for one in eggs], dtype=np.float64)
        self.n = np.array([one.n for one in eggs], dtype=np.float64)
        self.design = design
        ways = gammaln(self.n + 1) - gammaln(self.hatched + 1) - gammaln(self.n - self.hatched + 1)
        self.ways = float(ways.sum())

    def modes(self, at: Floats) -> tuple[Floats, Floats]:
        """The likeliest standard part of each family, and how sharply the likelihood bends there."""
        line, spread = self.design @ at[:-1], at[-1]
        parts = np.zeros(len(self.names))
        for _ in range(50):
            share = expit(line + spread * parts[self.family])
            slope = spread * self._by_family(self.hatched - self.n * share) - parts
            curve = 1 + spread**2 * self._by_family(self.n * share * (1 - share))
            step = slope / curve
            parts = parts + np.clip(step, -2, 2)
            if np.abs(step).max() < 1e-10:
                break
        return parts, curve

    def fall(self, at: Floats) -> tuple[float, Floats]:
        """Minus the log likelihood, and its slope."""
        modes, curves = self.modes(at)
        wide = np.sqrt(2 / curves)
        parts = modes[:, None] + wide[:, None] * _NODES
        line = (self.design @ at[:-1])[:, None] + at[-1] * parts[self.family]
        logs = self._by_family(self.hatched[:, None] * line - self.n[:, None] * np.logaddexp(0, line))
        logs += _LOG_WEIGHTS - parts**2 / 2
        tops = logs.max(axis=1, keepdims=True)
        weights = np.exp(logs - tops)
        sums = weights.sum(axis=1, keepdims=True)
        weights /= sums
        height = float((np.log(sums[:, 0]) + tops[:, 0] + np.log(wide) - np.log(2 * np.pi) / 2).sum()) + self.ways
        rest = self.hatched[:, None] - self.n[:, None] * expit(line)
        weighed = weights[self.family] * rest
        slope = np.append(self.design.T @ weighed.sum(axis=1), (weighed * parts[self.family]).sum())
        return -height, -slope

    def climb(self, start: Floats, most: float) -> Floats:
        """The highest point from a start, with the sd between 0 and `most`."""
        bounds = [*[(-_EDGE, _EDGE)] * (len(start) - 1), (0.0, most)]
        close: Any = {"ftol": 1e-15, "gtol": 1e-9, "maxiter": 1000, "maxcor": 20}
        found: Any = minimize(self.fall, start, jac=True, method="L-BFGS-B", bounds=bounds, options=close)
        return np.asarray(found.x, dtype=np.float64)

    def errors(self, at: Floats) -> tuple[float, ...]:
        """Standard errors of the effects, from the bend of the surface; with sd 0 held there."""
        size = len(at) if at[-1] else len(at) - 1
        bend = np.empty((size, size))
        for column in range(size):
            step = np.zeros(len(at))
            step[column] = _STEP
            bend[column] = (self.fall(at + step)[1] - self.fall(at - step)[1])[:size] / (2 * _STEP)
        spreads = np.diag(np.linalg.inv((bend + bend.T) / 2))
        return tuple(float(max(0.0, one) ** 0.5) for one in spreads[: len(at) - 1])

    def _by_family(self, values: Floats) -> Floats:
        return np.asarray(np.add.reduceat(values, self.starts, axis=0), dtype=np.float64)
