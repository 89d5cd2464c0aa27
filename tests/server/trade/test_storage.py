"""Storage of eggs: slopes of Yassin et al. 2008 (Poult. Sci. 87:2408)."""

import json
from pathlib import Path

import pytest

from broodline.trade.storage import storage_points

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "storage.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_published_slopes_and_nothing_where_nothing_was_read(case) -> None:
    points = storage_points(case["in"]["days"])
    assert points is None if case["out"] is None else points == pytest.approx(case["out"])
