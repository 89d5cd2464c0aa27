"""Units at the edges: degrees Celsius and grams inside, Fahrenheit and ounces where a keeper or a table wants them.

>>> round(to_celsius(99.5), 2), to_fahrenheit(37.5)
(37.5, 99.5)
"""

GRAMS_PER_OUNCE = 28.349523125
GRAMS_PER_POUND = 453.59237
CENTIMETRES_PER_INCH = 2.54
MILLILITRES_PER_US_GALLON = 3785.411784
SQUARE_METRES_PER_SQUARE_FOOT = 0.09290304
SQUARE_METRES_PER_SQUARE_CENTIMETRE = 0.0001
PASCAL_PER_TORR = 101_325 / 760


def to_celsius(fahrenheit: float) -> float:
    """Degrees Celsius of a temperature in Fahrenheit."""
    return (fahrenheit - 32) / 1.8


def to_fahrenheit(celsius: float) -> float:
    """Degrees Fahrenheit of a temperature in Celsius."""
    return celsius * 1.8 + 32


def temperature_told(celsius: float, scale: str, digits: int = 1) -> str:
    """A temperature in the keeper's degrees. scale: "C" or "F".

    >>> temperature_told(37.5, "C"), temperature_told(37.5, "F")
    ('37.5 °C', '99.5 °F')
    """
    return f"{to_fahrenheit(celsius) if scale == 'F' else celsius:.{digits}f} °{'F' if scale == 'F' else 'C'}"


def warmer_told(by_c: float, scale: str, sign: str = "-") -> str:
    """A difference of temperatures in the keeper's degrees. sign: "+" writes it also before what is warmer.

    >>> warmer_told(1.5, "F"), warmer_told(0.5, "C", "+")
    ('2.7 °F', '+0.5 °C')
    """
    return f"{by_c * 1.8 if scale == 'F' else by_c:{sign}.1f} °{'F' if scale == 'F' else 'C'}"


def to_ounces(mass_g: float) -> float:
    """Avoirdupois ounces of a mass in grams.

    >>> round(to_ounces(56.7), 2)
    2.0
    """
    return mass_g / GRAMS_PER_OUNCE
