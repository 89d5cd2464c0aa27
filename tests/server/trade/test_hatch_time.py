"""Hatch windows: example H1 (scipy's and R's survreg fits), published windows, and simulated hatches."""

from math import inf

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import CensoredData, norm

from broodline.trade.hatch_time import Found, Unhatched, fit_hatch, shares_by_look

H1 = [(None, 492, 2), (492, 496, 5), (496, 500, 14), (500, 504, 20), (504, 508, 11), (508, 512, 4), (512, None, 1)]
H1_FOUND = [Found(*look) for look in H1]


def test_h1_is_scipys_and_rs_fit() -> None:
    """57 chicks at 4 h looks: mu 501.42888, sigma 4.86951, logLik -92.57074 (R survreg interval2, gaussian)."""
    found = fit_hatch(H1_FOUND)
    assert found is not None
    assert (found.median_h, found.sd_h) == pytest.approx((501.42888, 4.86951), abs=2e-4)
    assert found.log_likelihood == pytest.approx(-92.57074, abs=1e-4)
    assert found.spread_h == pytest.approx(16.019, abs=1e-3)
    assert (found.p05_h, found.p95_h) == pytest.approx((493.419, 509.439), abs=1e-3)
    assert found.share == 1


def test_h1_with_eggs_that_never_hatch() -> None:
    """15 never: mu 501.4289, sigma 4.8695, d 57/72. Pulled at 508 h with 20 left: 501.3763, 4.8046, d .78846."""
    late = fit_hatch(H1_FOUND, [Unhatched(inf, 15)])
    assert late is not None
    assert (late.median_h, late.sd_h, late.share) == pytest.approx((501.4289, 4.8695, 57 / 72), abs=2e-4)
    pulled = fit_hatch(H1_FOUND[:5], [Unhatched(508, 20)])
    assert pulled is not None
    assert (pulled.median_h, pulled.sd_h, pulled.share) == pytest.approx((501.3763, 4.8046, 0.78846), abs=2e-4)


def test_h1_shares() -> None:
    """NPMLE with common looks: .0351 .1228 .3684 .7193 .9123 .9825."""
    shares = shares_by_look(H1_FOUND)
    assert [hour for hour, _ in shares] == [492, 496, 500, 504, 508, 512]
    assert [share for _, share in shares] == pytest.approx([0.0351, 0.1228, 0.3684, 0.7193, 0.9123, 0.9825], abs=5e-5)
    assert shares_by_look([Found(None, 492, 0)]) == []


def test_without_never_it_is_scipys_censored_fit() -> None:
    rng = np.random.default_rng(11)
    hours = rng.normal(500, 8, 60)
    looks = np.arange(470, 541, 5.0)
    counts = np.histogram(hours, [-1e9, *looks])[0]
    found = [Found(None, looks[0], int(counts[0]))]
    found += [Found(a, b, int(n)) for a, b, n in zip(looks, looks[1:], counts[1:], strict=False)]
    fit = fit_hatch(found)
    assert fit is not None
    low = [[one.after_h, one.by_h] for one in found[1:] for _ in range(one.n)]
    expected = norm.fit(CensoredData(left=[looks[0]] * found[0].n, interval=low))
    assert (fit.median_h, fit.sd_h) == pytest.approx(expected, abs=2e-3)


@pytest.mark.parametrize(
    ("first", "last", "window"),
    [(473.12, 520.46, 47.34), (467.87, 510.72, 42.85), (464.24, 505.31, 41.07), (459.13, 498.55, 39.42)],
)
def test_published_windows_lie_inside_the_fit(first: float, last: float, window: float) -> None:
    """Windows of broilers, last less first chick (PMC10446711 T2): a smooth hatch over it, looked at every hour."""
    assert last - first == pytest.approx(window, abs=0.01)
    middle, sd = (first + last) / 2, window / 5
    looks = [first - 1 + hour for hour in range(int(window) + 3)]
    shares = norm.cdf(looks, middle, sd)
    found = [Found(None, looks[0], 0)]
    found += [
        Found(a, b, round(1000 * (high - low)))
        for a, b, low, high in zip(looks, looks[1:], shares, shares[1:], strict=False)
    ]
    fit = fit_hatch(found)
    assert fit is not None
    assert fit.median_h == pytest.approx(middle, abs=0.5)
    assert fit.spread_h < window


@pytest.mark.parametrize(
    "found",
    [
        [],
        [Found(None, 500, 12)],
        [Found(490, 500, 12), Found(500, 510, 0)],
        [Found(None, 500, 5), Found(500, 510, 7)],
        [Found(500, 510, 5), Found(490, 500, 7)],
    ],
)
def test_looks_that_cannot_tell_a_spread(found: list[Found]) -> None:
    assert fit_hatch(found) is None


def test_two_intervals_apart_can() -> None:
    fit = fit_hatch([Found(480, 490, 5), Found(510, 520, 5)])
    assert fit is not None
    assert fit.median_h == pytest.approx(500, abs=1e-3)


@given(
    st.lists(st.integers(0, 9), min_size=3, max_size=9),
    st.lists(st.tuples(st.floats(450, 600), st.integers(0, 20)), max_size=3),
    st.booleans(),
)
def test_any_counts_give_a_fit_or_none(counts: list[int], waiting: list[tuple[float, int]], known: bool) -> None:
    found = [Found(480 + 6 * i if i or known else None, 486 + 6 * i, n) for i, n in enumerate(counts)]
    fit = fit_hatch(found, [Unhatched(at, n) for at, n in waiting])
    if fit is not None:
        assert fit.sd_h > 0
        assert 0 < fit.share <= 1
        assert fit.p05_h <= fit.median_h <= fit.p95_h
