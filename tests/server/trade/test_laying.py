"""Rates of lay by the example of the ICAR e-course."""

import pytest

from broodline.trade.laying import hen_day_pct, hen_housed_pct


def test_a_day_of_the_e_course() -> None:
    """9,108 eggs of 9,900 hens alive, 10,000 housed: 92.00 and 91.08 %."""
    assert hen_day_pct(9108, 9900) == pytest.approx(92, abs=5e-3)
    assert hen_housed_pct(9108, 10_000, days=1) == pytest.approx(91.08, abs=5e-3)


def test_no_hen_has_no_rate() -> None:
    assert hen_day_pct(0, 0) is None
    assert hen_housed_pct(3, 4, days=0) is None
