"""Tests on k of n against published values, scipy, and plain enumeration."""

import tracemalloc
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import product
from math import comb

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binom, boschloo_exact, chi2_contingency, false_discovery_control, fisher_exact

from broodline.trade import comparisons
from broodline.trade.comparisons import eggs_needed, holm, is_uneven, overall_test, pair_test

ALIKE = [(18, 24), (11, 22), (9, 12), (25, 40), (2, 6)]
APART = [(22, 24), (9, 22), (30, 36), (14, 30), (5, 6), (17, 24)]

small = st.lists(st.integers(0, 5).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), min_size=2, max_size=4)


@contextmanager
def peak() -> Iterator[list[float]]:
    """The most bytes held at once within."""
    most = [0.0]
    comparisons._overall_test.cache_clear()
    tracemalloc.start()
    try:
        yield most
    finally:
        most[0] = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()


def enumerated(counts: list[tuple[int, int]]) -> float:
    """Every table with the same totals, weighed by its count of ways; slow and plain."""
    kept = [(k, n) for k, n in counts if n]
    total = sum(k for k, _ in kept)
    seen = sum(k * k / n for k, n in kept)
    met = ways = 0
    for free in product(*(range(n + 1) for _, n in kept[:-1])):
        ks = (*free, total - sum(free))
        if 0 <= ks[-1] <= kept[-1][1]:
            weight = 1
            for k, (_, n) in zip(ks, kept, strict=True):
                weight *= comb(n, k)
            ways += weight
            if sum(k * k / n for k, (_, n) in zip(ks, kept, strict=True)) >= seen - 1e-9:
                met += weight
    return met / ways


@given(small)
def test_overall_test_is_the_enumeration(counts: list[tuple[int, int]]) -> None:
    found = overall_test(counts)
    if sum(n > 0 for _, n in counts) < 2:
        assert found is None
    else:
        assert found == pytest.approx(enumerated(counts), abs=1e-9)


@settings(max_examples=30)
@given(st.permutations(ALIKE))
def test_overall_test_knows_no_order(families: list[tuple[int, int]]) -> None:
    assert overall_test(families) == overall_test(ALIKE)


def test_five_families_that_do_not_differ() -> None:
    """18/24 11/22 9/12 25/40 2/6: chi-square 6.0444 (p .1959), permutation p .202-.209 (by scipy)."""
    table = [[k for k, _ in ALIKE], [n - k for k, n in ALIKE]]
    assert chi2_contingency(table).statistic == pytest.approx(6.0444, abs=1e-4)
    assert overall_test(ALIKE) == pytest.approx(0.2055, abs=0.005)


def test_six_families_that_differ() -> None:
    """22/24 9/22 30/36 14/30 5/6 17/24: chi-square p .00016 (by scipy); drawn tables, the same each time."""
    found = overall_test(APART)
    assert found == pytest.approx(0.00016, abs=0.0001)
    assert overall_test(APART) == found


@given(small)
def test_uneven_is_what_the_test_says_of_few_eggs(counts: list[tuple[int, int]]) -> None:
    p = overall_test(counts)
    assert is_uneven(counts) == (p is not None and p <= 0.05)


@pytest.mark.parametrize("apart", [0.0, 0.04, 0.06, 0.08, 0.1, 0.2])
def test_uneven_is_what_the_test_says_of_many_eggs(apart: float) -> None:
    """Four and five families too large to list: alike, near 5 % on both sides, and far apart; p by scipy beside it."""
    chance = np.random.default_rng(20_260_301)
    for ns in ([300, 150, 90, 210], [60, 75, 240, 130, 90], [9, 400, 300, 350, 280]):
        for share in (0.04, 0.5, 0.8):
            shares = np.clip(share + apart * (np.arange(len(ns)) / len(ns) - 0.4), 0.01, 0.99)
            counts = [(int(k), n) for k, n in zip(chance.binomial(ns, shares), ns, strict=True)]
            p = overall_test(counts)
            assert p is not None
            assert is_uneven(counts) == (p <= 0.05), (counts, p)
            table = [[k for k, _ in counts], [n - k for k, n in counts]]
            if chi2_contingency(table).expected_freq.min() >= 5:
                assert chi2_contingency(table).pvalue == pytest.approx(p, abs=0.03)


@pytest.mark.parametrize(
    "counts", [[(30, 57), (31, 57), (150, 300)], [(8, 20), (9, 20), (11, 20), (60, 120)], [(150, 300), (2, 4)]]
)
def test_a_large_family_is_no_burden(counts: list[tuple[int, int]]) -> None:
    """The tables of two or three smaller families are listed, and the largest has what is left: few megabytes."""
    with peak() as most:
        found = overall_test(counts)
    assert found == pytest.approx(enumerated(sorted(counts, key=lambda one: one[1])), abs=1e-9)
    assert most[0] < 5e6


def test_the_most_tables_that_are_listed_stay_under_thirty_megabytes() -> None:
    """57^3 tables of three families beside one of 300; 0.8179955 by listing all four, which took 2 GB."""
    with peak() as most:
        found = overall_test([(30, 57), (31, 57), (32, 57), (150, 300)])
    assert found == pytest.approx(0.8179955, abs=1e-6)
    assert most[0] < 30e6


def test_drawn_tables_agree_with_listed_ones(monkeypatch: pytest.MonkeyPatch) -> None:
    listed = overall_test(ALIKE)
    monkeypatch.setattr(comparisons, "MOST_TABLES", 1)
    comparisons._overall_test.cache_clear()
    drawn = overall_test(ALIKE)
    comparisons._overall_test.cache_clear()
    assert drawn == pytest.approx(listed, abs=0.004)


def test_overall_test_without_spread_or_families() -> None:
    assert overall_test([(12, 12), (5, 5)]) == 1.0
    assert overall_test([(0, 12), (0, 5), (0, 0)]) == 1.0
    assert overall_test([(3, 12), (0, 0)]) is None


@pytest.mark.parametrize(
    ("pair", "p"),
    [((56, 70, 48, 80), 0.00884), ((9, 10, 3, 10), 0.00796), ((18, 24, 11, 22), 0.09791)],
)
def test_boschloo(pair: tuple[int, int, int, int], p: float) -> None:
    """scipy.stats.boschloo_exact, values read in its own run beside Fisher's and Barnard's."""
    assert pair_test(*pair) == pytest.approx(p, abs=1e-5)


@settings(max_examples=25)
@given(st.tuples(*[st.integers(1, 25).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))] * 2))
def test_boschloo_is_scipys(pair: tuple[tuple[int, int], tuple[int, int]]) -> None:
    (k1, n1), (k2, n2) = pair
    expected = boschloo_exact([[k1, k2], [n1 - k1, n2 - k2]], n=64).pvalue
    assert pair_test(k1, n1, k2, n2) == pytest.approx(min(1, expected), abs=2e-5)


@pytest.mark.parametrize("pair", [(1, 10_000, 1, 25), (1, 25, 1, 10_000)])
def test_a_pair_of_very_unequal_groups_stays_small(pair: tuple[int, int, int, int]) -> None:
    """Boschloo's p is never over twice Fisher's smaller one-sided p (by scipy), and memory goes by the small group."""
    k1, n1, k2, n2 = pair
    table = [[k1, k2], [n1 - k1, n2 - k2]]
    pair_test.cache_clear()
    with peak() as most:
        found = pair_test(*pair)
    assert 0.001 < found <= 2 * min(fisher_exact(table, alternative=side).pvalue for side in ("less", "greater"))
    assert most[0] < 80e6


def test_large_pairs_fall_back_to_fisher() -> None:
    assert pair_test(400, 600, 350, 600) == pytest.approx(fisher_exact([[400, 350], [200, 250]]).pvalue)


def test_fisher_published() -> None:
    """Fisher's tea [[3,1],[1,3]] .485714; scipy's documented example [[8,2],[1,5]] .034965."""
    assert fisher_exact([[3, 1], [1, 3]]).pvalue == pytest.approx(0.485714, abs=1e-6)
    assert fisher_exact([[8, 2], [1, 5]]).pvalue == pytest.approx(0.034965, abs=1e-6)


def test_holm() -> None:
    """p .01 .04 .03 .005: Holm .03 .06 .06 .02, Benjamini-Hochberg .02 .04 .04 .02 (statsmodels multipletests)."""
    assert holm([0.01, 0.04, 0.03, 0.005]) == pytest.approx([0.03, 0.06, 0.06, 0.02])
    assert false_discovery_control([0.01, 0.04, 0.03, 0.005]) == pytest.approx([0.02, 0.04, 0.04, 0.02])
    assert holm([]) == []
    assert holm([0.9, 0.8]) == [1.0, 1.0]


@given(st.lists(st.floats(0, 1), max_size=8))
def test_holm_never_lowers_a_p(ps: list[float]) -> None:
    adjusted = holm(ps)
    assert all(p <= found <= 1 for p, found in zip(ps, adjusted, strict=True))
    assert [p for _, p in sorted(zip(ps, adjusted, strict=True))] == sorted(adjusted)


def power(one: float, other: float, n: int) -> float:
    """The chance that scipy's Fisher test calls n eggs of each different at 5 %; slow and plain."""
    return float(
        sum(
            binom.pmf(k, n, one) * binom.pmf(j, n, other)
            for k, j in product(range(n + 1), repeat=2)
            if binom.pmf(k, n, one) > 0 and fisher_exact([[k, j], [n - k, n - j]]).pvalue <= 0.05
        )
    )


@pytest.mark.parametrize(("one", "other", "eggs"), [(1, 0, 4), (1, 0.25, 8), (1, 0.5, 12), (0.95, 0.4, 13)])
def test_eggs_needed(one: float, other: float, eggs: int) -> None:
    """No fewer have a power of 80 %: by every table of so many eggs, and of one fewer."""
    assert eggs_needed(one, other) == eggs_needed(other, one) == eggs
    assert power(one, other, eggs) >= 0.8 > power(one, other, eggs - 1)


def test_so_many_eggs_are_called_different_by_the_test_of_the_season() -> None:
    """3 of 3 beside none of 3 is no difference, 4 of 4 beside none of 4 is one: 2 in 20, 2 in 70 tables."""
    assert overall_test([(3, 3), (0, 3)]) == pytest.approx(0.1)
    assert overall_test([(4, 4), (0, 4)]) == pytest.approx(2 / 70)


@pytest.mark.parametrize(("one", "other", "normal"), [(0.80, 0.65, 137), (0.80, 0.70, 292), (0.80, 0.75, 1092)])
def test_many_eggs_needed(one: float, other: float, normal: int) -> None:
    """Normal approximation on the arcsine scale, two-sided 5 %, power 80 % (the first two by statsmodels
    NormalIndPower, the last by hand), and 2 / difference eggs more, which held totals cost."""
    assert eggs_needed(one, other) == pytest.approx(normal + 2 / (one - other), abs=1.5)


def test_no_number_of_eggs_separates_equals() -> None:
    assert eggs_needed(0.7, 0.7) is None
