"""Sex ratios: Hays 1945, Rhode Island Reds 1935-44, yearly counts as printed; exact p by scipy."""

import pytest

from broodline.trade.proportions import wilson
from broodline.trade.sex_ratio import even_p, heterogeneity

MALES = (70, 43, 51, 92, 50, 29, 22, 21, 54)
FEMALES = (78, 45, 47, 85, 48, 28, 22, 34, 51)


def test_hays() -> None:
    """432 of 870 males: p .86540, Wilson .46342 to .52972; years alike: chi-square 4.0936 on 8 df, p .8486."""
    assert (sum(MALES), sum(MALES) + sum(FEMALES)) == (432, 870)
    assert even_p(432, 870) == pytest.approx(0.86540, abs=1e-5)
    assert wilson(432, 870) == pytest.approx((0.46342, 0.52972), abs=1e-5)
    found = heterogeneity(list(zip(MALES, FEMALES, strict=True)))
    assert found is not None
    assert found.chi_square == pytest.approx(4.0936, abs=1e-4)
    assert found.degrees == 8
    assert found.p == pytest.approx(0.8486, abs=1e-4)


@pytest.mark.parametrize(
    ("males", "n", "p"), [(30, 50, 0.2026), (60, 100, 0.0569), (18, 24, 0.02266), (9, 10, 0.02148)]
)
def test_exact_p(males: int, n: int, p: float) -> None:
    assert even_p(males, n) == pytest.approx(p, abs=5e-5)


def test_what_groups_cannot_tell() -> None:
    assert even_p(0, 0) is None
    assert heterogeneity([]) is None
    assert heterogeneity([(3, 4), (0, 0)]) is None
    assert heterogeneity([(3, 0), (4, 0)]) is None
