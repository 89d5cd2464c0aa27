"""Units at the edges: degrees Celsius and grams inside, Fahrenheit and ounces where a keeper or a table wants them.

>>> round(to_celsius(99.5), 2), to_fahrenheit(37.5)
(37.5, 99.5)
"""

GRAMS_PER_OUNCE = 28.349523125
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
