"""How many eggs a pen lays: per hen that is there, and per hen that was there at the start.

Both as defined by ILRI, DAGRIS. A pen without a hen has no rate.

    >>> round(hen_day_pct(9108, 9900), 2), round(hen_housed_pct(9108, 10000, days=1), 2), hen_day_pct(3, 0) is None
    (92.0, 91.08, True)
"""


def hen_day_pct(eggs: int, hen_days: int) -> float | None:
    """Eggs for each hundred hen-days, where hen_days is the sum over days of the hens alive; None for no hen."""
    return 100 * eggs / hen_days if hen_days > 0 else None


def hen_housed_pct(eggs: int, housed: int, *, days: int) -> float | None:
    """Eggs for each hundred days of the hens housed at the start; None for no hen or no day."""
    return hen_day_pct(eggs, housed * days)
