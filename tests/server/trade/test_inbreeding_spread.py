"""Mean, least, greatest F and the chance over a limit: by every way, and by draws held against every way."""

from random import Random

import pytest
from scipy.stats import binomtest

from broodline.trade import inbreeding_spread
from broodline.trade.inbreeding_spread import Spread, bird_spreads, spreads
from broodline.trade.kin import kin_of
from broodline.trade.kinship import relationships
from tests.server.oracles.kin_by_hand import every_way, kinship_in
from tests.server.trade.pedigrees import drawn, uncertain
from tests.server.trade.test_kinship import GROUP


def test_the_group_pens_spread() -> None:
    """Over the 36 ways F of C1 x C2 runs from .09375 to .3125, and is at least a quarter in one of six."""
    (found,) = spreads(uncertain(GROUP), [("C1", "C2")], 0.25, seed=1)
    assert (found.draws, found.error) == (None, None)
    assert found.mean == pytest.approx(0.1684028, abs=1e-7)
    assert (found.low, found.high) == (0.09375, 0.3125)
    assert found.over == pytest.approx(1 / 6)


def test_draws_lie_within_chance_of_every_way(monkeypatch: pytest.MonkeyPatch) -> None:
    exact = spreads(uncertain(GROUP), [("C1", "C2"), ("C1", "C3")], 0.25, seed=1)
    monkeypatch.setattr(inbreeding_spread, "MOST_WAYS", 1)
    monkeypatch.setattr(inbreeding_spread, "_AT_ONCE", 30_000)
    by_draws = spreads(uncertain(GROUP), [("C1", "C2"), ("C1", "C3")], 0.25, seed=1, draws=20_000)
    assert by_draws[0].draws == 20_000
    for drawn_one, one in zip(by_draws, exact, strict=True):
        assert drawn_one.mean == pytest.approx(one.mean, abs=0.003)
        assert drawn_one.over == pytest.approx(one.over, abs=0.012)
        assert (drawn_one.low, drawn_one.high) == (one.low, one.high)
        assert abs(drawn_one.over - one.over) <= (drawn_one.error or 0)
    assert by_draws == spreads(uncertain(GROUP), [("C1", "C2"), ("C1", "C3")], 0.25, seed=1, draws=20_000)


def test_the_error_of_a_chance_counted_in_draws() -> None:
    """A binomial interval from scipy for 10,000 draws, beside the error told: 16 in 100, and none at all."""
    some, none = (Spread(0.1, 0.0, 0.2, over, 10_000) for over in (0.16, 0.0))
    interval = binomtest(1600, 10_000).proportion_ci(method="wilson")
    assert some.error == pytest.approx((interval.high - interval.low) / 2, rel=0.01)
    assert none.error == pytest.approx(1 - 0.05 ** (1 / 10_000), rel=0.01)


def test_draws_are_fewer_the_more_forebears_there_are(monkeypatch: pytest.MonkeyPatch) -> None:
    """So that the work has an end, but never under 1,000; and where many matings are few ways, all are gone through."""
    pedigree, mating = uncertain(GROUP), [("C1", "C2")]
    monkeypatch.setattr(inbreeding_spread, "MOST_WAYS", 1)
    assert spreads(pedigree, mating, 0.25, seed=1)[0].draws == 10_000
    monkeypatch.setattr(inbreeding_spread, "MOST_WORK", 400_000)
    assert 1000 < (spreads(pedigree, mating, 0.25, seed=1)[0].draws or 0) < 10_000
    monkeypatch.setattr(inbreeding_spread, "MOST_WORK", 1)
    assert spreads(pedigree, mating, 0.25, seed=1)[0].draws == 1000


def test_matings_of_one_table_by_every_way_each() -> None:
    """All matings at once give what each gives alone: also of birds of the same candidates, and of forebears."""
    chance = Random(21)
    for _ in range(60):
        candidates = drawn(chance, 7, 1)
        pedigree = uncertain(candidates)
        names = list(candidates)
        matings = [(one, other) for one in names[:4] for other in names[2:] if one != other]
        together = spreads(pedigree, matings, 0.2, seed=1)
        for (one, other), found in zip(matings, together, strict=True):
            ways = [(p, kinship_in(sure, one, other)) for p, sure in every_way(candidates)]
            assert found.draws is None
            assert found.mean == pytest.approx(sum(p * f for p, f in ways))
            assert found.over == pytest.approx(sum(p for p, f in ways if f >= 0.2 - 1e-9))


def test_600_small_pedigrees_by_every_way() -> None:
    chance = Random(9)
    for _ in range(600):
        candidates = drawn(chance, 7, chance.randint(1, 2))
        pair = (chance.choice("3456"), chance.choice("3456"))
        pedigree = uncertain(candidates)
        (found,) = spreads(pedigree, [pair], 0.2, seed=1)
        ways = [(p, kinship_in(sure, *pair)) for p, sure in every_way(candidates)]
        assert found.mean == pytest.approx(sum(p * f for p, f in ways))
        assert found.mean == pytest.approx(relationships(pedigree).kinship(*pair))
        assert found.low == pytest.approx(min(f for _, f in ways))
        assert found.high == pytest.approx(max(f for _, f in ways))
        assert found.over == pytest.approx(sum(p for p, f in ways if f >= 0.2 - 1e-9))


def test_the_group_pens_birds_by_themselves() -> None:
    """X's own F is that of the mating it came from; C1 and C2 are of the same candidates, C1 x C2 of others."""
    pedigree = uncertain(GROUP)
    x, c1, c2, founder = bird_spreads(pedigree, ["X", "C1", "C2", "G1"], 0.25, kin_of(pedigree), seed=1)
    (mating,) = spreads(pedigree, [("C1", "C2")], 0.25, seed=1)
    assert (x.mean, x.low, x.high, x.over) == pytest.approx((mating.mean, mating.low, mating.high, mating.over))
    assert c1 == c2
    # Of six pairs, half brother S1 or S2 with H3 (who shares G1) gives .125; the others nothing: 2 / 6 x .125.
    assert (c1.mean, c1.low, c1.high) == pytest.approx((0.0416667, 0, 0.125), abs=1e-7)
    assert (founder.mean, founder.low, founder.high, founder.over) == (0, 0, 0, 0)
