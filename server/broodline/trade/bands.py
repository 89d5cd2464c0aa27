"""Leg bands by number: a spiral or bandette of size n measures n sixteenths of an inch inside.

A convention of suppliers (two of their charts agree); other countries number by breed or by millimetres.

    >>> round(band_mm(9), 2), round(band_mm(12), 2)
    (14.29, 19.05)
"""

from broodline.trade.units import CENTIMETRES_PER_INCH

_PER_INCH = 16
_MM_PER_CM = 10


def band_mm(size: float) -> float:
    """The inside diameter of a numbered band, millimetres."""
    return size / _PER_INCH * CENTIMETRES_PER_INCH * _MM_PER_CM
