"""Shares of least kinship: Mrode's six birds, and a plain minimiser."""

import numpy as np
import pytest
from scipy.optimize import minimize

from broodline.trade.contributions import least_kin_shares
from broodline.trade.kinship import relationships
from tests.server.trade.pedigrees import MRODE, sure


def test_mrodes_birds() -> None:
    """2/7, 3/7, 0, 2/7, 0, 0 leave 3/14 (computed in closed form)."""
    birds = [str(bird) for bird in range(1, 7)]
    shares, least = least_kin_shares(relationships(sure(MRODE)).kinships(birds, birds))
    assert shares == pytest.approx([2 / 7, 3 / 7, 0, 2 / 7, 0, 0])
    assert least == pytest.approx(3 / 14)


def test_against_a_plain_minimiser() -> None:
    chance = np.random.default_rng(8)
    for _ in range(20):
        drawn = chance.random((6, 9))
        kinships = drawn @ drawn.T / 20
        _, least = least_kin_shares(kinships)
        slow = minimize(
            lambda c, f=kinships: c @ f @ c,
            np.full(6, 1 / 6),
            method="SLSQP",
            bounds=[(0, 1)] * 6,
            constraints={"type": "eq", "fun": lambda c: c.sum() - 1},
        )
        assert least == pytest.approx(slow.fun, abs=1e-4)
        assert least <= slow.fun + 1e-12
