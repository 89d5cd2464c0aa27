"""Survival against the 6-MP trial of Freireich et al. 1963 (as in textbooks; R survfit, survdiff), lifelines and scipy.

LIFELINES: what KaplanMeierFitter of lifelines 0.30.3 printed for the same fates (day, at risk, lost, share alive, 95 %
interval), kept here because that library brings 436 MB with it. Its column of share alive is rounded to six digits.
"""

import warnings
from typing import Any

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


def test_who_loses_more_goes_by_every_day_and_not_by_the_last() -> None:
    """130 each: 65 of the first die on day 1, 66 of the other on day 100. Of the first 65 / 2 + 66 x 65 / 195 were to
    be expected: 10.5 more died, though fewer of the other are left.
    """
    early = [Fate(1, 65, died=True), Fate(120, 65, died=False)]
    late = [Fate(100, 66, died=True), Fate(120, 64, died=False)]
    one, other = log_rank(early, late), log_rank(late, early)
    assert one is not None
    assert other is not None
    assert (one.first_lost_more, other.first_lost_more) == (True, False)
    assert survival(early)[-1].rate > survival(late)[-1].rate


def test_the_median_is_the_day_on_which_just_half_are_left() -> None:
    """S(t) at most one half, as Kaplan and Meier 1958 and R's survfit have it where the curve meets one half."""
    assert median_day(survival([Fate(3, 1, died=True), Fate(9, 1, died=False)])) == 3
    assert median_day(survival([Fate(3, 7, died=True), Fate(5, 4, died=True), Fate(9, 11, died=False)])) == 5
    assert median_day(survival([Fate(3, 7, died=True), Fate(5, 3, died=True), Fate(9, 11, died=False)])) is None


def test_log_rank() -> None:
    """Chi-square 16.79294, p 4.1688e-5; scipy's z is -4.097919."""
    found = log_rank(SIX_MP, PLACEBO)
    assert found is not None
    assert found.chi_square == pytest.approx(16.792941, abs=1e-5)
    assert found.p == pytest.approx(4.1688e-5, abs=1e-9)
    assert not found.first_lost_more
    assert log_rank(SIX_MP, []) is None
    assert log_rank(SIX_MP[9:], SIX_MP[9:]) is None


def test_nobody_and_everybody() -> None:
    assert survival([]) == []
    assert survival([Fate(3, 12, died=False)]) == []
    assert survival([Fate(3, 0, died=True), Fate(5, 9, died=False)]) == []
    (last,) = survival([Fate(2, 4, died=True)])
    assert (last.at_risk, last.died, last.rate, last.low, last.high) == (4, 4, 0, None, None)


BROOD = [Fate(1, 2, died=True), Fate(3, 1, died=True), Fate(5, 3, died=False), Fate(9, 1, died=True)]
BROOD += [Fate(12, 1, died=False), Fate(20, 2, died=True), Fate(28, 10, died=False)]
"""A brood of 20: three sold on day 5, one culled on day 12, ten alive on day 28."""
LIFELINES: dict[str, tuple[list[Fate], list[tuple[Any, ...]]]] = {
    "6-MP": (SIX_MP, [
        (6, 21, 3, 0.857143, 0.619718, 0.951552), (7, 17, 1, 0.806723, 0.563147, 0.922809),
        (10, 15, 1, 0.752941, 0.5032, 0.889362), (13, 12, 1, 0.690196, 0.43161, 0.849066),
        (16, 11, 1, 0.627451, 0.367511, 0.804912), (22, 7, 1, 0.537815, 0.267779, 0.746791),
        (23, 6, 1, 0.448179, 0.188052, 0.680143),
    ]),
    "placebo": (PLACEBO, [
        (1, 21, 2, 0.904762, 0.670046, 0.975294), (2, 19, 2, 0.809524, 0.568905, 0.923889),
        (3, 17, 1, 0.761905, 0.519391, 0.893257), (4, 16, 2, 0.666667, 0.42535, 0.825044),
        (5, 14, 2, 0.571429, 0.337977, 0.749241), (8, 12, 4, 0.380952, 0.183067, 0.577789),
        (11, 8, 2, 0.285714, 0.116561, 0.48182), (12, 6, 2, 0.190476, 0.059482, 0.377435),
        (15, 4, 1, 0.142857, 0.035657, 0.321162), (17, 3, 1, 0.095238, 0.016259, 0.26125),
        (22, 2, 1, 0.047619, 0.003324, 0.197045), (23, 1, 1, 0.0, None, None),
    ]),
    "brood": (BROOD, [
        (1, 20, 2, 0.9, 0.656031, 0.97401), (3, 18, 1, 0.85, 0.60379, 0.948996),
        (9, 14, 1, 0.789286, 0.528596, 0.91592), (20, 12, 2, 0.657738, 0.384984, 0.83204),
    ]),
}  # fmt: skip


@pytest.mark.parametrize("name", LIFELINES)
def test_every_step_and_interval_is_that_of_lifelines(name: str) -> None:
    group, printed = LIFELINES[name]
    curve = survival(group)
    assert [(step.day, step.at_risk, step.died) for step in curve] == [row[:3] for row in printed]
    assert [step.rate for step in curve] == pytest.approx([row[3] for row in printed], abs=1e-6)
    for step, row in zip(curve, printed, strict=True):
        if row[4] is None:
            assert (step.low, step.high) == (None, None), "lifelines prints 0 where nobody is left"
        else:
            assert (step.low, step.high) == pytest.approx(row[4:], abs=1e-6)


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
