"""The chance of a season's wish against 100,000 simulated seasons, closed forms, and exact fractions."""

from fractions import Fraction
from itertools import product
from math import comb

import numpy as np
import pytest
from scipy.stats import betabinom, binom

from broodline.trade.planning import MOST_EGGS, Share, chance_of, eggs_needed, family_share


@pytest.mark.parametrize(("eggs", "pullets", "cockerels"), [(24, 4, 2), (40, 6, 2), (12, 0, 1), (60, 10, 5)])
def test_within_chance_of_100_000_seasons(eggs: int, pullets: int, cockerels: int) -> None:
    """Four standard errors of a share from 100,000 are at most .0063."""
    steps = [Share(34, 6), Share(20, 9), Share(18, 2)]
    drawn, n = np.random.default_rng(12), np.full(100_000, eggs)
    for step in steps:
        n = drawn.binomial(n, drawn.beta(step.a, step.b, 100_000))
    hens = drawn.binomial(n, 0.5)
    share = ((hens >= pullets) & (n - hens >= cockerels)).mean()
    assert chance_of(eggs, steps, pullets=pullets, cockerels=cockerels) == pytest.approx(share, abs=0.0063)


def test_by_exact_fractions() -> None:
    """Beta(1, 1): each number of chicks from 0 to n alike; then every way the sexes may fall."""
    for eggs, pullets, cockerels in product(range(6), range(3), range(3)):
        expected = sum(
            Fraction(1, eggs + 1) * Fraction(comb(n, hens), 2**n)
            for n in range(eggs + 1)
            for hens in range(n + 1)
            if hens >= pullets and n - hens >= cockerels
        )
        found = chance_of(eggs, [Share(1, 1)], pullets=pullets, cockerels=cockerels)
        assert found == pytest.approx(float(expected))


def test_each_step_is_scipys_beta_binomial() -> None:
    """One step of 30 eggs, and no wish but a number of pullets: the sum over scipy's betabinom."""
    n = np.arange(31)
    expected = float(betabinom.pmf(n, 30, 4.5, 2.5) @ binom.sf(4, n, 0.5))
    assert chance_of(30, [Share(4.5, 2.5)], pullets=5, cockerels=0) == pytest.approx(expected, rel=1e-10)


def test_the_fewest_eggs() -> None:
    steps = [Share(34, 6), Share(20, 9), Share(18, 2)]
    eggs = eggs_needed(steps, pullets=4, cockerels=2, chance=0.9)
    assert eggs is not None
    assert chance_of(eggs, steps, pullets=4, cockerels=2) >= 0.9
    assert chance_of(eggs - 1, steps, pullets=4, cockerels=2) < 0.9
    assert eggs_needed(steps, pullets=0, cockerels=0, chance=0.9) == 0
    assert eggs_needed([Share(1, 1e6)], pullets=4, cockerels=2, chance=0.9) is None
    assert MOST_EGGS == 600


def test_a_family_between_its_own_record_the_flocks_and_the_trades() -> None:
    assert family_share((0, 0), [], 0.75, 8) == Share(6.0, 2.0)
    # Families that do not differ speak for each other: 65 of 104, and 6 of 8.
    alike = [(18, 24), (11, 22), (9, 12), (25, 40), (2, 6)]
    assert family_share((2, 6), alike, 0.75, 8) == Share(6 + 65, 2 + 104 - 65)
    # Families that differ keep their own way: between their share and the pooled one.
    differ = [(22, 24), (9, 22), (30, 36), (14, 30), (5, 6), (17, 24)]
    best, worst = (family_share(own, differ, 0.8, 10) for own in ((22, 24), (9, 22)))
    assert 97 / 142 < best.mean < 22 / 24
    assert 9 / 22 < worst.mean < 97 / 142
