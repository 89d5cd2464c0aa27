"""An alarm of the air: a thermometer says that it has been outside its band for longer than its tier allows.

Red above the band is told at once; red below it after the hour that its tier has; amber after a while, because most
strays end by themselves. A thermometer that falls silent ends amber, of which nothing is known then; red stands until
a reading in the band, by whomever, or a care of the air ends it. It is no safety device: a phone that is off says
nothing. That a thermometer is silent stands in Due (agenda_air).
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import cast

from broodline.book.bodies_rooms import Air
from broodline.book.moments import HOUR_MS, instant
from broodline.book.standing import Lot, Setting, Standing
from broodline.reports.agenda_air import is_by_sensor, is_seen_to
from broodline.reports.readings import air_of, phase_at, place_in, place_of, root
from broodline.trade.climate import Tier, target_c, tier
from broodline.trade.counted import many
from broodline.trade.excursions import Excursion, Reading, excursions
from broodline.trade.sources import cell, read_table
from broodline.trade.units import warmer_told

_HOURS = {name: cell(written).value for name, written in read_table("reminders")["hours"].items()}
AMBER_AFTER_H: float = _HOURS["air_amber"]
FRESH = timedelta(hours=_HOURS["air_fresh"])


@dataclass(frozen=True, slots=True)
class AirAlarm:
    """One spell that is to be told of. since: when the air left its band. at: when its tier's time was over."""

    place: str
    setting: str
    tier: Tier
    since: datetime
    at: datetime
    words: str


WITHIN = "within"


def band_of(standing: Standing, place: str, dry_c: float, at_ms: int) -> str | None:
    """Where that temperature lies for the eggs in the place: WITHIN, or its tier and side ("amber hot", "red cold").
    Of several eggs each such word once, in order, with commas between. None where no band is known."""
    found = {
        _tier_and_side(dry_c - target)
        for setting in _settings_at(standing, place, at_ms)
        if (target := _target(standing, setting, at_ms)) is not None
    }
    return ", ".join(sorted(found)) if found else None


def _tier_and_side(off_c: float) -> str:
    """Red below is red at once: the hour that it may last is counted from its first reading."""
    found = tier(off_c, math.inf)
    return WITHIN if found is None else f"{found} {'hot' if off_c > 0 else 'cold'}"


def air_alarms(standing: Standing, now: datetime) -> Iterator[AirAlarm]:
    """All spells that still last by the thermometers' last word and were seen to by nobody."""
    now_ms = round(now.timestamp() * 1000)
    for place in standing.places:
        own = [head for head in standing.heads.get("air", ()) if root(standing, cast(Air, head.body).place) == place]
        last = max(own, key=lambda head: (head.at_ms, head.id), default=None)
        if last is None or not any(map(is_by_sensor, own)) or is_seen_to(standing, place, last.at_ms, now):
            continue
        speaks = is_by_sensor(last) and abs(now - instant(last.at_ms)) <= FRESH
        by_sensor = [head.at_ms for head in own if is_by_sensor(head)]
        for setting in _settings_at(standing, place, now_ms):
            alarm = _alarm(standing, setting, place, now_ms, speaks, by_sensor)
            if alarm is not None:
                yield alarm
                break  # one machine, one alarm


def _alarm(
    standing: Standing, setting: Setting, place: str, now_ms: int, speaks: bool, by_sensor: Sequence[int]
) -> AirAlarm | None:
    """speaks: whether the thermometer's word is of now; else only red stands. by_sensor: when thermometers spoke."""
    phase = phase_at(setting, now_ms)
    lots: list[Lot] = [standing.lots[name] for name in setting.lots]
    points = [
        Reading((one.at_ms - setting.set_at_ms) / HOUR_MS, one.off_c)
        for one in air_of(standing, setting, lots).readings
        if one.phase == phase and one.off_c is not None
    ]
    spell = next((one for one in reversed(excursions(points)) if one.still), None)
    if spell is None or not points or spell.until_h < points[-1].at_h:
        return None
    since_ms = setting.set_at_ms + spell.from_h * HOUR_MS
    if not speaks and (spell.tier != "red" or not any(at_ms >= since_ms for at_ms in by_sensor)):
        return None
    told_h = spell.from_h if spell.tier == "red" else spell.from_h + AMBER_AFTER_H
    if spell.until_h < told_h:
        return None
    at_h = spell.until_h if spell.tier == "red" else told_h
    return AirAlarm(
        place,
        setting.id,
        spell.tier,
        _instant(setting, spell.from_h),
        _instant(setting, at_h),
        _words(standing, place, spell, points[-1], None if speaks else now_ms - by_sensor[-1]),
    )


def _words(standing: Standing, place: str, spell: Excursion, last: Reading, silent_ms: int | None) -> str:
    """silent_ms: since the thermometer spoke; None where its word is of now."""
    named = place_of(standing, place)
    off = warmer_told(abs(last.off_c), standing.keeper.temperature)
    warm = "too warm" if spell.way == "hot" else "too cold"
    name = named.name if named is not None else "a machine"
    if silent_ms is not None:
        silent = f"its thermometer has said nothing for {_lasted(silent_ms / HOUR_MS)}"
        return f"{name} was {off} {warm} when last read; {silent}. Look at it yourself."
    lasted = _lasted(spell.until_h - spell.from_h)
    return f"{name} is {off} {warm}, for {lasted} now. Look at it yourself: a thermometer can be wrong too."


def _lasted(hours: float) -> str:
    return many(round(hours * 60), "minute") if hours < 2 else f"{hours:.0f} hours"


def _settings_at(standing: Standing, place: str, at_ms: int) -> list[Setting]:
    """Settings that run and whose eggs stand there at that time."""
    return [
        one
        for one in standing.settings.values()
        if one.runs and one.set_at_ms <= at_ms and place_in(one, phase_at(one, at_ms)) == place
    ]


def _target(standing: Standing, setting: Setting, at_ms: int) -> float | None:
    phase = phase_at(setting, at_ms)
    place = place_of(standing, place_in(setting, phase))
    return target_c(setting.species, phase, place.air if place is not None else None)


def _instant(setting: Setting, hours: float) -> datetime:
    return instant(setting.set_at_ms + round(hours * HOUR_MS))
