"""Shrinkage against the rat tumours, the batting averages and two flock-size examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import minimize
from scipy.special import betaln
from scipy.stats import beta

from broodline.trade.proportions import wilson
from broodline.trade.shrinkage import best_probability, shrink
from tests.server.oracles.shrink_otherwise import by_moments, james_stein

RATS = [
    *[(0, 20)] * 7, *[(0, 19)] * 4, *[(0, 18)] * 2, (0, 17), *[(1, 20)] * 4, *[(1, 19)] * 2, *[(1, 18)] * 2,
    (2, 25), (2, 24), (2, 23), *[(2, 20)] * 6, (1, 10), (5, 49), (2, 19), (5, 46), (3, 27), (2, 17), (7, 49), (7, 47),
    *[(3, 20)] * 2, (2, 13), (9, 48), (10, 50), *[(4, 20)] * 7, (10, 48), *[(4, 19)] * 3, (5, 22), (11, 46), (12, 49),
    *[(5, 20)] * 2, (6, 23), (5, 19), (6, 22), *[(6, 20)] * 3, (16, 52), (15, 47), (15, 46), (9, 24), (4, 14),
]  # fmt: skip
BATTING = [(hits, 45) for hits in (18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7)]
APART = [(22, 24), (9, 22), (30, 36), (14, 30), (5, 6), (17, 24)]
ALIKE = [(18, 24), (11, 22), (9, 12), (25, 40), (2, 6)]


def test_rat_tumours() -> None:
    """Gelman, BDA ch. 5: 71 experiments (the first 70 sum to 263/1725). Marginal ML alpha 2.3416, beta 14.1148."""
    assert (sum(k for k, _ in RATS[:-1]), sum(n for _, n in RATS[:-1])) == (263, 1725)
    found = shrink(RATS)
    assert found is not None
    assert (found.alpha, found.beta) == pytest.approx((2.3416, 14.1148), abs=5e-4)
    by_count = {count: one.rate for count, one in zip(RATS, found.families, strict=True)}
    assert by_count[4, 14] == pytest.approx(0.20822, abs=1e-4)
    assert by_count[0, 20] == pytest.approx(0.06423, abs=1e-4)
    assert by_count[16, 52] == pytest.approx(0.26793, abs=1e-4)


def test_batting_averages() -> None:
    """Efron and Morris 1975: beta-binomial ML alpha 210.56, beta 582.71, Clemente .2727, last .2595."""
    found = shrink(BATTING)
    assert found is not None
    assert (found.alpha, found.beta) == pytest.approx((210.56, 582.71), rel=2e-3)
    assert (found.families[0].rate, found.families[-1].rate) == pytest.approx((0.2727, 0.2595), abs=1e-4)


def test_rat_tumours_by_moments() -> None:
    """BDA ch. 5: alpha 1.4, beta 8.6 from the first 70, so that 4 of 14 becomes .223; the likelihood gives .208."""
    alpha, beta_ = by_moments(RATS[:-1])
    assert (alpha, beta_) == pytest.approx((1.3778, 8.7524), abs=5e-4)
    assert (alpha + 4) / (alpha + beta_ + 14) == pytest.approx(0.223, abs=1e-3)
    found = shrink(RATS)
    assert found is not None
    assert found.families[-1].rate == pytest.approx(0.223, abs=0.02)


def test_batting_averages_by_james_and_stein() -> None:
    """Efron and Morris 1977: factor .212, Clemente .400 to .294, Alvis .156 to .242; the likelihood draws further."""
    printed = [0.400, 0.378, 0.356, 0.333, 0.311, 0.311, 0.289, 0.267, 0.244, 0.244]
    printed += [0.222, 0.222, 0.222, 0.222, 0.222, 0.200, 0.178, 0.156]
    assert printed == [round(hits / at_bats, 3) for hits, at_bats in BATTING]
    factor, drawn = james_stein(printed, 45)
    assert factor == pytest.approx(0.2124, abs=1e-4)
    assert (drawn[0], drawn[-1]) == pytest.approx((0.294, 0.242), abs=5e-4)
    found = shrink(BATTING)
    assert found is not None
    assert drawn[-1] < found.families[-1].rate < found.families[0].rate < drawn[0]


def test_families_that_differ() -> None:
    """Flock-size example (computed by grid and by ML): alpha 4.7809, beta 2.1869, intervals as listed."""
    found = shrink(APART)
    assert found is not None
    assert (found.alpha, found.beta) == pytest.approx((4.7809, 2.1869), abs=2e-4)
    assert [one.rate for one in found.families] == pytest.approx(
        [0.8648, 0.4757, 0.8095, 0.5080, 0.7542, 0.7033], abs=1e-4
    )
    limits = [(one.low, one.high) for one in found.families]
    for seen, expected in zip(
        limits,
        [(0.726, 0.959), (0.300, 0.655), (0.681, 0.911), (0.350, 0.666), (0.498, 0.937), (0.534, 0.848)],
        strict=True,
    ):
        assert seen == pytest.approx(expected, abs=6e-4)


def test_families_that_do_not_differ_share_one_rate() -> None:
    """18/24 11/22 9/12 25/40 2/6: the estimated spread is zero, every family at 65/104 = .625."""
    found = shrink(ALIKE)
    assert found is not None
    assert found.alpha is None
    assert found.beta is None
    assert {one.rate for one in found.families} == {0.625}
    assert (found.families[0].low, found.families[0].high) == wilson(65, 104)


@given(st.lists(st.integers(1, 40).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), min_size=1, max_size=6))
def test_shrunk_rates_are_shares_and_no_climber_gets_higher(counts: list[tuple[int, int]]) -> None:
    found = shrink(counts)
    assert found is not None
    middle = found.alpha / (found.alpha + found.beta) if found.alpha and found.beta else found.pooled
    for (k, n), one in zip(counts, found.families, strict=True):
        assert 0 <= one.low <= one.high <= 1
        assert min(k / n, middle) - 1e-9 <= one.rate <= max(k / n, middle) + 1e-9

    def fall(point: list[float]) -> float:
        a, b = abs(point[0]) + 1e-9, abs(point[1]) + 1e-9
        return -float(sum(betaln(a + k, b + n - k) - betaln(a, b) for k, n in counts))

    start = [20 * found.pooled + 0.1, 20 * (1 - found.pooled) + 0.1]
    if found.alpha and found.beta:
        start = [found.alpha, found.beta]
    other = minimize(fall, start, method="Nelder-Mead", options={"maxiter": 400})
    assert found.log_likelihood >= -other.fun - 1e-5


def test_shrinking_nothing_one_and_extremes() -> None:
    assert shrink([]) is None
    alone = shrink([(5, 10)])
    assert alone is not None
    assert (alone.alpha, alone.families[0].rate) == (None, 0.5)
    none = shrink([(0, 10), (0, 4)])
    assert none is not None
    assert {one.rate for one in none.families} == {0.0}
    split = shrink([(10, 10), (0, 10)])
    assert split is not None
    assert split.families[0].rate > 0.99
    assert (split.families[0].low, split.families[0].high) == wilson(10, 10)


def test_chance_of_being_best() -> None:
    """18/24 against 11/22 by quadrature: flat prior .95735, prior Beta(8, 4) .92650."""
    pair = [(18, 24), (11, 22)]
    assert best_probability(pair, 1, 1)[0] == pytest.approx(0.95735, abs=1e-5)
    assert best_probability(pair, 8, 4)[0] == pytest.approx(0.92650, abs=1e-5)
    assert best_probability(ALIKE, None, None) == [0.2] * 5


def test_chance_of_being_best_is_the_integral() -> None:
    chances = best_probability(APART, 4.7809, 2.1869)
    after = [(4.7809 + k, 2.1869 + n - k) for k, n in APART]

    def first_is_best(x: float) -> float:
        rest = 1.0
        for one in after[1:]:
            rest *= beta.cdf(x, *one)
        return float(beta.pdf(x, *after[0]) * rest)

    assert sum(chances) == pytest.approx(1)
    assert chances[0] == pytest.approx(quad(first_is_best, 0, 1)[0], abs=1e-6)


def test_many_eggs_go_by_gamma_functions_to_the_same_place() -> None:
    by_steps, by_gamma = shrink([(1500, 2000), (1000, 2000)]), shrink([(1501, 2001), (1001, 2001)])
    assert by_steps is not None
    assert by_gamma is not None
    assert by_gamma.alpha == pytest.approx(by_steps.alpha, rel=2e-3)
    alike = shrink([(30_000, 50_000), (3_000, 5_000), (6, 10)])
    assert alike is not None
    assert alike.alpha is None
