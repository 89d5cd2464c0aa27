"""Pens of several cocks: the search against all plans there are, and against the flock it once was lost in."""

from random import Random
from typing import Any

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment, milp

from broodline.trade import mating, mating_search
from broodline.trade.mating import Limits, mean_f, plan_pens
from broodline.trade.mating_search import Asked, search_pens
from tests.server.oracles.every_mating_plan import every_plan


def kin_flock() -> mating.Matrix:
    """17 cocks and 34 hens of four families: .25 within a family, .0625 with its neighbour, else nothing."""
    chance = np.random.default_rng(11)
    apart = np.abs(chance.integers(4, size=17)[:, None] - chance.integers(4, size=34)[None, :])
    return np.array([0.25, 0.0625, 0.0, 0.0])[apart] + chance.random((17, 34)) / 100


def test_seventeen_cocks_and_thirty_four_hens_in_three_pens_of_two() -> None:
    """Exchanged by hand no plan of the answer is bettered, and it is far under mating at random."""
    table = kin_flock()
    limits = Limits(pens=3, hens=12, cocks=2)
    plan = plan_pens(table, limits)
    assert [len(pen.cocks) for pen in plan.pens] == [2, 2, 2]
    assert sorted(hen for pen in plan.pens for hen in pen.hens) == list(range(34))
    assert plan.total / 34 < 0.5 * table.mean()
    for at, one in enumerate(plan.pens):
        for other in plan.pens[:at]:
            for mine in one.hens:
                for theirs in other.hens:
                    was = mean_f(table[:, [mine]], mating.Pen(one.cocks, (0,)))
                    was += mean_f(table[:, [theirs]], mating.Pen(other.cocks, (0,)))
                    now = mean_f(table[:, [theirs]], mating.Pen(one.cocks, (0,)))
                    now += mean_f(table[:, [mine]], mating.Pen(other.cocks, (0,)))
                    assert now >= was - 1e-6
    best = min(
        sum(table[np.ix_(cocks, hens)].mean() * len(hens) for cocks, hens in found)
        for seed in range(4)
        if (found := search_pens(table, Asked(3, 12, 11, 2), seed=seed)) is not None
    )
    assert plan.total <= best + 0.02
    assert plan_pens(table, limits) == plan


def test_no_places_are_gone_through_for_hens_that_nobody_has(monkeypatch: pytest.MonkeyPatch) -> None:
    """A thousand hens a pen, asked for among 34: the plan of 34 a pen, through tables of no more places."""
    table, widest = kin_flock(), 0

    def seen(side: mating.Matrix) -> Any:
        nonlocal widest
        widest = max(widest, side.shape[1])
        return linear_sum_assignment(side)

    monkeypatch.setattr(mating_search, "linear_sum_assignment", seen)
    monkeypatch.setattr(mating_search, "LEAST_TABLES", 40)
    monkeypatch.setattr(mating_search, "WORK", 0)
    assert search_pens(table, Asked(3, 1000, 11, 2)) == search_pens(table, Asked(3, 34, 11, 2))
    assert widest == 3 * 34


def test_one_seed_one_plan() -> None:
    table = kin_flock()
    asked = Asked(3, 12, 11, 2, forbidden=frozenset({(0, 0)}), must_cocks=frozenset({16}))
    assert search_pens(table, asked, seed=5) == search_pens(table, asked, seed=5)


def test_small_tables_by_every_plan() -> None:
    """The search alone finds the best of all plans, with whatever limits, or none where there is none."""
    chance = Random(23)
    none = 0
    for _ in range(40):
        cocks, hens = chance.randint(4, 5), chance.randint(2, 5)
        table = np.array([[chance.choice([0, 1, 2, 4, 8]) / 32 for _ in range(hens)] for _ in range(cocks)])
        places = chance.randint(1, 3)
        forbidden = frozenset((chance.randrange(cocks), chance.randrange(hens)) for _ in range(chance.randint(0, 4)))
        together = frozenset((chance.randrange(cocks), chance.randrange(hens)) for _ in range(chance.randint(0, 1)))
        must_cocks, must_hens = frozenset({chance.randrange(cocks)}), frozenset({chance.randrange(hens)})
        limits: dict[str, Any] = {
            "forbidden": forbidden,
            "together": together,
            "must_cocks": must_cocks,
            "must_hens": must_hens,
        }
        totals = [total for total, _ in every_plan(table.tolist(), pens=2, hens=places, cocks=2, **limits)]
        least = max(1, min(2 * places, hens) // 2)
        found = search_pens(table, Asked(2, places, least, 2, **limits))
        if not totals:
            none += 1
            assert found is None
            continue
        assert found is not None
        assert sum(table[np.ix_(c, h)].mean() * len(h) for c, h in found) == pytest.approx(min(totals))
    assert 0 < none < 20


def test_small_tables_with_the_families_apart_by_every_plan() -> None:
    """The search alone finds the best of all plans that give each family as many pens."""
    chance, tried = Random(29), 0
    for _ in range(40):
        cocks, hens, places = chance.randint(4, 6), chance.randint(3, 6), chance.randint(1, 3)
        table = np.array([[chance.choice([0, 1, 2, 4, 8]) / 32 for _ in range(hens)] for _ in range(cocks)])
        families = (0, 1, *(chance.randrange(2) for _ in range(hens - 2)))
        limits: dict[str, Any] = {
            "forbidden": frozenset((chance.randrange(cocks), chance.randrange(hens)) for _ in range(3)),
            "together": frozenset({(chance.randrange(cocks), chance.randrange(hens))} if chance.random() < 0.3 else ()),
            "families": families,
        }
        totals = [total for total, _ in every_plan(table.tolist(), pens=2, hens=places, cocks=2, **limits)]
        least = min(places, *(families.count(family) for family in (0, 1)))
        found = search_pens(table, Asked(2, places, least, 2, pens_of=(0, 1), **limits))
        if not totals:
            assert found is None
            continue
        tried += 1
        assert found is not None
        assert all(len({families[hen] for hen in pen}) == 1 for _, pen in found)
        assert sum(table[np.ix_(c, h)].mean() * len(h) for c, h in found) == pytest.approx(min(totals))
    assert tried > 25


def test_families_apart_with_two_cocks_a_pen_are_searched_and_not_said_to_be_proved(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The programme needs many times as long as a keeper waits: 16 s were measured for four families."""
    monkeypatch.setattr(mating, "milp", None)  # reaching for it fails
    table = kin_flock()
    families = tuple(int(one) for one in np.random.default_rng(5).integers(4, size=34))
    plan = plan_pens(table, Limits(pens=5, hens=8, cocks=2, families=families))
    assert not plan.proved
    assert len(plan.pens) == 5
    assert {families[hen] for pen in plan.pens for hen in pen.hens} == {0, 1, 2, 3}
    for pen in plan.pens:
        assert len(pen.cocks) == 2
        assert len({families[hen] for hen in pen.hens}) == 1
    assert plan.total / sum(len(pen.hens) for pen in plan.pens) < 0.5 * table.mean()


def test_the_answer_does_not_hang_on_the_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """A programme is given branches to go through, no seconds."""
    given: list[dict[str, Any]] = []

    def seen(*args: Any, **more: Any) -> Any:
        given.append(dict(more["options"]))
        return milp(*args, **more)

    monkeypatch.setattr(mating, "milp", seen)
    plan_pens(kin_flock()[:4, :6], Limits(pens=2, hens=3))
    assert given
    assert all("time_limit" not in one and one["node_limit"] > 0 for one in given)


def test_more_cocks_to_be_used_than_places_is_no_plan() -> None:
    table = np.zeros((4, 4))
    assert search_pens(table, Asked(pens=1, hens=2, least=1, cocks=2, must_cocks=frozenset({0, 1, 2}))) is None


@pytest.mark.parametrize("tables", [3, 40])
def test_with_hardly_any_work_allowed_the_plan_still_keeps_the_limits(
    monkeypatch: pytest.MonkeyPatch, tables: int
) -> None:
    """So few tables that a round of exchanges is cut off; it is a plan, and no better than one with all the work."""
    table = np.random.default_rng(3).random((8, 12)) / 4
    asked = Asked(pens=3, hens=4, least=4, cocks=2, forbidden=frozenset({(0, 0)}))

    def mean(pens: Any) -> float:
        return float(np.mean([table[np.ix_(cocks, hens)].mean() for cocks, hens in pens]))

    whole = search_pens(table, asked)
    monkeypatch.setattr("broodline.trade.mating_search.LEAST_TABLES", tables)
    monkeypatch.setattr("broodline.trade.mating_search.WORK", 0)
    hasty = search_pens(table, asked)
    assert whole
    assert hasty
    assert [(len(cocks), len(hens)) for cocks, hens in hasty] == [(2, 4)] * 3
    assert not any(0 in cocks and 0 in hens for cocks, hens in hasty)
    assert mean(whole) <= mean(hasty)
