"""Water loss of eggs in the setter: the target line, the projection, and which way to change the humidity.

Loss in percent of the weight when set, per egg, net of the tray. The target falls in a straight line from set day.

    >>> [round(target_mass_g(26.49, 13, day, 25), 2) for day in (10, 20, 25)]
    [25.11, 23.74, 23.05]
    >>> round(humidity_for(55, needed_per_day=4.5 / 8, seen_per_day=0.75), 1)
    66.3
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import floor
from typing import Any

from broodline.trade.air import humidity_pct
from broodline.trade.climate import Stage
from broodline.trade.sources import cell, read_table
from broodline.trade.species import SPECIES
from broodline.trade.units import to_celsius

_TABLE = read_table("weight_loss")
_SETPOINTS = read_table("setpoints")["species"]
DAYS_LEFT_TO_ADVISE = cell(_TABLE["rules"]["days_left"]).value
STEP_POINTS = cell(_TABLE["rules"]["step_points"]).value
WEIGH_AGAIN_DAYS = cell(_TABLE["rules"]["weigh_again"]).value
HUMIDITY_RANGE: tuple[float, float] = tuple(cell(_TABLE["rules"]["humidity_range"]).value)
Z_95 = 1.96


@dataclass(frozen=True, slots=True)
class LossTarget:
    """Wished loss at a day, percent of set weight, with the corridor around it and where it was read."""

    target_pct: float
    low_pct: float
    high_pct: float
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class Projection:
    """Loss by a day, percent of set weight, with its 95 % band."""

    low_pct: float
    middle_pct: float
    high_pct: float


@dataclass(frozen=True, slots=True)
class Advice:
    """code: of its words in the table. humidity_pct: what to set, None where only the way, or nothing, is advised."""

    code: str
    words: str
    humidity_pct: float | None


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


def humidity_for(humidity: float, needed_per_day: float, seen_per_day: float) -> float:
    """The humidity that would turn the seen daily loss into the needed one at the same temperature, 20 to 85 %.

    Loss goes with the pull of dry air, 1 - humidity (Meir, Nir and Ar 1984). Raises ValueError where nothing was lost.
    """
    if seen_per_day <= 0:
        raise ValueError("no loss was seen, so nothing can be said")
    low, high = HUMIDITY_RANGE
    wished = 100 * (1 - (1 - humidity / 100) * needed_per_day / seen_per_day)
    return float(max(low, min(high, wished)))


def humidity_allowed(species: str, stage: Stage = "setter") -> tuple[float, float]:
    """The lowest and highest humidity that any table gives for the species in that stage, percent, within 20 to 85.

    From dry and wet bulb by the formula, at sea level, each table's own pair; and from humidities printed as such.

    >>> [round(end) for end in humidity_allowed("turkey")], humidity_allowed("phoenix")
    ([53, 59], (20, 85))
    """
    row = _SETPOINTS.get(species)
    if row is None:
        return HUMIDITY_RANGE
    wet_by_source = {cell(written).source: cell(written).value for written in row[f"{stage}_wet"]}
    found = [
        humidity_pct(to_celsius(dry.value), to_celsius(wet))
        for dry in map(cell, row[f"{stage}_dry"])
        for wet in _ends(wet_by_source[dry.source])
    ]
    found += [float(end) for written in row.get(f"{stage}_humidity", ()) for end in _ends(cell(written).value)]
    low, high = HUMIDITY_RANGE
    return float(max(low, min(found))), float(min(high, max(found)))


def project(points: Sequence[tuple[float, float]], error_pct: float, by_day: float) -> Projection | None:
    """Where the line through (day, loss percent) leads by a day; None without a point after day 0.

    error_pct: standard error of one loss, from the scale's step and the number of eggs. The band is 95 %, from the
    scatter of the points or from the scale, whichever is wider.
    """
    line = loss_line(points)
    if line is None:
        return None
    by_scale = error_pct / sum(day * day for day, _ in points) ** 0.5
    half = Z_95 * max(line.error_per_day or 0.0, by_scale) * by_day
    middle = line.per_day_pct * by_day
    return Projection(middle - half, middle, middle + half)


def scale_error_pct(step_g: float, mass_first_g: float, n: int) -> float:
    """Standard error of a loss in percent from the scale's step, for n eggs of mass_first_g each.

    Each of two weighings is wrong by up to half a step, evenly: a variance of a twelfth of the step squared.

    >>> round(scale_error_pct(1, 60, 10), 3)
    0.068
    """
    return float(100 * step_g * (2 / 12) ** 0.5 / (mass_first_g * n))


def advise(
    species: str, projection: Projection, last_day: float, today: int, lockdown: float, humidity: float | None
) -> Advice | None:
    """What to do about the humidity, if anything.

    Only while at least three days remain, since all advice asks for another weighing and none is weighed from lockdown
    on; a change only while the whole band lies outside the corridor, in one step of at most five points, within what
    the tables of the species allow. last_day: of the last weighing. humidity: the last reading, percent.
    """
    target = loss_target(species, lockdown)
    if target is None or lockdown - today < DAYS_LEFT_TO_ADVISE:
        return None
    figures = {
        "projected": _rounded(projection.middle_pct, 1),
        "low": _rounded(target.low_pct, 1),
        "high": _rounded(target.high_pct, 1),
        "again": str(WEIGH_AGAIN_DAYS),
    }
    if projection.low_pct <= target.high_pct and projection.high_pct >= target.low_pct:
        wide = projection.high_pct - projection.low_pct > target.high_pct - target.low_pct
        return _said("wide", figures, None) if wide else None
    way = "little" if projection.middle_pct < target.low_pct else "much"
    seen = projection.middle_pct / lockdown
    if humidity is None or not 0 < humidity < 100 or seen <= 0 or lockdown <= last_day:
        return _said(way, {**figures, "step": ""}, None)
    needed = max(0.0, target.target_pct - seen * last_day) / (lockdown - last_day)
    low, high = humidity_allowed(species)
    aim = max(low, min(high, humidity_for(humidity, needed, seen)))
    step = max(-STEP_POINTS, min(STEP_POINTS, aim - humidity))
    figures["from"] = _rounded(humidity, 0)
    if step < 0 if way == "little" else step > 0:
        figures["to"] = _rounded(humidity + step, 0)
        return _said(way, {**figures, "step": _filled(_TABLE["words"]["step"], figures)}, humidity + step)
    limit = {"limit": _rounded(low if way == "little" else high, 0)}
    return _said("no_lower" if way == "little" else "no_higher", {**figures, **limit}, None)


def _rounded(figure: float, digits: int) -> str:
    """Half up, so that both languages write the same."""
    return f"{floor(figure * 10**digits + 0.5) / 10**digits:.{digits}f}"


def _ends(value: Any) -> Sequence[float]:
    return value if isinstance(value, list) else (value,)


def _said(code: str, figures: Mapping[str, str], humidity: float | None) -> Advice:
    return Advice(code, _filled(_TABLE["words"][code], figures), humidity)


def _filled(words: str, figures: Mapping[str, str]) -> str:
    for name, figure in figures.items():
        words = words.replace("{" + name + "}", figure)
    return words
