"""Alarms of losses: exact tails, and Lucas' Poisson CUSUM by its published run lengths."""

from math import comb

import numpy as np
import pytest
from scipy.stats import poisson

from broodline.trade.loss_alarm import alarming_deaths, chance_of_so_many, cusum, reference_for


def mean_run(mean: float, reference: int, alarm_at: int, start: int = 0) -> float:
    """Days until the alarm on average: the steps of `cusum` itself as a Markov chain over its whole-number levels."""
    chances = poisson.pmf(np.arange(60), mean)
    chain = np.zeros((alarm_at, alarm_at))
    for level in range(alarm_at):
        for died, chance in enumerate(chances):
            # A first day that ends at `level`, then the day itself, in units of the reference.
            (_, after) = cusum([level + reference, died], [1, 1], reference=reference, alarm_at=alarm_at)
            if not after.alarm:
                chain[level, round(after.sum)] += chance
    runs = np.linalg.solve(np.eye(alarm_at) - chain, np.ones(alarm_at))
    return float(runs[start])


@pytest.mark.parametrize(
    ("mean", "start", "days"), [(1.88, 0, 37.203), (1.88, 3, 29.188), (3.2, 0, 5.491), (3.2, 3, 3.329)]
)
def test_published_run_lengths(mean: float, start: int, days: float) -> None:
    """Lucas 1985 (R package IAcsSPCR): k 2, h 6, mean 1.88: 37.20, with a head start of 3 29.19; raised: 5.49, 3.33."""
    exact = 1.88 + 0.9627 * 1.88**0.5 if mean == 3.2 else mean
    assert mean_run(exact, 2, 6, start) == pytest.approx(days, abs=5e-3)


def test_run_length_of_an_alarm_only_above_the_limit() -> None:
    """The same plan where 6 itself is no alarm, as some programs have it: 50.454 (Lucas 1985, R package IAcsSPCR)."""
    assert mean_run(1.88, 2, 7) == pytest.approx(50.454, abs=5e-3)


@pytest.mark.parametrize(("mean", "days"), [(0.5, 174.25), (0.75, 36.73), (1, 14.83), (1.5, 5.71), (2, 3.49)])
def test_run_lengths_with_alarm_at_three(mean: float, days: float) -> None:
    """k 1, alarm at 3 or above (own chain, agreed with simulation)."""
    assert mean_run(mean, 1, 3) == pytest.approx(days, abs=5e-3)


def test_path() -> None:
    died = [0, 1, 0, 0, 2, 1, 0, 1, 0, 0, 1, 2, 3, 1, 2]
    levels = cusum(died, [1] * 15, reference=1, alarm_at=3)
    assert [level.sum for level in levels] == [0, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0, 1, 3, 3, 4]
    assert next(day for day, level in enumerate(levels, 1) if level.alarm) == 13


@pytest.mark.parametrize(
    ("before", "after", "reference"), [(0.5, 1.5, 0.91024), (0.25, 0.75, 0.45512), (1, 2, 1.44270), (0.2, 0.6, 0.36410)]
)
def test_references(before: float, after: float, reference: float) -> None:
    """k = (mu1 - mu0) / ln(mu1 / mu0)."""
    assert before * reference_for(after / before) == pytest.approx(reference, abs=1e-5)


@pytest.mark.parametrize(
    ("n", "share", "deaths", "chance"), [(60, 0.003, 3, 0.0008), (30, 0.01, 3, 0.0033), (100, 0.005, 4, 0.0017)]
)
def test_a_bad_day(n: int, share: float, deaths: int, chance: float) -> None:
    exact = sum(comb(n, k) * share**k * (1 - share) ** (n - k) for k in range(deaths, n + 1))
    assert chance_of_so_many(deaths, n, share) == pytest.approx(exact)
    assert chance_of_so_many(deaths, n, share) == pytest.approx(chance, abs=5e-5)
    assert alarming_deaths(n, share, at_most=chance + 5e-5) == deaths


def test_few_chicks_of_which_none_can_alarm() -> None:
    assert alarming_deaths(2, 0.3, at_most=0.0027) == 3
    assert alarming_deaths(0, 0.3, at_most=0.0027) == 1
