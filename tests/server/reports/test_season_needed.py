"""How many eggs a season calls for to settle what it could not tell."""

import pytest

from tests.server.reports.test_season import report, season_of


@pytest.mark.parametrize(("most", "least", "needed"), [((3, 3), (0, 3), 4), ((4, 4), (1, 4), 8), ((6, 6), (3, 6), 12)])
def test_never_fewer_eggs_are_called_for_than_were_set(
    most: tuple[int, int], least: tuple[int, int], needed: int
) -> None:
    """Eggs by every table of so many (test_comparisons): 2, 4 and 6 were called for, which have a power of a third."""
    found = report(season_of({"Rowan": most, "Birch": least}))
    assert f"about {needed} eggs of each would be needed" in found["verdict"]


def test_two_of_many_families_that_had_eggs_enough_are_not_told_to_have_more() -> None:
    """24 and 12 of 30 alone would differ (27 of each, by scipy); among twelve more at 18 of 30 chance explains them."""
    others = {f"Family {n}": (18, 30) for n in range(12)}
    found = report(season_of({"Rowan": (24, 30), "Birch": (12, 30), **others}))
    assert found["verdict"].startswith("These eggs do not separate the families.")
    assert "needed" not in found["verdict"]
