"""Water loss of a setting from its weighings: points, the pace, where it leads by lockdown, and what to change.

Per egg and net of tare, in percent of the first weighing. The scales outrank the hygrometer: first which way, then how
much, and only while the whole projection lies outside the corridor and three days remain.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any, cast

from broodline.book.bodies_eggs import EggsWeighed
from broodline.book.moments import DAY_MS, instant
from broodline.book.problems import Problem
from broodline.book.standing import Head, Setting, Standing
from broodline.trade.calendar import day_of
from broodline.trade.sources import STATUSES, source_of
from broodline.trade.species import species_named
from broodline.trade.weight_loss import (
    DAYS_LEFT_TO_ADVISE,
    STEP_POINTS,
    WEIGH_AGAIN_DAYS,
    LossTarget,
    humidity_for,
    loss_line,
    loss_pct,
    loss_target,
)

Z_95 = 1.96


@dataclass(frozen=True, slots=True)
class LossPoint:
    """Loss on a day since setting, percent of that tray's first weighing; since_day: the day of that first weighing."""

    day: float
    loss_pct: float
    lot: str | None
    since_day: float


@dataclass(frozen=True, slots=True)
class Weighings:
    """points: in order of day. error_pct: what one step of the scale means in percent of the smallest tray."""

    points: tuple[LossPoint, ...]
    error_pct: float
    problems: tuple[Problem, ...]


def weighings_of(standing: Standing, setting: Setting) -> Weighings:
    """The weighings of a setting, tray by tray; those that cannot be are told and left out."""
    first: dict[str | None, tuple[float, float]] = {}
    points: list[LossPoint] = []
    problems: list[Problem] = []
    error_pct = 0.0
    for head in _heads(standing, setting):
        body = cast(EggsWeighed, head.body)
        day = (head.at_ms - setting.set_at_ms) / DAY_MS
        mass_g = (body.gross_g - body.tare_g) / body.n
        if mass_g <= 0 or body.tare_g < 0:
            problems.append(_fault("tare_over_gross", head, "The empty tray weighs as much as the full one, or more."))
            continue
        if day < -1:
            problems.append(_fault("weighed_before_setting", head, "These eggs were weighed before they were set."))
            continue
        mass_first_g, since_day = first.setdefault(body.lot, (mass_g, max(0.0, day)))
        error_pct = max(error_pct, 100 * _step_g(body) * (2 / 12) ** 0.5 / (mass_first_g * body.n))
        if mass_g > mass_first_g:
            problems.append(
                _fault("weight_gained", head, "Eggs do not gain weight, yet these weigh more than at first.")
            )
            continue
        points.append(LossPoint(max(0.0, day), loss_pct(mass_first_g, mass_g), body.lot, since_day))
    return Weighings(tuple(points), error_pct, tuple(problems))


def weight_loss_json(
    setting: Setting, weighed: Weighings, humidity_pct: float | None, now: datetime
) -> dict[str, Any] | None:
    """The loss line of a setting; None where nothing was weighed. humidity_pct: the last reading there, if any.

    projected_pct: by lockdown, with its 95 % band where the points or the scale give one.
    """
    if not weighed.points:
        return None
    species = species_named(setting.species)
    lockdown = setting.lockdown_day
    if lockdown is None and species is not None:
        lockdown = species.lockdown_day
    target = loss_target(setting.species, lockdown) if lockdown is not None else None
    band = _projection(weighed, lockdown) if lockdown is not None else None
    written: dict[str, Any] = {
        "target_pct": target.target_pct if target else None,
        "corridor_pct": [target.low_pct, target.high_pct] if target else None,
        "points": [{"day": one.day, "loss_pct": one.loss_pct, "lot": one.lot} for one in weighed.points],
        "projected_pct": band[1] if band else None,
        "projected_band_pct": [band[0], band[2]] if band else None,
        "advice": None,
        "source": f"{source_of(target.source).title} ({STATUSES[target.status]})" if target else None,
    }
    if target is not None and band is not None and lockdown is not None:
        day = day_of(instant(setting.set_at_ms), now)
        written["advice"] = _advice(setting, weighed, target, band, humidity_pct, lockdown, day)
    return written


def _heads(standing: Standing, setting: Setting) -> list[Head]:
    found = [
        head
        for head in standing.heads.get("eggs_weighed", ())
        for named in (cast(EggsWeighed, head.body).setting,)
        if standing.root_of.get(named, named) == setting.id
    ]
    return sorted(found, key=lambda head: (head.at_ms, head.id))


def _line_points(points: Sequence[LossPoint]) -> list[tuple[float, float]]:
    """Day and loss. Trays first weighed after day 0 are counted from their first weighing."""
    return [(one.day - one.since_day if one.since_day >= 1 else one.day, one.loss_pct) for one in points]


def _projection(weighed: Weighings, lockdown: float) -> tuple[float, float, float] | None:
    """(low, middle, high) loss by lockdown; the band from the points' scatter or the scale's step, the wider."""
    points = _line_points(weighed.points)
    line = loss_line(points)
    if line is None:
        return None
    by_scale = weighed.error_pct / sum(day * day for day, _ in points) ** 0.5
    half = Z_95 * max(line.error_per_day or 0.0, by_scale) * lockdown
    middle = line.per_day_pct * lockdown
    return middle - half, middle, middle + half


def _advice(
    setting: Setting,
    weighed: Weighings,
    target: LossTarget,
    band: tuple[float, float, float],
    humidity_pct: float | None,
    lockdown: float,
    day: int,
) -> str | None:
    """lockdown, day: the day it is due, and today's, both of incubation."""
    low, middle, high = band
    if not setting.runs or setting.locked_at_ms is not None:
        return None
    if low <= target.high_pct and high >= target.low_pct:
        wide = high - low > target.high_pct - target.low_pct
        return "Small weighing, wide error: weigh more eggs, or again in a few days." if wide else None
    if lockdown - day < DAYS_LEFT_TO_ADVISE:
        return None
    little = middle < target.low_pct
    said = (
        f"The eggs lose too {'little' if little else 'much'}: {middle:.1f} % by lockdown at this pace, wished "
        f"{target.low_pct:.1f} to {target.high_pct:.1f} %. {'Lower' if little else 'Raise'} the humidity"
    )
    last, seen = weighed.points[-1], middle / lockdown
    if humidity_pct is not None and 0 < humidity_pct < 100 and seen > 0 and lockdown > last.day:
        needed = max(0.0, target.target_pct - seen * last.day) / (lockdown - last.day)
        wished = humidity_for(humidity_pct, needed, seen)
        step = max(-STEP_POINTS, min(STEP_POINTS, wished - humidity_pct))
        if step != 0 and (step < 0) == little:
            said += f" from {humidity_pct:.0f} to {humidity_pct + step:.0f} %"
    return f"{said}, then weigh again in {WEIGH_AGAIN_DAYS} days. The scales outrank the hygrometer."


def _step_g(body: EggsWeighed) -> float:
    """The scale's step, read off the digits it was written with: 1 g, 0.1 g, ..."""
    places = max(0, *(-_exponent(reading) for reading in (body.gross_g, body.tare_g)))
    return float(10.0**-places)


def _exponent(reading: float) -> int:
    exponent = Decimal(repr(reading)).normalize().as_tuple().exponent
    return exponent if isinstance(exponent, int) else 0


def _fault(code: str, head: Head, message: str) -> Problem:
    return Problem(code, head.id, message, "Correct the weighing, or take it back. The rest of the line stands.")
