"""Families with egg age and setting held alike: a logistic model in which each family is a draw from a normal.

    hatched ~ binomial(n, p),  logit p = setting + held x effects + family,  family ~ normal(0, sd)

Marginal maximum likelihood by adaptive Gauss-Hermite quadrature (Pinheiro and Bates 1995, J. Comput. Graph. Stat.
4:12-35). The random family is what draws small families towards the rest; where the families differ no more than chance
would make them, the likelihood is highest at sd 0. A setting is an index and no column of noughts and ones: a book of
ten seasons has thousands of them.

    >>> eggs = [Eggs("rowan", "march", 10, 12), Eggs("rowan", "april", 8, 12)]
    >>> eggs += [Eggs("birch", "march", 6, 12), Eggs("birch", "april", 2, 12)]
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
from scipy.sparse.linalg import LinearOperator, cg
from scipy.special import expit, gammaln

Floats = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.hermite.hermgauss(25)
_LOG_WEIGHTS = np.log(_WEIGHTS) + _NODES**2
_RUNS_AWAY, _BEYOND_DOUBT = 12.0, 500.0
_NO_SPREAD, _MOST_SPREAD, _STARTS = 1e-3, 3.0, (0.5, 1.5, 0.1)


@dataclass(frozen=True, slots=True)
class Eggs:
    """hatched of n eggs of a family in a setting; held: what else is held alike (days of storage, ...)."""

    family: str
    setting: str
    hatched: int
    n: int
    held: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class FamilyEffect:
    """A family's own part on the log-odds scale, given the other effects, and its standard deviation."""

    effect: float
    sd: float


@dataclass(frozen=True, slots=True)
class HatchModel:
    """settings: the effect of each; held, errors: effects of what is held, their standard errors. sd: of the families.

    All on the log-odds scale. log_likelihood: with binomial coefficients; flat: the same with sd held at 0.
    """

    settings: Mapping[str, float]
    held: tuple[float, ...]
    errors: tuple[float, ...]
    sd: float
    log_likelihood: float
    flat: float
    families: Mapping[str, FamilyEffect]

    def line(self, eggs: Eggs) -> float:
        """The log odds of such eggs, of a family that is neither better nor worse than the rest."""
        return self.settings[eggs.setting] + sum(x * by for x, by in zip(eggs.held, self.held, strict=True))


def fit_hatch_model(eggs: Sequence[Eggs]) -> HatchModel | None:
    """Fit the model; all n >= 1. None where an effect cannot be told: it goes with the settings, or runs away.

    A setting of which all or no egg hatched says nothing of its families, and its effect runs away: leave it out.
    """
    if not eggs:
        return None
    surface = _Surface(sorted(eggs, key=lambda one: one.family))
    if not surface.can_be_told():
        return None
    flat = surface.climb(np.zeros(surface.size))
    best = flat
    for start in _STARTS if surface.families[1:] else ():
        found = surface.climb(np.append(flat[:-1], start))
        if found[-1] > _MOST_SPREAD:
            found = surface.climb(np.append(flat[:-1], _MOST_SPREAD), hold_sd=True)
        # A hill beside the edge may be lower than the edge itself, where the families are alike; small books have two.
        if found[-1] >= _NO_SPREAD and surface.fall(found)[0] < surface.fall(best)[0]:
            best = found
        if best is not flat:
            break
    if max(np.abs(one).max() for at in (flat, best) for one in (at[:-1], surface.line(at))) >= _RUNS_AWAY:
        return None
    spread = float(best[-1])
    modes, curves = surface.modes(best)
    settings = len(surface.settings)
    return HatchModel(
        settings=dict(zip(surface.settings, map(float, best[:settings]), strict=True)),
        held=tuple(map(float, best[settings:-1])),
        errors=surface.errors(best),
        sd=spread,
        log_likelihood=-surface.fall(best)[0],
        flat=-surface.fall(flat)[0],
        families={
            name: FamilyEffect(spread * float(mode), spread / float(curve) ** 0.5)
            for name, mode, curve in zip(surface.families, modes, curves, strict=True)
        },
    )


@dataclass(frozen=True, slots=True)
class _Nodes:
    """The surface at a point. By family and node: parts, weights (1 together); by row and node: rest, spread, sharp.

    rest: eggs hatched more than expected; spread: the weights; sharp: their bend. With sd 0 there is one node.
    """

    at: Floats
    parts: Floats
    weights: Floats
    rest: Floats
    spread: Floats
    height: float
    sharp: Floats


class _Surface:
    """Minus the log likelihood over (settings, held, sd), with its slope and its bend.

    Each family's own part is sd x a standard normal. Arrays are eggs x nodes, families x nodes or eggs alone.
    """

    def __init__(self, eggs: Sequence[Eggs]) -> None:
        """eggs: sorted by family."""
        families, self.starts, self.family = np.unique(
            [one.family for one in eggs], return_index=True, return_inverse=True
        )
        settings, self.setting = np.unique([one.setting for one in eggs], return_inverse=True)
        self.families, self.settings = [str(name) for name in families], [str(name) for name in settings]
        self.hatched = np.array([one.hatched for one in eggs], dtype=np.float64)
        self.n = np.array([one.n for one in eggs], dtype=np.float64)
        self.held = np.array([one.held for one in eggs], dtype=np.float64).T.copy()  # a row for each that is held
        self.size = len(self.settings) + len(self.held) + 1
        ways = gammaln(self.n + 1) - gammaln(self.hatched + 1) - gammaln(self.n - self.hatched + 1)
        self.ways = float(ways.sum())
        self._last: _Nodes | None = None

    def can_be_told(self) -> bool:
        """Whether what is held differs within settings, and in as many ways as it has columns."""
        rows = np.bincount(self.setting)
        within = self.held.copy()
        for one in within:
            one -= (np.bincount(self.setting, one) / rows)[self.setting]
        within[np.abs(within) < 1e-9 * (1 + np.abs(self.held))] = 0.0
        return bool(np.linalg.matrix_rank(within @ within.T) == len(self.held))

    def line(self, at: Floats) -> Floats:
        """Log odds of each row without its family's part; `at` may also be a direction."""
        line = at[self.setting]
        for effect, held in zip(at[len(self.settings) : -1], self.held, strict=True):
            line = line + effect * held
        return np.asarray(line)

    def spread_out(self, rows: Floats, of_sd: float) -> Floats:
        """The slope over all that is fitted, from the slope over each row's log odds and that over the sd."""
        settings = np.bincount(self.setting, rows, len(self.settings))
        return np.concatenate([settings, (self.held * rows).sum(axis=1), np.array([of_sd])])

    def modes(self, at: Floats) -> tuple[Floats, Floats]:
        """The likeliest standard part of each family, and how sharply the likelihood bends there."""
        line, spread = self.line(at), at[-1]
        parts = np.zeros(len(self.families))
        for _ in range(50):
            share = expit(line + spread * parts[self.family])
            slope = spread * self._by_family(self.hatched - self.n * share) - parts
            curve = 1 + spread**2 * self._by_family(self.n * share * (1 - share))
            step = slope / curve
            parts = parts + np.clip(step, -2, 2)
            if np.abs(step).max() < 1e-10:
                break
        return parts, curve

    def nodes(self, at: Floats) -> "_Nodes":
        """The surface at a point, node by node; asked twice in a row for one point it is worked out once."""
        if self._last is None or not np.array_equal(self._last.at, at):
            self._last = self._nodes(at.copy())
        return self._last

    def _nodes(self, at: Floats) -> "_Nodes":
        modes, curves = self.modes(at)
        wide = np.sqrt(2 / curves)
        parts = modes[:, None] + wide[:, None] * _NODES if at[-1] else modes[:, None]
        line = np.clip(self.line(at)[:, None] + at[-1] * parts[self.family], -_BEYOND_DOUBT, _BEYOND_DOUBT)
        share = 1 / (1 + np.exp(-line))
        logs = self._by_family(self.hatched[:, None] * line - self.n[:, None] * (line - np.log(share)))
        if at[-1]:
            logs += _LOG_WEIGHTS + np.log(wide)[:, None] - parts**2 / 2 - np.log(2 * np.pi) / 2
        tops = logs.max(axis=1, keepdims=True)
        weights = np.exp(logs - tops)
        sums = weights.sum(axis=1, keepdims=True)
        height = float((np.log(sums) + tops).sum()) + self.ways
        spread = (weights / sums)[self.family]
        return _Nodes(
            at,
            parts,
            weights / sums,
            self.hatched[:, None] - self.n[:, None] * share,
            spread,
            height,
            spread * self.n[:, None] * share * (1 - share),
        )

    def fall(self, at: Floats) -> tuple[float, Floats]:
        """Minus the log likelihood, and its slope."""
        seen = self.nodes(at)
        weighed = seen.spread * seen.rest
        of_sd = float((self._by_family(weighed) * seen.parts).sum())
        return -seen.height, -self.spread_out(weighed.sum(axis=1), of_sd)

    def bend(self, at: Floats, way: Floats) -> Floats:
        """How the slope at a point changes in a direction.

        What the eggs say at each node less what they do not say for not knowing the family's part (Louis 1982, J. R.
        Stat. Soc. B 44:226-233). The whole matrix is never written out.
        """
        seen = self.nodes(at)
        line = self.line(way)[:, None] + way[-1] * seen.parts[self.family]
        pull = self._by_family(seen.rest * line)
        pull -= (seen.weights * pull).sum(axis=1, keepdims=True)
        said = seen.sharp * line - seen.spread * seen.rest * pull[self.family]
        return self.spread_out(said.sum(axis=1), float((self._by_family(said) * seen.parts).sum()))

    def steepness(self, at: Floats) -> Floats:
        """The bend of each effect by itself were the families' parts known; that of the sd is at least 1."""
        seen = self.nodes(at)
        rows = seen.sharp.sum(axis=1)
        of_sd = float((self._by_family(seen.sharp) * seen.parts**2).sum())
        settings = np.bincount(self.setting, rows, len(self.settings))
        held = (self.held**2 * rows).sum(axis=1)
        return np.asarray(np.maximum(np.concatenate([settings, held, np.array([max(of_sd, 1.0)])]), 1e-9))

    def climb(self, start: Floats, *, hold_sd: bool = False) -> Floats:
        """The highest point from a start. The sd stays where it is held, or at 0; elsewhere its sign says nothing."""
        free = np.append(np.ones(self.size - 1), float(start[-1] > 0 and not hold_sd))
        measure = 1 / np.sqrt(self.steepness(start))

        def fall(step: Floats) -> tuple[float, Floats]:
            height, slope = self.fall(start + free * measure * step)
            return height, free * measure * slope

        def bend(step: Floats, way: Floats) -> Floats:
            return free * measure * self.bend(start + free * measure * step, free * measure * way)

        reach = float(self.size) ** 0.5
        options: Any = {"gtol": 1e-6, "initial_trust_radius": reach, "max_trust_radius": 100 * reach, "maxiter": 200}
        found: Any = minimize(fall, np.zeros(self.size), jac=True, hessp=bend, method="trust-ncg", options=options)
        there = start + free * measure * found.x
        there[-1] = abs(there[-1])
        return np.asarray(there, dtype=np.float64)

    def errors(self, at: Floats) -> tuple[float, ...]:
        """Standard errors of what is held; with sd 0 held there."""
        free, steep = np.append(np.ones(self.size - 1), float(at[-1] > 0)), self.steepness(at)
        shape = (self.size, self.size)
        bend = LinearOperator(shape, matvec=lambda way: free * self.bend(at, free * way.reshape(-1)), dtype=np.float64)
        steps = LinearOperator(shape, matvec=lambda way: way.reshape(-1) / steep, dtype=np.float64)
        found = []
        for place in range(len(self.settings), self.size - 1):
            solved, _ = cg(bend, np.eye(1, self.size, place)[0], rtol=1e-9, M=steps)
            found.append(float(max(0.0, solved[place]) ** 0.5))
        return tuple(found)

    def _by_family(self, values: Floats) -> Floats:
        return np.asarray(np.add.reduceat(values, self.starts, axis=0), dtype=np.float64)
