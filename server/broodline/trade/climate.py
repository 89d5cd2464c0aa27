"""The target temperature for a species, machine and stage, and how bad it is to stray from it.

Tiers are distances from the target, so that a still-air box at its own right temperature is in order. Our judgement.

    >>> [round(to_fahrenheit(target_c("chicken", "setter", air)), 1) for air in ("forced", "still")]
    [99.5, 102.0]
    >>> [tier(to_celsius(f) - target_c("chicken", "setter", "forced")) for f in (104, 101.5, 96.5)]
    ['red', None, 'amber']
"""

from typing import Literal

from broodline.trade.sources import cell, read_table
from broodline.trade.units import to_celsius, to_fahrenheit

Stage = Literal["setter", "hatcher"]
Tier = Literal["amber", "red"]

_SETPOINTS = read_table("setpoints")["species"]
_TIERS = {name: cell(written).value for name, written in read_table("alarms")["tiers"].items()}
_DEGREE = 1.8
AMBER_ABOVE_C, AMBER_BELOW_C = _TIERS["amber_above"] / _DEGREE, _TIERS["amber_below"] / _DEGREE
RED_ABOVE_C, RED_BELOW_C = _TIERS["red_above"] / _DEGREE, _TIERS["red_below"] / _DEGREE
RED_BELOW_AFTER_H = _TIERS["red_below_after"]
LONGEST_GAP_H = _TIERS["longest_gap"]
SILENT_TIMES, SILENT_LEAST_H = _TIERS["silent_times"], _TIERS["silent_least"]
READABLE_C: tuple[float, float] = tuple(_TIERS["readable"])
CUT_FALL_C, CUT_GAP_TIMES, CUT_LEAST_GAP_H = _TIERS["cut_fall"] / _DEGREE, _TIERS["cut_gap"], _TIERS["cut_least_gap"]


def target_c(species: str, stage: Stage, air: str | None) -> float | None:
    """Target of the dry bulb, °C; air "still" adds what egg-top level in still air needs. None for unknown species."""
    row = _SETPOINTS.get(species)
    if row is None:
        return None
    target_f = cell(row[f"{stage}_dry"][0]).value
    return to_celsius(target_f + (_TIERS["still_air_more"] if air == "still" else 0))


def tier(off_c: float, hours: float = 0.0) -> Tier | None:
    """How bad it is to be off_c from the target (above is positive) for so many hours; None within the band."""
    slack = 1e-9
    if off_c >= RED_ABOVE_C - slack or (off_c < -RED_BELOW_C - slack and hours > RED_BELOW_AFTER_H):
        return "red"
    if off_c > AMBER_ABOVE_C + slack or off_c < -AMBER_BELOW_C - slack:
        return "amber"
    return None


def band_f(species: str, stage: Stage, air: str | None) -> tuple[float, float] | None:
    """The band without alarm, °F.

    >>> band_f("chicken", "setter", "forced")
    (97.0, 102.0)
    """
    target = target_c(species, stage, air)
    if target is None:
        return None
    return round(to_fahrenheit(target - AMBER_BELOW_C), 6), round(to_fahrenheit(target + AMBER_ABOVE_C), 6)
