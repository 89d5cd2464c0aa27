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


def to_ounces(mass_g: float) -> float:
    """Avoirdupois ounces of a mass in grams.

    >>> round(to_ounces(56.7), 2)
    2.0
    """
    return mass_g / GRAMS_PER_OUNCE
