"""Eggs brought up from lower ground: in thin air water leaves a shell faster, and by how much the humidity makes up.

Vapour moves through pores in proportion to 1 / air pressure (Sotherland and others 1980). Hens that live at height lay
eggs with fewer or narrower pores, so those need nothing (Rahn and others 1977).

    >>> found = brought_up(1500, 55)
    >>> round(found.more_pct), round(found.humidity_pct)
    (20, 62)
"""

from dataclasses import dataclass

from broodline.trade.air import STANDARD_PRESSURE_PA, pressure_pa
from broodline.trade.sources import cell, read_table
from broodline.trade.weight_loss import humidity_for

_TABLE = read_table("weight_loss")["brought_up"]
LEAST_M: float = cell(_TABLE["least"]).value
EXAMPLE_PCT: float = cell(_TABLE["example"]).value
RULE, HOME = cell(_TABLE["rule"]), cell(_TABLE["home"])
WORDS: str = _TABLE["words"]


@dataclass(frozen=True, slots=True)
class BroughtUp:
    """more_pct: of water that eggs laid near the sea lose up here. humidity_pct: that does here what from_pct does
    there."""

    more_pct: float
    from_pct: float
    humidity_pct: float


def brought_up(altitude_m: float, humidity_pct: float | None) -> BroughtUp | None:
    """The correction at a height for eggs laid near the sea; None below the height from which it shows.

    humidity_pct: the last that was read, percent; an example serves where none was. Raises ValueError as pressure_pa.
    """
    if altitude_m < LEAST_M:
        return None
    times = STANDARD_PRESSURE_PA / pressure_pa(altitude_m)
    from_pct = EXAMPLE_PCT if humidity_pct is None or not 0 < humidity_pct < 100 else humidity_pct
    return BroughtUp(100 * (times - 1), from_pct, humidity_for(from_pct, 1, times))


def brought_up_words(found: BroughtUp, height: str) -> str:
    """height: as the keeper reads it, with its unit."""
    filled = {
        "height": height,
        "more": f"{found.more_pct:.0f}",
        "from": f"{found.from_pct:.0f}",
        "to": f"{found.humidity_pct:.0f}",
    }
    words = WORDS
    for name, figure in filled.items():
        words = words.replace("{" + name + "}", figure)
    return words
