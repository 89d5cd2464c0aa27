"""Storage of eggs: slopes of Yassin et al. 2008 (Poult. Sci. 87:2408)."""

import pytest

from broodline.trade.storage import storage_points


@pytest.mark.parametrize(("days", "points"), [(0, 0), (3, 0.6), (7, 1.4), (10, 2.9), (14, 4.9)])
def test_published_slopes(days: float, points: float) -> None:
    assert storage_points(days) == pytest.approx(points)


def test_nothing_is_said_where_nothing_was_read() -> None:
    assert storage_points(14.5) is None
    assert storage_points(-1) is None
