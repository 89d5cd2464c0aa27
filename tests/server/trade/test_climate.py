"""Targets and tiers: amber outside 97-102 °F, red from 103 or below 96 for over an hour (our judgement)."""

import pytest

from broodline.trade.climate import band_f, target_c, tier
from broodline.trade.species import SPECIES
from broodline.trade.units import to_celsius


@pytest.mark.parametrize(
    ("reads_f", "hours", "expected"),
    [
        (104, 0, "red"),
        (103, 0, "red"),
        (102.5, 0, "amber"),
        (102, 0, None),
        (101.5, 0, None),
        (97, 0, None),
        (96.5, 0, "amber"),
        (95, 0.5, "amber"),
        (95, 1.5, "red"),
    ],
)
def test_chicken_in_forced_air(reads_f: float, hours: float, expected: str | None) -> None:
    target = target_c("chicken", "setter", "forced")
    assert target is not None
    assert tier(to_celsius(reads_f) - target, hours) == expected


def test_still_air_at_its_right_temperature_is_in_order() -> None:
    """Mississippi State Univ., Important incubation factors: still air at 102 °F at the top of the eggs."""
    target = target_c("chicken", "setter", "still")
    assert target is not None
    assert tier(to_celsius(102) - target) is None
    assert tier(to_celsius(103) - target) is None
    assert target == pytest.approx(to_celsius(102))


def test_bands_by_species_and_stage() -> None:
    assert band_f("chicken", "hatcher", "forced") == (96.0, 101.0)
    assert band_f("ostrich", "setter", None) == (95.0, 100.0)
    assert band_f("phoenix", "setter", None) is None
    assert target_c("phoenix", "hatcher", "still") is None
    assert all(target_c(code, "hatcher", "forced") for code in SPECIES)
