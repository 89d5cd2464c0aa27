"""Sizes of leg bands by the suppliers' convention."""

import json
from pathlib import Path

import pytest

from broodline.trade.bands import band_mm

VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "marks.json").read_text(encoding="utf-8"))["bands"]


@pytest.mark.parametrize(("size", "mm"), [(one["size"], one["mm"]) for one in VECTORS])
def test_sixteenths_of_an_inch(size: int, mm: float) -> None:
    """Size 9 is 14.29 mm, 12 is 19.05 mm (charts of two suppliers); the phone's own from the same file."""
    assert band_mm(size) == pytest.approx(mm, abs=1e-9)
