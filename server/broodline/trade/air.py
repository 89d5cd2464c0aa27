"""Moist air: humidity from dry and wet bulb and back, dew point, pressure at height.

ASHRAE Handbook of Fundamentals 2017, chapter 1: saturation over water (0 to 200 °C), equations 33 and 35 for the wet
bulb; standard atmosphere for height. Temperatures in °C, pressures in Pa, humidity in percent.

    >>> round(humidity_pct(37.778, 30.722))
    61
"""

from math import exp, log

STANDARD_PRESSURE_PA = 101_325.0
_WATER_TO_AIR = 0.621945


def saturation_pressure_pa(temperature_c: float) -> float:
    """Saturation vapour pressure over water, Pa, for 0 to 200 °C (ASHRAE 2017, 1.5). Raises ValueError outside.

    >>> round(saturation_pressure_pa(37.5), 1)
    6454.2
    """
    if not 0 <= temperature_c <= 200:
        raise ValueError(f"{temperature_c} °C is outside 0 to 200 °C")
    t = temperature_c + 273.15
    return exp(
        -5.8002206e3 / t
        + 1.3914993
        - 4.8640239e-2 * t
        + 4.1764768e-5 * t * t
        - 1.4452093e-8 * t * t * t
        + 6.5459673 * log(t)
    )


def height_m(written: float | None) -> float:
    """The height to reckon with: as it was written, and the sea's where none was or none can be.

    >>> height_m(350), height_m(None), height_m(90_000)
    (350, 0, 0)
    """
    return written if written is not None and -500 <= written <= 11_000 else 0


def pressure_pa(altitude_m: float) -> float:
    """Air pressure at a height above the sea, Pa, standard atmosphere up to 11,000 m. Raises ValueError above.

    >>> round(pressure_pa(0) / pressure_pa(1500) - 1, 3)
    0.198
    """
    if not -500 <= altitude_m <= 11_000:
        raise ValueError(f"{altitude_m} m is no height a flock is kept at")
    return float(STANDARD_PRESSURE_PA * (1 - 2.25577e-5 * altitude_m) ** 5.2559)


def humidity_ratio(dry_c: float, wet_c: float, pressure: float = STANDARD_PRESSURE_PA) -> float:
    """kg water in a kg of dry air, from both bulbs (equations 33, 35). Raises ValueError for wet above dry."""
    if wet_c > dry_c:
        raise ValueError("the wet bulb reads above the dry bulb: are the two mixed up, or is the wick dry?")
    vapour = saturation_pressure_pa(wet_c)
    saturated = _WATER_TO_AIR * vapour / (pressure - vapour)
    return ((2501 - 2.326 * wet_c) * saturated - 1.006 * (dry_c - wet_c)) / (2501 + 1.86 * dry_c - 4.186 * wet_c)


def humidity_pct(dry_c: float, wet_c: float, altitude_m: float = 0) -> float:
    """Relative humidity from both bulbs, percent. Raises ValueError where no air can read so.

    altitude_m: height of the place; the same two bulbs mean a little more humidity higher up.
    """
    pressure = pressure_pa(altitude_m)
    ratio = humidity_ratio(dry_c, wet_c, pressure)
    if ratio < 0:
        raise ValueError("no air is that dry: look at the wick and the wet bulb")
    return 100 * pressure * ratio / (_WATER_TO_AIR + ratio) / saturation_pressure_pa(dry_c)


def wet_bulb_c(dry_c: float, humidity: float, altitude_m: float = 0) -> float:
    """The wet bulb temperature for a relative humidity in percent, by halving. Raises ValueError outside 0 to 100.

    >>> round(wet_bulb_c(37.778, 55), 2)
    29.55
    """
    if not 0 <= humidity <= 100:
        raise ValueError(f"{humidity} % is no humidity")
    pressure = pressure_pa(altitude_m)
    vapour = humidity / 100 * saturation_pressure_pa(dry_c)
    wanted = _WATER_TO_AIR * vapour / (pressure - vapour)
    low, high = 0.0, dry_c
    for _ in range(60):
        middle = (low + high) / 2
        if humidity_ratio(dry_c, middle, pressure) < wanted:
            low = middle
        else:
            high = middle
    return high


def dew_point_c(dry_c: float, humidity: float) -> float:
    """The temperature at which water of this air begins to settle, by halving; 0 where it lies below freezing.

    >>> round(dew_point_c(20, 50), 1)
    9.3
    """
    if not 0 <= humidity <= 100:
        raise ValueError(f"{humidity} % is no humidity")
    vapour = humidity / 100 * saturation_pressure_pa(dry_c)
    low, high = 0.0, dry_c
    for _ in range(60):
        middle = (low + high) / 2
        if saturation_pressure_pa(middle) < vapour:
            low = middle
        else:
            high = middle
    return high
