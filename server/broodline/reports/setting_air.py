"""The air a setting had: hours outside its band, the worst reading, how many readings, and the last humidity.

Readings of the setter until lockdown, of the hatcher from then on, each held against the target for its stage. A
reading is put right by the last gauge check before it. Between readings the air is taken to change in a straight line;
over gaps of more than 12 hours nothing is known.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, cast

from broodline.book.bodies_rooms import Air, GaugeChecked
from broodline.book.moments import HOUR_MS, instant
from broodline.book.problems import Problem
from broodline.book.standing import Head, Lot, Setting, Standing
from broodline.trade.air import humidity_pct
from broodline.trade.calendar import instant_text
from broodline.trade.climate import AMBER_ABOVE_C, AMBER_BELOW_C, LONGEST_GAP_H, RED_BELOW_C, Stage, target_c, tier


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading, put right by gauge checks. off_c: from the target, None for a species without one."""

    at_ms: int
    dry_c: float
    off_c: float | None
    humidity_pct: float | None
    corrected: bool


@dataclass(frozen=True, slots=True)
class SettingAir:
    """Readings in order of time; problems: readings that no air gives."""

    readings: tuple[Reading, ...]
    problems: tuple[Problem, ...]

    @property
    def last_humidity_pct(self) -> float | None:
        return next((one.humidity_pct for one in reversed(self.readings) if one.humidity_pct is not None), None)


def air_of(standing: Standing, setting: Setting, lots: Sequence[Lot]) -> SettingAir:
    """The readings that belong to a setting: from setting to lockdown at its place, then at the hatcher to the end."""
    end_ms = _end_ms(setting, lots)
    readings: list[Reading] = []
    problems: list[Problem] = []
    for head in sorted(standing.heads.get("air", ()), key=lambda head: (head.at_ms, head.id)):
        body = cast(Air, head.body)
        place = standing.root_of.get(body.place, body.place)
        locked = setting.locked_at_ms is not None and head.at_ms >= setting.locked_at_ms
        where = (setting.locked_place or setting.place) if locked else setting.place
        if place != where or head.at_ms < setting.set_at_ms or (end_ms is not None and head.at_ms > end_ms):
            continue
        readings.append(_reading(standing, setting, head, "hatcher" if locked else "setter", problems))
    return SettingAir(tuple(readings), tuple(problems))


def air_json(air: SettingAir) -> dict[str, Any] | None:
    """hours_out: outside the band; worst: the reading furthest from the target; readings: how many. None without."""
    if not air.readings:
        return None
    known = [one for one in air.readings if one.off_c is not None]
    hours_out, hours_cold = _hours(known, AMBER_ABOVE_C, AMBER_BELOW_C), _hours(known, float("inf"), RED_BELOW_C)
    worst = max(known, key=lambda one: (abs(one.off_c or 0.0), -one.at_ms), default=None)
    return {
        "hours_out": hours_out if known else None,
        "worst": None
        if worst is None or worst.off_c is None
        else {
            "at": instant_text(instant(worst.at_ms)),
            "dry_c": worst.dry_c,
            "off_c": worst.off_c,
            "tier": tier(worst.off_c, hours_cold),
        },
        "readings": len(air.readings),
        "last_humidity_pct": air.last_humidity_pct,
        "gauge_checked": any(one.corrected for one in air.readings),
    }


def _end_ms(setting: Setting, lots: Sequence[Lot]) -> int | None:
    """When the last egg left setter or hatcher; None while one is there."""
    if setting.runs:
        return None
    moves = [*setting.among, *(move for lot in lots for move in lot.moves)]
    return max((move.at_ms for move in moves if move.source in ("set", "locked")), default=None)


def _reading(standing: Standing, setting: Setting, head: Head, stage: Stage, problems: list[Problem]) -> Reading:
    body = cast(Air, head.body)
    place = standing.places.get(standing.root_of.get(body.place, body.place))
    dry, wet, humidity = (
        _put_right(standing, head, gauge, value)
        for gauge, value in (("dry", body.dry_c), ("wet", body.wet_c), ("humidity", body.humidity_pct))
    )
    dry_c = body.dry_c if dry is None else dry
    if humidity is None and wet is not None:
        try:
            humidity = humidity_pct(dry_c, wet, standing.keeper.altitude_m or 0)
        except ValueError as fault:
            problems.append(_fault("wet_bulb", head, f"These two bulbs do not go together: {fault}."))
    elif humidity is not None and not 0 <= humidity <= 100:
        problems.append(_fault("humidity", head, f"{humidity:g} % is no humidity."))
        humidity = None
    target = target_c(setting.species, stage, place.air if place is not None else None)
    changed = (dry, wet) != (body.dry_c, body.wet_c)
    return Reading(head.at_ms, dry_c, None if target is None else dry_c - target, humidity, changed)


def _put_right(standing: Standing, head: Head, gauge: str, value: float | None) -> float | None:
    """A value corrected by the last check of that gauge at that place before the reading."""
    if value is None:
        return None
    place = cast(Air, head.body).place
    checks = [
        (one.at_ms, one.id, body.true_value - body.reads)
        for one in standing.heads.get("gauge_checked", ())
        for body in (cast(GaugeChecked, one.body),)
        if body.gauge == gauge and one.at_ms <= head.at_ms and _same(standing, body.place, place)
    ]
    return value + (max(checks)[2] if checks else 0)


def _same(standing: Standing, one: str, other: str) -> bool:
    return standing.root_of.get(one, one) == standing.root_of.get(other, other)


def _hours(readings: Sequence[Reading], above_c: float, below_c: float) -> float:
    """Hours further above or below the target than that, by straight lines between readings."""
    total = 0.0
    for one, other in pairwise(readings):
        hours = (other.at_ms - one.at_ms) / HOUR_MS
        if 0 < hours <= LONGEST_GAP_H and one.off_c is not None and other.off_c is not None:
            low, high = sorted((one.off_c, other.off_c))
            total += hours * (_part_over(low, high, above_c) + _part_over(-high, -low, below_c))
    return total


def _part_over(low: float, high: float, limit: float) -> float:
    """The part of a straight run from low to high that lies over the limit."""
    if high <= limit:
        return 0.0
    return 1.0 if low >= limit else (high - limit) / (high - low)


def _fault(code: str, head: Head, message: str) -> Problem:
    return Problem(code, head.id, message, "Correct the reading, or take it back. The temperature still counts.")
