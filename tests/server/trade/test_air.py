"""Moist air against published tables: Mississippi State Univ. P1150 p. 14; 100-102 °F also Parkhurst & Mountney 5.2."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from broodline.trade.air import (
    STANDARD_PRESSURE_PA,
    dew_point_c,
    humidity_pct,
    humidity_ratio,
    pressure_pa,
    saturation_pressure_pa,
    wet_bulb_c,
)
from broodline.trade.sources import read_table
from broodline.trade.units import PASCAL_PER_TORR, to_celsius, to_fahrenheit, to_ounces

PUBLISHED_WET_F = {
    45: (80.5, 81.3, 82.2, 83.0),
    50: (82.5, 83.3, 84.2, 85.0),
    55: (84.5, 85.3, 86.2, 87.0),
    60: (86.5, 87.3, 88.2, 89.0),
    65: (88.0, 89.0, 90.0, 91.0),
    70: (89.7, 90.7, 91.7, 92.7),
}
DRY_F = (99, 100, 101, 102)


@pytest.mark.parametrize(
    ("humidity", "dry_f", "wet_f"),
    [(humidity, dry, wet) for humidity, row in PUBLISHED_WET_F.items() for dry, wet in zip(DRY_F, row, strict=True)],
)
def test_all_24_published_cells(humidity: int, dry_f: float, wet_f: float) -> None:
    assert humidity_pct(to_celsius(dry_f), to_celsius(wet_f)) == pytest.approx(humidity, abs=1)


@pytest.mark.parametrize(
    ("dry_c", "wet_c", "humidity", "within"),
    [
        (37.2, 29.0, 55, 1),  # superb parrot husbandry manual, W. Sydney Inst. TAFE
        (37.2, 33.3, 75, 2),  # the same manual; the formula gives 76.7
        (40, 20, 14, 0.5),  # ASHRAE 2017 ch. 1 example 1 (from memory)
    ],
)
def test_published_pairs(dry_c: float, wet_c: float, humidity: float, within: float) -> None:
    assert humidity_pct(dry_c, wet_c) == pytest.approx(humidity, abs=within)


def test_ashraes_own_example() -> None:
    """ASHRAE 2017 ch. 1 example 1 (from memory): 40 °C, wet 20 °C: W 6.5 g/kg (chart), h 56.7 kJ/kg, v 0.896 m3/kg."""
    ratio = humidity_ratio(40, 20)
    assert 1000 * ratio == pytest.approx(6.5, abs=0.15)
    assert 1.006 * 40 + ratio * (2501 + 1.86 * 40) == pytest.approx(56.7, abs=0.1)
    assert 287.042 * 313.15 * (1 + 1.607858 * ratio) / STANDARD_PRESSURE_PA == pytest.approx(0.896, abs=0.001)


def test_worked_example_step_by_step() -> None:
    """Worked by hand from the equations: dry 37.778, wet 30.722 °C: 4425.3 Pa, W 0.025345, 6552.2 Pa, 60.6 %."""
    assert saturation_pressure_pa(30.722) == pytest.approx(4425.3, abs=0.5)
    assert humidity_ratio(37.778, 30.722) == pytest.approx(0.025345, abs=1e-6)
    assert saturation_pressure_pa(37.778) == pytest.approx(6552.2, abs=0.5)
    assert humidity_pct(37.778, 30.722, 1500) == pytest.approx(61.8, abs=0.1)
    assert humidity_pct(37.778, 30.722, 2500) == pytest.approx(62.5, abs=0.1)
    assert saturation_pressure_pa(20) == pytest.approx(2338.8, abs=0.1)
    assert saturation_pressure_pa(38) / PASCAL_PER_TORR == pytest.approx(49.74, abs=0.01)


@pytest.mark.parametrize(
    ("altitude_m", "percent"), [(500, 6), (1000, 13), (1500, 20), (2000, 27), (2500, 36), (3000, 45)]
)
def test_gas_movement_at_height(altitude_m: float, percent: int) -> None:
    """Tullett 2013, thepoultrysite.com/articles/2908."""
    assert 100 * (pressure_pa(0) / pressure_pa(altitude_m) - 1) == pytest.approx(percent, abs=1)


@given(st.floats(20, 45), st.floats(5, 100), st.floats(0, 3000))
def test_wet_bulb_goes_there_and_back(dry_c: float, humidity: float, altitude_m: float) -> None:
    wet = wet_bulb_c(dry_c, humidity, altitude_m)
    assert dew_point_c(dry_c, humidity) <= wet + 1e-6 <= dry_c + 2e-6
    assert humidity_pct(dry_c, wet, altitude_m) == pytest.approx(humidity, abs=1e-6)


def test_humidity_of_the_species_chart() -> None:
    """Humidity worked out beside the Texas A&M chart: chicken setter 58 %, hatcher 72-85 %; pigeon setter 61 %."""
    rows = read_table("setpoints")["species"]

    def worked_out(code: str, stage: str) -> list[float]:
        dry, wet = rows[code][f"{stage}_dry"][0]["value"], rows[code][f"{stage}_wet"][0]["value"]
        return [humidity_pct(to_celsius(dry), to_celsius(one)) for one in (wet if isinstance(wet, list) else [wet])]

    assert worked_out("chicken", "setter") == pytest.approx([58], abs=0.6)
    assert worked_out("chicken", "hatcher") == pytest.approx([72, 85], abs=0.6)
    assert worked_out("pigeon", "setter") == pytest.approx([61], abs=0.6)
    assert worked_out("turkey", "setter") == pytest.approx([53, 58], abs=0.6)
    assert worked_out("rhea", "setter") == pytest.approx([47], abs=0.6)


@pytest.mark.parametrize(("dry_c", "wet_c"), [(30, 30.1), (90, 10), (-1, -2), (201, 100)])
def test_bulbs_that_no_air_gives_are_refused(dry_c: float, wet_c: float) -> None:
    with pytest.raises(ValueError, match=r"wet bulb|dry|outside"):
        humidity_pct(dry_c, wet_c)


def test_impossible_humidity_and_height_are_refused() -> None:
    for humidity in (-1, 101):
        with pytest.raises(ValueError, match="no humidity"):
            wet_bulb_c(37, humidity)
        with pytest.raises(ValueError, match="no humidity"):
            dew_point_c(37, humidity)
    with pytest.raises(ValueError, match="height"):
        humidity_pct(37, 30, 20_000)


def test_units_at_the_edges() -> None:
    assert to_fahrenheit(to_celsius(102)) == pytest.approx(102)
    assert to_ounces(28.349523125) == 1
