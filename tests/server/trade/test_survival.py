"""Survival against the 6-MP trial of Freireich et al. 1963 (as in textbooks; R survfit, survdiff) and scipy."""

import warnings

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import CensoredData, ecdf

from broodline.trade.survival import Fate, log_rank, median_day, survival

SIX_MP = [Fate(day, 1, died=True) for day in (6, 6, 6, 7, 10, 13, 16, 22, 23)]
SIX_MP += [Fate(day, 1, died=False) for day in (6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35)]
PLACEBO = [
    Fate(day, 1, died=True)
    for day in (1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23)
]  # fmt: skip


def test_six_mp() -> None:
    """S at 6, 7, 10, 13, 16, 22, 23: .8571 .8067 .7529 .6902 .6275 .5378 .4482 of 21, 17, 15, 12, 11, 7, 6 at risk."""
    curve = survival(SIX_MP)
    assert [(step.day, step.at_risk, step.died) for step in curve] == [
        (6, 21, 3), (7, 17, 1), (10, 15, 1), (13, 12, 1), (16, 11, 1), (22, 7, 1), (23, 6, 1)
    ]  # fmt: skip
    expected = [0.857143, 0.806723, 0.752941, 0.690196, 0.627451, 0.537815, 0.448179]
    assert [step.rate for step in curve] == pytest.approx(expected, abs=1e-6)
    assert (curve[2].low, curve[2].high) == pytest.approx((0.50320, 0.88936), abs=1e-5)


def test_medians() -> None:
    """Median 23 under 6-MP, 8 under placebo."""
    assert median_day(survival(SIX_MP)) == 23
    assert median_day(survival(PLACEBO)) == 8
    assert median_day(survival(SIX_MP[:5])) == 6
    assert median_day(survival(SIX_MP[9:])) is None


def test_log_rank() -> None:
    """Chi-square 16.79294, p 4.1688e-5; scipy's z is -4.097919."""
    found = log_rank(SIX_MP, PLACEBO)
    assert found is not None
    assert found.chi_square == pytest.approx(16.792941, abs=1e-5)
    assert found.p == pytest.approx(4.1688e-5, abs=1e-9)
    assert log_rank(SIX_MP, []) is None
    assert log_rank(SIX_MP[9:], SIX_MP[9:]) is None


def test_nobody_and_everybody() -> None:
    assert survival([]) == []
    assert survival([Fate(3, 12, died=False)]) == []
    assert survival([Fate(3, 0, died=True), Fate(5, 9, died=False)]) == []
    (last,) = survival([Fate(2, 4, died=True)])
    assert (last.at_risk, last.died, last.rate, last.low, last.high) == (4, 4, 0, None, None)


fates = st.lists(st.builds(Fate, st.integers(0, 20), st.integers(1, 6), died=st.booleans()), min_size=1, max_size=12)


@given(fates)
def test_any_curve_is_scipys(group: list[Fate]) -> None:
    days = [one.day for one in group for _ in range(one.n)]
    censored = [not one.died for one in group for _ in range(one.n)]
    theirs = ecdf(CensoredData.right_censored(days, censored)).sf
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)  # undefined while all or none are alive
        interval = theirs.confidence_interval(method="log-log")
    at = {day: number for number, day in enumerate(theirs.quantiles)}
    for step in survival(group):
        place = at[step.day]
        assert step.rate == pytest.approx(theirs.probabilities[place])
        if step.rate > 0:
            ends = (interval.low.probabilities[place], interval.high.probabilities[place])
            assert (step.low, step.high) == pytest.approx(ends)
