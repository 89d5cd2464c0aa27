"""Sizes of leg bands by the suppliers' convention."""

import pytest

from broodline.trade.bands import band_mm


@pytest.mark.parametrize(("size", "mm"), [(3, 4.76), (4, 6.35), (7, 11.11), (9, 14.29), (12, 19.05)])
def test_sixteenths_of_an_inch(size: int, mm: float) -> None:
    """Size 9 is 14.29 mm, 12 is 19.05 mm."""
    assert band_mm(size) == pytest.approx(mm, abs=5e-3)
