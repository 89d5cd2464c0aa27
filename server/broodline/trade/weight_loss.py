"""Water loss of eggs in the setter: the target line, the projection, and which way to change the humidity.

Loss in percent of the weight when set, per egg, net of the tray. The target falls in a straight line from set day.

    >>> [round(target_mass_g(26.49, 13, day, 25), 2) for day in (10, 20, 25)]
    [25.11, 23.74, 23.05]
    >>> round(humidity_for(55, needed_per_day=4.5 / 8, seen_per_day=0.75), 1)
    66.3
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from broodline.trade.sources import cell, read_table
from broodline.trade.species import SPECIES

_TABLE = read_table("weight_loss")
DAYS_LEFT_TO_ADVISE = cell(_TABLE["rules"]["days_left"]).value
STEP_POINTS = cell(_TABLE["rules"]["step_points"]).value
WEIGH_AGAIN_DAYS = cell(_TABLE["rules"]["weigh_again"]).value
HUMIDITY_RANGE = tuple(cell(_TABLE["rules"]["humidity_range"]).value)


@dataclass(frozen=True, slots=True)
class LossTarget:
    """Wished loss at a day, percent of set weight, with the corridor around it and where it was read."""

    target_pct: float
    low_pct: float
    high_pct: float
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class LossLine:
    """Loss per day by least squares through nothing at day 0, percent; error_per_day: its standard error or None."""

    per_day_pct: float
    error_per_day: float | None


def loss_target(species: str, day: float) -> LossTarget | None:
    """The target of a species on a day, in proportion to the day its figure belongs to; None for unknown species."""
    known = SPECIES.get(species)
    if known is None:
        return None
    row: dict[str, Any] = _TABLE["species"].get(species) or _TABLE["other"]
    by_day = cell(row["by_day"]).value if "by_day" in row else known.period_days[0]
    target = cell(row["target"])
    low, high = cell(row["corridor"]).value
    part = day / by_day
    return LossTarget(target.value * part, low * part, high * part, target.source, target.status)


def loss_pct(mass_first_g: float, mass_now_g: float) -> float:
    """Loss in percent of the first mass. Raises ValueError for no mass, and for a gain.

    >>> round(loss_pct(38.26, 36.18), 2)
    5.44
    """
    if mass_first_g <= 0 or mass_now_g <= 0:
        raise ValueError("an egg without weight was not weighed")
    if mass_now_g > mass_first_g:
        raise ValueError("eggs do not gain weight: weigh again, or look at the tray")
    return 100 * (mass_first_g - mass_now_g) / mass_first_g


def target_mass_g(mass_set_g: float, target_pct: float, day: float, by_day: float) -> float:
    """The mass on a day on the straight line to target_pct by by_day (all days counted from setting)."""
    return mass_set_g * (1 - target_pct / 100 * day / by_day)


def projected_loss_pct(mass_set_g: float, mass_now_g: float, days: float, by_day: float) -> float:
    """Loss by by_day if it goes on as over the first days (Hand-Rearing Birds, p. 553).

    >>> round(projected_loss_pct(26, 25, 7, 30), 1)
    16.5
    """
    return loss_pct(mass_set_g, mass_now_g) / days * by_day


def loss_line(points: Sequence[tuple[float, float]]) -> LossLine | None:
    """The line through nothing at day 0 that fits (day, loss percent) best. None without a point after day 0."""
    weight = sum(day * day for day, _ in points)
    later = [(day, loss) for day, loss in points if day > 0]
    if not later:
        return None
    slope = sum(day * loss for day, loss in points) / weight
    if len(later) < 2:
        return LossLine(slope, None)
    rest = sum((loss - slope * day) ** 2 for day, loss in later)
    return LossLine(slope, (rest / (len(later) - 1) / weight) ** 0.5)


def humidity_for(humidity_pct: float, needed_per_day: float, seen_per_day: float) -> float:
    """The humidity that would turn the seen daily loss into the needed one at the same temperature, 20 to 85 %.

    Loss goes with the pull of dry air, 1 - humidity (Meir, Nir and Ar 1984). Raises ValueError where nothing was lost.
    """
    if seen_per_day <= 0:
        raise ValueError("no loss was seen, so nothing can be said")
    low, high = HUMIDITY_RANGE
    wished = 100 * (1 - (1 - humidity_pct / 100) * needed_per_day / seen_per_day)
    return float(max(low, min(high, wished)))
