"""Selection: intensities of Falconer's table (from memory, and computed), and of best ones by order statistics."""

import numpy as np
import pytest

from broodline.trade.selection import breeding_value, intensity, intensity_of_best, response


@pytest.mark.parametrize(
    ("percent", "expected"),
    [(1, 2.6652), (5, 2.0627), (10, 1.7550), (20, 1.3998), (25, 1.2711), (30, 1.1590), (50, 0.7979), (80, 0.3500)],
)
def test_large_groups(percent: float, expected: float) -> None:
    assert intensity(percent / 100) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(("kept", "n", "expected"), [(1, 10, 1.5388), (2, 10, 1.2701), (5, 20, 1.2145), (1, 5, 1.1630)])
def test_small_pens(kept: int, n: int, expected: float) -> None:
    assert intensity_of_best(kept, n) == pytest.approx(expected, abs=1e-4)


def test_small_pens_by_drawing_them() -> None:
    drawn = np.sort(np.random.default_rng(7).standard_normal((40_000, 12)), axis=1)
    assert intensity_of_best(3, 12) == pytest.approx(drawn[:, -3:].mean(), abs=0.01)


def test_a_large_pen_is_a_large_group() -> None:
    assert intensity_of_best(500, 500) == 0
    assert intensity_of_best(50, 500) == pytest.approx(intensity(0.10), abs=0.006)


def test_response() -> None:
    """sd 150 g, h2 .4, the best tenth of both sexes: 105.3 g. With a tenth of the cocks and all hens half of it."""
    best = intensity(0.10)
    both = response(heritability=0.4, sd=150, intensity_males=best, intensity_females=best)
    cocks = response(heritability=0.4, sd=150, intensity_males=best, intensity_females=intensity(1))
    assert (both, cocks) == pytest.approx((105.3, 52.65), abs=0.01)
    assert breeding_value(1650, 1700, 0.4) == pytest.approx(-20)


@pytest.mark.parametrize("share", [0, -0.1, 1.1])
def test_no_share(share: float) -> None:
    with pytest.raises(ValueError, match="no share"):
        intensity(share)


@pytest.mark.parametrize(("kept", "n"), [(0, 5), (6, 5), (1, 0)])
def test_no_pen(kept: int, n: int) -> None:
    with pytest.raises(ValueError, match="cannot be kept"):
        intensity_of_best(kept, n)
