"""When a hatch is likely, from the species' time and the incubator's own earlier hatches; early, late, drawn out.

The species' window counts as much as two hatches. Each earlier hatch moves its middle and, by its own spread and by its
distance from the others, its width. Hours since setting.

    >>> alone = forecast("chicken", [])
    >>> alone.from_h, alone.to_h
    (480.0, 528.0)
    >>> own = forecast("chicken", [Earlier(-8, 5), Earlier(-6, 5)])
    >>> round(own.median_h), round(own.from_h), round(own.to_h)
    (500, 482, 519)
"""

from collections.abc import Sequence
from dataclasses import dataclass

from broodline.trade.hatch_time import Z_05_TO_95
from broodline.trade.sources import Cell, cell, read_table
from broodline.trade.species import species_named

_TABLE = read_table("hatch")
_SPREAD_H = cell(_TABLE["usual_spread"]).value
_SPECIES_WEIGHT = cell(_TABLE["species_weight"]).value
_OFF_H = cell(_TABLE["off_beyond"]).value
_DRAWN_OUT_H = cell(_TABLE["drawn_out_beyond"]).value
HATCHES_USED = cell(_TABLE["hatches_used"]).value
NO_SLOPE: str = _TABLE["no_slope"]


@dataclass(frozen=True, slots=True)
class Earlier:
    """An earlier hatch: its median less the middle of the species' time, and the sd of its chicks, hours."""

    later_h: float
    sd_h: float


@dataclass(frozen=True, slots=True)
class Forecast:
    """from_h, to_h: from 5 to 95 % hatched. shift_h: median_h less the middle of the species' time. hatches: used."""

    from_h: float
    median_h: float
    to_h: float
    shift_h: float
    hatches: int


@dataclass(frozen=True, slots=True)
class Meaning:
    """code: early, late or drawn_out. hours: how far. likely: what may be behind it, never proof."""

    code: str
    hours: float
    likely: tuple[Cell, ...]


def middle_h(species: str) -> float | None:
    """The middle of the species' usual time; None for one the tables do not know.

    >>> middle_h("chicken"), middle_h("coturnix"), middle_h("phoenix")
    (504.0, 420.0, None)
    """
    known = species_named(species)
    return None if known is None else 12.0 * sum(known.period_days)


def forecast(species: str, earlier: Sequence[Earlier]) -> Forecast | None:
    """The likely hatch. earlier: of the same species in the same incubator. None for an unknown species."""
    known = species_named(species)
    middle = middle_h(species)
    if known is None or middle is None:
        return None
    low, high = known.period_days
    weight, n = _SPECIES_WEIGHT, len(earlier)
    usual_sd = (_SPREAD_H + 24 * (high - low)) / (2 * Z_05_TO_95)
    shift = sum(one.later_h for one in earlier) / (weight + n)
    squares = sum(one.sd_h**2 + (one.later_h - shift) ** 2 for one in earlier)
    half = Z_05_TO_95 * ((weight * usual_sd**2 + squares) / (weight + n)) ** 0.5
    return Forecast(middle + shift - half, middle + shift, middle + shift + half, shift, n)


def meanings(later_h: float, spread_h: float) -> list[Meaning]:
    """What the time of a hatch may say: whether it was early or late by over half a day, and whether it drew out.

    >>> [one.code for one in meanings(-15, 40)], meanings(5, 24)
    (['early', 'drawn_out'], [])
    """
    found = []
    if abs(later_h) > _OFF_H:
        found.append(_meaning("late" if later_h > 0 else "early", abs(later_h)))
    if spread_h > _DRAWN_OUT_H:
        found.append(_meaning("drawn_out", spread_h))
    return found


def _meaning(code: str, hours: float) -> Meaning:
    return Meaning(code, hours, tuple(cell(row) for row in _TABLE["meanings"][code]))
