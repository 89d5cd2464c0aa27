"""Effective size and inbreeding against FAO's draft guidelines of 2012 (Table 8) and textbook examples."""

import pytest

from broodline.trade.effective_size import (
    effective_size,
    inbreeding_rate,
    individual_increase,
    rate_from_pedigree,
    rate_within_families,
    size_over_generations,
)


@pytest.mark.parametrize(
    ("males", "females", "random_pct", "random_size", "within_pct"),
    [(3, 9, 5.6, 8.9, 3.5), (5, 25, 3.0, 16.7, 2.0), (6, 18, 2.8, 17.9, 1.7), (10, 50, 1.5, 33.3, 1.0)],
)
def test_fao_table_8(males: int, females: int, random_pct: float, random_size: float, within_pct: float) -> None:
    """Delta F in percent (and its Ne), mated at random and within families. Sizes are printed from rounded rates."""
    rate = inbreeding_rate(effective_size(males, females))
    within = rate_within_families(males, females)
    assert rate is not None
    assert within is not None
    assert 100 * rate == pytest.approx(random_pct, abs=0.05)
    assert 100 / (2 * random_pct) == pytest.approx(random_size, abs=0.05)
    assert 100 * within == pytest.approx(within_pct, abs=0.05)


@pytest.mark.parametrize(
    ("males", "females", "size", "rate_pct"),
    [
        (25, 25, 50, 1),  # Wageningen textbook 6.15, citing FAO
        (50, 50, 100, 0.5),
        (16, 58, 50.162, 0.9968),  # Pastoralism 2020, s13570-020-00189-8, Table 6
        (21, 145, 73.373, 0.6814),
        (1, 10, 3.6364, 13.75),  # Holsinger, EEB310
        (10, 100, 36.3636, 1.375),
    ],
)
def test_published_sizes(males: int, females: int, size: float, rate_pct: float) -> None:
    assert effective_size(males, females) == pytest.approx(size, abs=1e-3)
    assert 100 * (inbreeding_rate(effective_size(males, females)) or 0) == pytest.approx(rate_pct, abs=1e-4)


def test_a_flock_without_cocks_or_hens_has_no_rate() -> None:
    assert effective_size(0, 9) == effective_size(9, 0) == 0
    assert inbreeding_rate(0) is None
    assert rate_within_families(0, 9) is None
    assert rate_within_families(9, 0) is None


def test_harmonic_mean_of_six_generations() -> None:
    """The arithmetic mean of these is 126.7 (an encyclopedia's example, copied at jgames.co.uk)."""
    assert size_over_generations([10, 100, 50, 80, 20, 500]) == pytest.approx(30.8483, abs=1e-4)
    assert size_over_generations([]) is None
    assert size_over_generations([5, 0]) == 0


def test_individual_increase() -> None:
    """Gutierrez et al. 2009 (from memory): a full-sib line's rate, whichever generation it is read from."""
    found = [individual_increase(f, t) for f, t in [(0.25, 2), (0.375, 3), (0.5, 4)]]
    assert found == [0.25, pytest.approx(0.2094306, abs=1e-7), pytest.approx(0.2063, abs=1e-5)]
    assert individual_increase(0.0, 1) is None
    assert rate_from_pedigree([(0.25, 2), (0.0, 0.5), (0.0, 2)]) == 0.125
    assert rate_from_pedigree([(0.0, 1.0)]) is None


def test_one_son_of_each_cock_against_chance() -> None:
    rate = inbreeding_rate(effective_size(10, 50))
    assert rate == pytest.approx(0.015)
    assert rate_within_families(10, 50) == pytest.approx(0.010)
