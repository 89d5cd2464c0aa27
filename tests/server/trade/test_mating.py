"""Plans of pens against the best of all plans, and worked examples (computed by going through all of them)."""

from random import Random
from typing import Any

import numpy as np
import pytest
from scipy.optimize import OptimizeResult, milp

from broodline.trade import mating
from broodline.trade.mating import Limits, Pen, compared, mean_f, plan_pens
from tests.server.oracles.every_mating_plan import every_plan

CASES = 300

K = np.array([[4, 2, 8, 6], [2, 1, 8, 8], [8, 4, 2, 1]]) / 32


def test_one_hen_each_is_not_the_greedy_plan() -> None:
    """Smallest first would give .1875."""
    plan = plan_pens(K, Limits(pens=3, hens=1))
    assert plan.pens == (Pen((0,), (1,)), Pen((1,), (0,)), Pen((2,), (3,)))
    assert plan.total == 0.15625


def test_two_hens_each() -> None:
    plan = plan_pens(K, Limits(pens=2, hens=2))
    assert plan.pens == (Pen((1,), (0, 1)), Pen((2,), (2, 3)))
    assert plan.total == 0.1875
    assert mean_f(K, plan.pens[0]) == 0.046875
    assert plan.proved


def test_several_best_plans_have_one_total() -> None:
    """Four cockerels and four pullets of three cocks: least 0, mean .25 / 4 a pair, worst .75."""
    table = np.array([[0.25, 0, 0, 0], [0.125, 0, 0, 0], [0, 0.25, 0.125, 0], [0, 0, 0, 0.25]])
    limits = Limits(pens=4, hens=1)
    plan = plan_pens(table, limits)
    assert plan.total == 0
    against = compared(table, limits, np.ones_like(table, bool))
    assert against.random == 0.25 / 4
    assert against.worst == 0.75 / 4


def test_matings_of_which_nothing_is_known_are_not_compared() -> None:
    """Of two cocks and two hens one hen is not known: .25 and 0 at random, .25 at worst; with no hen known, nothing."""
    table = np.array([[0.25, 0], [0, 0]])
    known = np.array([[True, False], [True, False]])
    against = compared(table, Limits(pens=2, hens=1), known)
    assert (against.random, against.worst) == (0.125, 0.25)
    nothing = compared(np.zeros((2, 2)), Limits(pens=2, hens=1), np.zeros((2, 2), bool))
    assert (nothing.random, nothing.worst) == (None, None)


def test_of_equal_plans_the_least_kin_birds_breed() -> None:
    table = np.zeros((3, 4))
    kinship = np.array([0.2, 0.1, 0.3]), np.array([0.4, 0.1, 0.2, 0.3])
    assert plan_pens(table, Limits(pens=1, hens=2), kinship).pens == (Pen((1,), (1, 2)),)
    assert plan_pens(table, Limits(pens=1, hens=2, cocks=2), kinship).pens == (Pen((0, 1), (1, 2)),)


def test_300_small_tables_by_every_plan() -> None:
    chance = Random(17)
    none = 0
    for _ in range(CASES):
        cocks, hens = chance.randint(2, 4), chance.randint(2, 5)
        table = np.array([[chance.choice([0, 1, 2, 4, 8]) / 32 for _ in range(hens)] for _ in range(cocks)])
        in_pen = 2 if chance.random() < 0.3 else 1
        limits = Limits(
            pens=chance.randint(1, max(1, min(hens, cocks // in_pen))),
            hens=chance.randint(1, 3),
            cocks=in_pen,
            forbidden=frozenset((chance.randrange(cocks), chance.randrange(hens)) for _ in range(chance.randint(0, 4))),
            together=frozenset(
                (chance.randrange(cocks), chance.randrange(hens)) for _ in range(chance.choice([0, 0, 1, 2]))
            ),
            must_cocks=frozenset([chance.randrange(cocks)] if chance.random() < 0.3 else []),
            must_hens=frozenset([chance.randrange(hens)] if chance.random() < 0.3 else []),
            families=tuple(chance.randrange(3) for _ in range(hens)) if chance.random() < 0.4 else None,
        )
        plans = list(
            every_plan(
                table.tolist(),
                pens=limits.pens,
                hens=limits.hens,
                cocks=limits.cocks,
                forbidden=limits.forbidden,
                together=limits.together,
                must_cocks=limits.must_cocks,
                must_hens=limits.must_hens,
                families=limits.families,
            )
        )
        plan = plan_pens(table, limits)
        if not plans:
            none += 1
            assert plan.pens == ()
            assert plan.relax
            continue
        assert plan.total == pytest.approx(min(total for total, _ in plans))
        assert {tuple((pen.cocks, pen.hens) for pen in plan.pens)} <= {tuple(sorted(pens)) for _, pens in plans}
        worst = max(total for total, _ in plans) / sum(len(pen.hens) for pen in plan.pens)
        assert compared(table, limits, np.ones_like(table, bool)).worst == pytest.approx(worst)
    assert CASES / 25 < none < CASES / 2


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        (Limits(pens=4, hens=1), "4 pens of 1 need 4 cocks; there are 3."),
        (Limits(pens=2, hens=1, cocks=2), "2 pens of 2 need 4 cocks; there are 3."),
        (
            Limits(pens=1, hens=2, forbidden=frozenset(np.ndindex(3, 4))),
            "Allow some of the matings that are ruled out.",
        ),
        (Limits(pens=1, hens=2, must_hens=frozenset({0, 1, 2})), "Let more hens go to a pen."),
        (Limits(pens=1, hens=2, must_hens=frozenset({0, 1, 2})), "Do not insist on all of those hens."),
        (Limits(pens=1, hens=2, must_cocks=frozenset({0, 1})), "Do not insist on all of those cocks."),
        (Limits(pens=2, hens=2, together=frozenset({(0, 1), (1, 1)})), "Do not insist on all of those pairs."),
        (Limits(pens=2, hens=2, least_hens=3), "Let a pen have fewer hens."),
        (Limits(pens=3, hens=1, forbidden=frozenset({(0, 0), (0, 1), (0, 2), (0, 3)})), "Make one pen less."),
        (
            Limits(pens=1, hens=2, must_cocks=frozenset({0, 1}), must_hens=frozenset({0, 1, 2})),
            "Several limits stand against each other: allow ruled-out matings and more hens in a pen.",
        ),
    ],
)
def test_a_plan_that_cannot_be_names_what_to_relax(limits: Limits, words: str) -> None:
    plan = plan_pens(K, limits)
    assert plan.pens == ()
    assert words in plan.relax


def test_more_pens_than_hens() -> None:
    assert plan_pens(K[:, :1], Limits(pens=2, hens=1)).relax == ("2 pens need 2 hens; there are 1.",)


def test_where_the_work_is_too_much_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """The programme stops with the best plan so far, or with none; that is no fault of the keeper's limits."""
    table = np.random.default_rng(3).random((4, 8))
    best = plan_pens(table, Limits(pens=2, hens=3))
    solve = milp

    def stopped(*given: Any, **more: Any) -> Any:
        answer = solve(*given, **more)
        answer.status = 1
        return answer

    monkeypatch.setattr(mating, "milp", stopped)
    so_far = plan_pens(table, Limits(pens=2, hens=3))
    assert (so_far.pens, so_far.proved) == (best.pens, False)
    monkeypatch.setattr(mating, "milp", lambda *_, **__: OptimizeResult(x=None, status=1))
    none = plan_pens(table, Limits(pens=2, hens=3))
    assert none.pens == ()
    assert none.relax == ("No plan was found within reasonable work: ask for fewer pens, or for one cock in a pen.",)
    assert compared(table, Limits(pens=2, hens=3), np.ones_like(table, bool)).worst == table.max()
