"""The air readings that belong to a setting, put right by gauge checks, and which gauges were checked that season.

Readings of the setter until lockdown, of the hatcher from then on, each held against the target for its phase. A
reading is put right by the last check of its gauge before it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import cast

from broodline.book.bodies_rooms import Air, GaugeChecked, Place
from broodline.book.problems import Problem
from broodline.book.standing import Head, Lot, Setting, Standing
from broodline.reports.season_year import season_of
from broodline.trade.air import height_m, humidity_pct
from broodline.trade.climate import READABLE_C, Stage, target_c
from broodline.trade.units import temperature_told

GAUGES = ("dry", "wet", "humidity")


@dataclass(frozen=True, slots=True)
class AirReading:
    """One reading, put right. off_c: from the target, None for a species without one. corrected: a check changed it."""

    at_ms: int
    phase: Stage
    dry_c: float
    off_c: float | None
    humidity_pct: float | None
    corrected: bool


@dataclass(frozen=True, slots=True)
class Gauge:
    """A gauge that was read for a setting. checked_ms: its last check of that season, None where there was none."""

    place: str
    name: str
    checked_ms: int | None
    off: float | None


@dataclass(frozen=True, slots=True)
class SettingAir:
    """Readings in order of time; problems: readings that no air gives. phases: where and how the air was each time."""

    readings: tuple[AirReading, ...]
    gauges: tuple[Gauge, ...]
    problems: tuple[Problem, ...]

    @property
    def last_humidity_pct(self) -> float | None:
        return next((one.humidity_pct for one in reversed(self.readings) if one.humidity_pct is not None), None)

    @property
    def humidity_checked(self) -> bool:
        """Whether every gauge behind the humidity was checked that season."""
        behind = [gauge for gauge in self.gauges if gauge.name != "dry" or self._by_bulbs]
        return all(gauge.checked_ms is not None for gauge in behind)

    @property
    def _by_bulbs(self) -> bool:
        return any(gauge.name == "wet" for gauge in self.gauges)


def air_of(standing: Standing, setting: Setting, lots: Sequence[Lot]) -> SettingAir:
    """The readings that belong to a setting: from setting to lockdown at its place, then at the hatcher to the end."""
    heads = []
    end_ms = end_of(setting, lots)
    for head in standing.heads.get("air", ()):
        place = root(standing, cast(Air, head.body).place)
        phase = phase_at(setting, head.at_ms)
        if place != place_in(setting, phase) or head.at_ms < setting.set_at_ms:
            continue
        if end_ms is None or head.at_ms <= end_ms:
            heads.append((head, phase))
    heads.sort(key=lambda pair: (pair[0].at_ms, pair[0].id))
    problems: list[Problem] = [_no_temperature(standing, head) for head, _ in heads if not _is_readable(head)]
    heads = [(head, phase) for head, phase in heads if _is_readable(head)]
    readings = tuple(_reading(standing, setting, head, phase, problems) for head, phase in heads)
    if any(cast(Air, head.body).wet_c is not None for head, _ in heads):
        problems += _wrong_height(standing)
    return SettingAir(readings, _gauges(standing, setting, [head for head, _ in heads]), tuple(problems))


def phase_at(setting: Setting, at_ms: int) -> Stage:
    """Setter until lockdown, hatcher from then on."""
    return "hatcher" if setting.locked_at_ms is not None and at_ms >= setting.locked_at_ms else "setter"


def place_in(setting: Setting, phase: Stage) -> str:
    """Where the eggs stood in that phase."""
    return (setting.locked_place or setting.place) if phase == "hatcher" else setting.place


def end_of(setting: Setting, lots: Sequence[Lot]) -> int | None:
    """When the last egg left setter or hatcher; None while one is there."""
    if setting.runs:
        return None
    moves = [*setting.among, *(move for lot in lots for move in lot.moves)]
    return max((move.at_ms for move in moves if move.source in ("set", "locked")), default=None)


def place_of(standing: Standing, name: str) -> Place | None:
    """A place by any of its ids."""
    return standing.places.get(root(standing, name))


def root(standing: Standing, name: str) -> str:
    """The identity behind an id."""
    return standing.root_of.get(name, name)


def _reading(standing: Standing, setting: Setting, head: Head, phase: Stage, problems: list[Problem]) -> AirReading:
    body = cast(Air, head.body)
    place = place_of(standing, body.place)
    written = (body.dry_c, body.wet_c, body.humidity_pct)
    right = tuple(_put_right(standing, head, gauge, value) for gauge, value in zip(GAUGES, written, strict=True))
    dry_c = body.dry_c if right[0] is None else right[0]
    wet_c, humidity = right[1:]
    if humidity is None and wet_c is not None:
        try:
            humidity = humidity_pct(dry_c, wet_c, height_m(standing.keeper.altitude_m))
        except ValueError as fault:
            problems.append(_fault("wet_bulb", head, f"These two bulbs do not go together: {fault}."))
    elif humidity is not None and not 0 <= humidity <= 100:
        problems.append(_fault("humidity", head, f"{humidity:g} % is no humidity."))
        humidity = None
    target = target_c(setting.species, phase, place.air if place is not None else None)
    off_c = None if target is None else dry_c - target
    return AirReading(head.at_ms, phase, dry_c, off_c, humidity, right != written)


def _is_readable(head: Head) -> bool:
    low, high = READABLE_C
    return low <= cast(Air, head.body).dry_c <= high


def _no_temperature(standing: Standing, head: Head) -> Problem:
    dry_c, scale = cast(Air, head.body).dry_c, standing.keeper.temperature
    told = f"{dry_c:g} °C" if scale == "C" else temperature_told(dry_c, scale)
    return Problem(
        "temperature",
        head.id,
        f"No machine with eggs in it is at {told}, so this reading is left out.",
        "Correct the reading. Was it in °F?" if scale == "C" else "Correct the reading. Was it in °F already?",
    )


def _wrong_height(standing: Standing) -> list[Problem]:
    """A height of the holding that no air is known for is a fault of the holding, not of its bulbs."""
    written = standing.keeper.altitude_m
    if written is None or written == height_m(written):
        return []
    message = f"No holding lies {written:,.0f} m above the sea, so both bulbs are read as they would be at the sea."
    return [Problem("height", None, message, "Correct the height above the sea in the holding's settings.")]


def _put_right(standing: Standing, head: Head, gauge: str, value: float | None) -> float | None:
    """A value corrected by the last check of that gauge at that place before the reading."""
    if value is None:
        return None
    check = _last_check(standing, root(standing, cast(Air, head.body).place), gauge, head.at_ms)
    return value if check is None else value + _off(check)


def _last_check(standing: Standing, place: str, gauge: str, by_ms: int) -> Head | None:
    checks = [
        (one.at_ms, one.id, one)
        for one in standing.heads.get("gauge_checked", ())
        for body in (cast(GaugeChecked, one.body),)
        if body.gauge == gauge and one.at_ms <= by_ms and root(standing, body.place) == place
    ]
    return max(checks)[2] if checks else None


def _off(check: Head) -> float:
    body = cast(GaugeChecked, check.body)
    return body.true_value - body.reads


def _gauges(standing: Standing, setting: Setting, heads: Sequence[Head]) -> tuple[Gauge, ...]:
    """Every gauge that was read, with its last check of the setting's season before its last reading."""
    last: dict[tuple[str, str], int] = {}
    for head in heads:
        body = cast(Air, head.body)
        for gauge, value in zip(GAUGES, (body.dry_c, body.wet_c, body.humidity_pct), strict=True):
            if value is not None:
                last[root(standing, body.place), gauge] = head.at_ms
    season = season_of(standing, setting.set_at_ms)
    found = []
    for (place, gauge), at_ms in last.items():
        check = _last_check(standing, place, gauge, at_ms)
        if check is not None and season_of(standing, check.at_ms) != season:
            check = None
        found.append(
            Gauge(place, gauge, None, None) if check is None else Gauge(place, gauge, check.at_ms, _off(check))
        )
    return tuple(found)


def _fault(code: str, head: Head, message: str) -> Problem:
    return Problem(code, head.id, message, "Correct the reading, or take it back. The temperature still counts.")
