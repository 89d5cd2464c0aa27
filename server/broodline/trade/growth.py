"""Weights of birds of one hatch and sex: how even they are, and the growth curve where the weights can carry one.

Logistic W = A / (1 + exp((m - t) / s)), as R's SSlogis: fastest at age m, where W = A / 2. Gompertz
W = A exp(-b exp(-k t)): fastest at age ln(b) / k, where W = A / e. t in days, W and A (the grown weight) in grams.
Weights that end before the fastest growth say nothing of the grown weight: such a fit is refused, with the reason.

    >>> even = evenness([196, 200, 204, 205, 237, 238, 264, 281, 322])
    >>> round(even.mean_g, 4), round(even.cv_pct, 4), even.within, even.n
    (238.5556, 18.1709, 2, 9)
    >>> fit_growth([(0, 42), (7, 60), (14, 93)]).words
    'Weighed at 3 ages; a curve needs at least 5.'
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import e, erf, exp, log, sqrt
from statistics import fmean, stdev
from warnings import catch_warnings, simplefilter

import numpy as np
from scipy.optimize import OptimizeWarning, curve_fit

from broodline.trade.sources import cell, read_table

_TABLE = read_table("growth")
_LEAST_AGES: int = cell(_TABLE["fit"]["least_ages"]).value
_WIDEST: float = cell(_TABLE["fit"]["widest"]).value
_WITHIN_PCT: float = cell(_TABLE["even_within"]).value
_STEPS = 20_000

TURN = {"logistic": 1 / 2, "gompertz": 1 / e, "bertalanffy": 8 / 27}
"""The share of the grown weight at which each curve is steepest."""

Weights = Sequence[tuple[float, float]]
Curve = Callable[..., np.ndarray]


@dataclass(frozen=True, slots=True)
class Evenness:
    """Of n birds: mean, standard deviation (of a sample, n - 1) and its percent.

    sd_g, cv_pct: None for one bird alone. within: so many within 10 % of the mean.
    """

    n: int
    mean_g: float
    sd_g: float | None
    cv_pct: float | None
    within: int

    @property
    def within_pct(self) -> float:
        """Uniformity: the percent of birds within 10 % of their own mean."""
        return 100 * self.within / self.n


@dataclass(frozen=True, slots=True)
class Fit:
    """A curve that the weights carry. inflection_day: age of the fastest growth, inflection_g its weight.

    parameters: by name (logistic: A, m, s; Gompertz: A, b, k). grown_se_g: standard error of A. rss: in g².
    """

    model: str
    parameters: Mapping[str, float]
    inflection_day: float
    inflection_g: float
    fastest_g_a_day: float
    grown_se_g: float
    rss: float


@dataclass(frozen=True, slots=True)
class Refused:
    """No curve, and why, in words for a keeper."""

    words: str


def evenness(masses_g: Sequence[float]) -> Evenness:
    """How even birds weighed on one day are. Raises ValueError for none."""
    if not masses_g:
        raise ValueError("no bird was weighed")
    mean = fmean(masses_g)
    sd = stdev(masses_g) if len(masses_g) > 1 else None
    low, high = even_limits(mean)
    within = sum(low <= mass <= high for mass in masses_g)
    return Evenness(len(masses_g), mean, sd, None if sd is None or mean <= 0 else 100 * sd / mean, within)


def even_limits(mean_g: float) -> tuple[float, float]:
    """Between which weights a bird counts as even with its group: 10 % of the group's own mean either way.

    >>> even_limits(1050)
    (945.0, 1155.0)
    """
    return mean_g * (100 - _WITHIN_PCT) / 100, mean_g * (100 + _WITHIN_PCT) / 100


def even_from_cv(cv_pct: float) -> float:
    """Percent within 10 % of the mean where weights are normal with that coefficient of variation: 2 Phi(10 / CV) - 1.

    >>> round(even_from_cv(8), 1), round(even_from_cv(10), 1)
    (78.9, 68.3)
    """
    return 100 * erf(_WITHIN_PCT / cv_pct / sqrt(2))


def logistic(age_days: float, grown_g: float, middle_day: float, scale_days: float) -> float:
    """Grams at an age on the logistic curve.

    >>> round(logistic(0, 368, 14, 6), 4), logistic(14, 368, 14, 6)
    (32.5311, 184.0)
    """
    return grown_g / (1 + exp((middle_day - age_days) / scale_days))


def gompertz(age_days: float, grown_g: float, b: float, k: float) -> float:
    """Grams at an age on the Gompertz curve.

    >>> round(gompertz(0, 472.0933, 2.4771, 0.0614), 1)
    39.6
    """
    return grown_g * exp(-b * exp(-k * age_days))


def gompertz_turn(grown_g: float, b: float, k: float) -> tuple[float, float, float]:
    """Where a Gompertz curve is steepest: age in days, grams there (A / e), grams a day there (A k / e)."""
    return log(b) / k, grown_g * TURN["gompertz"], grown_g * k / e


def fit_growth(weights: Weights) -> Fit | Refused:
    """The better of the two curves for (age_days, mass_g) of one hatch and sex, or why there is none.

    Of the curves the weights carry the one with the smaller sum of squares. Weights and ages beyond sense are the
    caller's to leave out.
    """
    ages = len({age for age, _ in weights})
    if ages < _LEAST_AGES:
        return Refused(f"Weighed at {ages} age{'s' * (ages != 1)}; a curve needs at least {_LEAST_AGES}.")
    found = [fit_logistic(weights), fit_gompertz(weights)]
    fits = [fit for fit in found if isinstance(fit, Fit)]
    if fits:
        return min(fits, key=lambda fit: fit.rss)
    return next(refused for refused in found if isinstance(refused, Refused))


def fit_logistic(weights: Weights) -> Fit | Refused:
    """The logistic curve by least squares, or why it is refused."""
    ages, grams = _columns(weights)
    start = (1.5 * grams.max(), float(np.median(ages)) or 1.0, max(1.0, float(np.ptp(ages)) / 4))
    found = _least_squares(lambda t, a, m, s: a / (1 + np.exp(np.clip((m - t) / s, -700, 700))), ages, grams, start)
    if found is None:
        return _no_curve()
    (grown, middle, scale), se, rss = found
    if scale <= 0 or grown <= 0:
        return _no_curve()
    parameters = {"A": grown, "m": middle, "s": scale}
    return _judged(Fit("logistic", parameters, middle, grown * TURN["logistic"], grown / (4 * scale), se, rss), ages)


def fit_gompertz(weights: Weights) -> Fit | Refused:
    """The Gompertz curve by least squares, or why it is refused."""
    ages, grams = _columns(weights)
    top = 1.5 * grams.max()
    start = (top, max(1.1, log(top / max(grams.min(), 1e-3))), 1 / max(1.0, float(np.ptp(ages)) / 2))

    def curve(t: np.ndarray, grown: float, b: float, k: float) -> np.ndarray:
        return grown * np.exp(-b * np.exp(np.clip(-k * t, -700, 50)))

    found = _least_squares(curve, ages, grams, start)
    if found is None:
        return _no_curve()
    (grown, b, k), se, rss = found
    if grown <= 0 or b <= 0 or k <= 0:
        return _no_curve()
    day, mass, fastest = gompertz_turn(grown, b, k)
    return _judged(Fit("gompertz", {"A": grown, "b": b, "k": k}, day, mass, fastest, se, rss), ages)


def _judged(fit: Fit, ages: np.ndarray) -> Fit | Refused:
    if fit.inflection_day < 0:
        return Refused("These weights do not show when the birds grew fastest. Weigh from the first weeks on.")
    last = float(ages.max())
    if fit.inflection_day > last:
        return Refused(
            f"The birds were last weighed at {last:.0f} days, before their fastest growth: these weights cannot say "
            "how heavy they will be. Weigh on."
        )
    if not fit.grown_se_g <= _WIDEST * fit.parameters["A"]:
        return Refused("These weights leave the grown weight open by more than half. Weigh on.")
    return fit


def _no_curve() -> Refused:
    return Refused("No growth curve lies near these weights.")


def _columns(weights: Weights) -> tuple[np.ndarray, np.ndarray]:
    table = np.array(weights, dtype=float)
    return table[:, 0], table[:, 1]


def _least_squares(
    curve: Curve, ages: np.ndarray, grams: np.ndarray, start: tuple[float, ...]
) -> tuple[tuple[float, ...], float, float] | None:
    """Parameters, the standard error of the first, and the sum of squares; None where the search finds no end."""
    with np.errstate(all="ignore"), catch_warnings():
        simplefilter("ignore", OptimizeWarning)
        try:
            found, spread = curve_fit(curve, ages, grams, p0=start, maxfev=_STEPS)
        except RuntimeError:
            return None
        rss = float(((grams - curve(ages, *found)) ** 2).sum())
    return tuple(map(float, found)), sqrt(max(float(spread[0, 0]), 0.0)), rss
