"""Hatch windows against two slow oracles, and the oracles against published fits.

Breast cosmesis, radiotherapy alone: Finkelstein and Wolfe 1985, Biometrics 41:933-945 (R package KMsurv, bcdeter).
Chickweed: germination of 200 seeds in 35 intervals (R package drc; Ritz, Pipper and Streibig 2013, Eur. J. Agron. 45).
"""

from itertools import pairwise
from math import exp, inf, log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import ndtr

from broodline.trade.hatch_time import Found, Unhatched, fit_hatch, shares_by_look
from tests.server.oracles import never_class, turnbull

COSMESIS = [
    *[(0, 5, 1), (0, 7, 1), (0, 8, 1), (4, 11, 1), (5, 11, 1), (5, 12, 1), (6, 10, 1), (7, 14, 1), (7, 16, 1)],
    *[(11, 15, 1), (11, 18, 1), (17, 25, 2), (18, 26, 1), (19, 35, 1), (25, 37, 1), (26, 40, 1), (27, 34, 1)],
    *[(36, 44, 1), (36, 48, 1), (37, 44, 1)],
    *[(after, inf, 1) for after in (15, 17, 18, 22, 32, 33, 34, 38, 40, 45)],
    *[(24, inf, 2), (36, inf, 2), (37, inf, 3), (46, inf, 8)],
]
ENDS = [
    *[0, 12, 22, 30, 36, 46, 54, 60, 71, 78, 84, 95, 103, 109, 120, 129, 133, 143, 151, 158.5, 169.5, 176.5, 182.5],
    *[192.5, 200.5, 206.5, 216.5, 224.5, 230.5, 241.5, 249.5, 254.5, 266.5, 276.5, 281.5],
]
GERMINATED = {143: 2, 182.5: 3, 192.5: 10, 200.5: 11, 206.5: 6, 216.5: 5, 224.5: 2, 276.5: 1}


def test_turnbull_on_cosmesis() -> None:
    """(4,5] .0463 (6,7] .0334 (7,8] .0887 (11,12] .0708 (24,25] .0926 (33,34] .0818 (38,40] .1209 and .4656 after 46;
    log likelihood -58.06002 (R survfit interval2; Fay and Shaw 2010, J. Stat. Softw. 36).
    """
    assert sum(n for *_, n in COSMESIS) == 46
    # The last interval is printed to 48, where a hospital visit stands.
    upto_48 = [(after, min(by, 48), n) for after, by, n in COSMESIS]
    found = turnbull.masses(upto_48)
    assert [(low, high) for low, high, _ in found] == [
        (4, 5), (6, 7), (7, 8), (11, 12), (24, 25), (33, 34), (38, 40), (46, 48)
    ]  # fmt: skip
    assert [mass for *_, mass in found] == pytest.approx(
        [0.0463, 0.0334, 0.0887, 0.0708, 0.0926, 0.0818, 0.1209, 0.4656], abs=1e-4
    )
    assert turnbull.log_likelihood(upto_48, found) == pytest.approx(-58.06002, abs=1e-4)


def test_never_class_on_chickweed() -> None:
    """Log-logistic: b -20.76739, share .2001092, ED50 196.05299, log likelihood -188.17186 (drc's documented fit)."""
    intervals = [(after, by, GERMINATED.get(by, 0)) for after, by in pairwise(ENDS)]
    assert sum(n for *_, n in intervals) == 40

    def log_logistic(time: float, slope: float, middle: float) -> float:
        return 1 / (1 + exp(slope * (log(time) - log(middle)))) if time > 0 else 0.0

    slope, middle, share, height = never_class.fit(log_logistic, intervals, [(281.5, 160)], (-15, 190, 0.25))
    assert (slope, middle) == pytest.approx((-20.76739, 196.05299), abs=1e-3)
    assert share == pytest.approx(0.2001092, abs=1e-5)
    assert height == pytest.approx(-188.17186, abs=1e-4)


looks = st.lists(st.integers(0, 12), min_size=3, max_size=9).filter(lambda counts: sum(map(bool, counts)) >= 3)


@given(looks)
def test_shares_by_look_are_turnbulls(counts: list[int]) -> None:
    found = [Found(480 + 6 * at if at else None, 486 + 6 * at, n) for at, n in enumerate(counts)]
    spread = turnbull.masses([(one.after_h or -inf, one.by_h or inf, one.n) for one in found if one.n])
    for hour, share in shares_by_look(found):
        assert share == pytest.approx(sum(mass for _, by, mass in spread if by <= hour), abs=1e-6)


@settings(max_examples=20, deadline=None)
@given(looks, st.integers(0, 30))
def test_a_hatch_with_eggs_left_is_the_oracles(counts: list[int], left: int) -> None:
    found = [Found(480 + 6 * at if at else None, 486 + 6 * at, n) for at, n in enumerate(counts)]
    pulled_h = 486 + 6 * len(counts)
    fit = fit_hatch(found, [Unhatched(pulled_h, left)])
    assert fit is not None
    share = min(fit.share, 1 - 1e-9)
    *_, height = never_class.fit(
        lambda time, median, sd: float(ndtr((time - median) / sd)) if sd > 0 else 0.0,
        [(one.after_h or -inf, one.by_h or inf, one.n) for one in found],
        [(pulled_h, left)] if left else [],
        (fit.median_h + 0.5, fit.sd_h * 1.1, share * 0.98),
    )
    assert fit.log_likelihood == pytest.approx(height, abs=1e-4)
