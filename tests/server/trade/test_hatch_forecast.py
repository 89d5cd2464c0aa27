"""The likely hatch by hand, and what early, late and drawn out may mean (direction only)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.trade.hatch_forecast import Earlier, forecast, meanings, middle_h
from broodline.trade.hatch_time import Z_05_TO_95
from broodline.trade.species import SPECIES


def test_the_species_alone_is_its_time_with_48_hours_allowed() -> None:
    """Chicken 21 days (Texas A&M B-6092, read on a copy); 48 h allowed for a small flock (extension, from memory)."""
    chicken = forecast("chicken", [])
    assert chicken is not None
    assert (chicken.from_h, chicken.median_h, chicken.to_h, chicken.shift_h, chicken.hatches) == (480, 504, 528, 0, 0)
    quail = forecast("coturnix", [])
    assert quail is not None
    assert (quail.from_h, quail.to_h) == (420 - 36, 420 + 36), "17 to 18 days and 24 h either side"
    assert forecast("phoenix", []) is None


def test_two_hatches_of_its_own_weigh_as_much_as_the_species() -> None:
    found = forecast("chicken", [Earlier(-10, 5), Earlier(-6, 5)])
    assert found is not None
    assert found.shift_h == pytest.approx(-16 / 4)
    usual = 24 / Z_05_TO_95
    variance = (2 * usual**2 + 2 * 25 + (-10 + 4) ** 2 + (-6 + 4) ** 2) / 4
    assert found.to_h - found.median_h == pytest.approx(Z_05_TO_95 * variance**0.5)
    assert found.hatches == 2


@given(st.floats(-40, 40), st.integers(1, 30))
def test_alike_hatches_draw_the_window_to_them_and_narrow_it(later_h: float, n: int) -> None:
    few, many = forecast("chicken", [Earlier(later_h, 6)] * n), forecast("chicken", [Earlier(later_h, 6)] * (n + 200))
    assert few is not None
    assert many is not None
    assert abs(few.shift_h) <= abs(later_h) + 1e-9
    assert abs(many.shift_h - later_h) <= abs(few.shift_h - later_h) + 1e-9
    assert many.to_h - many.from_h < few.to_h - few.from_h or abs(later_h) > 15
    assert many.to_h - many.from_h == pytest.approx(2 * Z_05_TO_95 * 6, rel=0.35)


def test_hatches_that_differ_widen_it() -> None:
    scattered = forecast("chicken", [Earlier(-40, 6), Earlier(40, 6)])
    usual = forecast("chicken", [])
    assert scattered is not None
    assert usual is not None
    assert scattered.to_h - scattered.from_h > usual.to_h - usual.from_h


def test_the_middle_of_every_species_lies_in_its_window() -> None:
    for code, species in SPECIES.items():
        middle = middle_h(code)
        assert middle is not None
        assert 24 * species.period_days[0] <= middle <= 24 * species.period_days[1]


def test_half_a_day_is_neither_early_nor_late() -> None:
    assert meanings(12, 36) == []
    assert [one.code for one in meanings(12.1, 30)] == ["late"]
    assert [one.code for one in meanings(-12.1, 30)] == ["early"]


def test_a_warm_machine_hatches_early_and_a_cool_one_late() -> None:
    """Mississippi State Univ., Important incubation factors; large or old eggs late, mixed ones drawn out: Illinois."""
    (early,), (late,), (drawn,) = meanings(-20, 24), meanings(20, 24), meanings(0, 50)
    assert ("temperature too high", "MSU-F") in [(cause.value, cause.source) for cause in early.likely]
    assert ("temperature too low", "MSU-F") in [(cause.value, cause.source) for cause in late.likely]
    assert "ILL" in {cause.source for cause in late.likely}
    assert {cause.source for cause in drawn.likely} == {"ILL"}
    assert (early.hours, drawn.hours) == (20, 50)
