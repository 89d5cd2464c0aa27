"""Moist air, targets and tiers over the cases that the phone reads too, and moist air over a grid against psychrolib.

psychrolib 2.5.0 (Meyer and Thevenard 2019, J. Open Source Softw. 4(33):1137) holds ASHRAE 2017 in code of its own.
"""

import json
from itertools import product
from pathlib import Path
from typing import Any

import psychrolib
import pytest

from broodline.trade.air import (
    dew_point_c,
    humidity_pct,
    humidity_ratio,
    pressure_pa,
    saturation_pressure_pa,
    wet_bulb_c,
)
from broodline.trade.climate import target_c, tier

CASES: dict[str, list[dict[str, Any]]] = json.loads(
    (Path(__file__).parents[2] / "vectors" / "climate.json").read_text(encoding="utf-8")
)


def cases(group: str) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("case", CASES[group], ids=[case["name"] for case in CASES[group]])


@pytest.fixture(autouse=True, scope="module")
def metric() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


@cases("bulbs")
def test_bulbs_to_humidity(case: dict[str, Any]) -> None:
    assert humidity_pct(**case["in"]) == pytest.approx(case["out"], abs=case["within"])


@cases("back")
def test_humidity_to_wet_bulb_and_dew_point(case: dict[str, Any]) -> None:
    dry_c, humidity, altitude_m = (case["in"][name] for name in ("dry_c", "humidity_pct", "altitude_m"))
    assert wet_bulb_c(dry_c, humidity, altitude_m) == pytest.approx(case["out"]["wet_c"], abs=case["within"])
    assert dew_point_c(dry_c, humidity) == pytest.approx(case["out"]["dew_point_c"], abs=case["within"])


@cases("heights")
def test_pressure_at_height(case: dict[str, Any]) -> None:
    assert pressure_pa(case["in"]) == pytest.approx(case["out"], abs=case["within"])


@cases("refused")
def test_what_no_air_gives(case: dict[str, Any]) -> None:
    asked = dict(case["in"])
    by_bulbs = "wet_c" in asked
    with pytest.raises(ValueError, match=r"."):
        humidity_pct(**asked) if by_bulbs else wet_bulb_c(asked["dry_c"], asked["humidity_pct"])


@cases("targets")
def test_targets(case: dict[str, Any]) -> None:
    assert target_c(**case["in"]) == pytest.approx(case["out"], abs=1e-9)


@cases("tiers")
def test_tiers(case: dict[str, Any]) -> None:
    assert tier(case["in"]["off_c"], case["in"]["hours"]) == case["out"]


@pytest.mark.parametrize("altitude_m", [0, 400, 1500, 3000])
def test_the_grid_of_an_incubator_is_psychrolibs(altitude_m: float) -> None:
    """Dry bulb 5 to 45 °C by 2.5, humidity 5 to 100 % by 5: there by the wet bulb and back, saturation, dew point."""
    pressure = pressure_pa(altitude_m)
    assert pressure == pytest.approx(psychrolib.GetStandardAtmPressure(altitude_m), rel=1e-4)
    for step, twentieth in product(range(17), range(1, 21)):
        dry_c, humidity = 5 + 2.5 * step, 5.0 * twentieth
        assert saturation_pressure_pa(dry_c) == pytest.approx(psychrolib.GetSatVapPres(dry_c), rel=1e-6)
        wet_c = psychrolib.GetTWetBulbFromRelHum(dry_c, humidity / 100, pressure)
        if wet_c < 0:
            continue  # ice on the wick is another formula, and no egg is so cold
        assert wet_bulb_c(dry_c, humidity, altitude_m) == pytest.approx(wet_c, abs=0.002)
        ratio = psychrolib.GetHumRatioFromTWetBulb(dry_c, wet_c, pressure)
        assert humidity_ratio(dry_c, wet_c, pressure) == pytest.approx(ratio, rel=1e-4)
        assert humidity_pct(dry_c, wet_c, altitude_m) == pytest.approx(humidity, abs=0.05)
        dew_c = psychrolib.GetTDewPointFromRelHum(dry_c, humidity / 100)
        assert dew_point_c(dry_c, humidity) == pytest.approx(max(0, dew_c), abs=0.01)


def test_ashraes_example_is_psychrolibs() -> None:
    """40 °C dry, 20 °C wet: enthalpy 56.7 kJ/kg and volume 0.896 m3/kg by psychrolib's own functions of our ratio."""
    ratio = humidity_ratio(40, 20)
    assert psychrolib.GetMoistAirEnthalpy(40, ratio) / 1000 == pytest.approx(56.7, abs=0.1)
    assert psychrolib.GetMoistAirVolume(40, ratio, pressure_pa(0)) == pytest.approx(0.896, abs=0.001)
