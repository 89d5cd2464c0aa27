"""A thermometer that fed a machine and fell silent while eggs are in it: told until it speaks or is seen to.

Silent is three times the usual time between its readings, an hour at least; half a day where it wrote too few to tell.
A care of the air ends it, and a red alarm with it: one with a time until then, one of a day for that day if it was
written after the last reading, one dated ahead until that day is over. A reading by hand ends it for its day.
Mirrored in pwa/src/book/chores-air.ts over tests/vectors/agenda.json.
"""

import math
from collections.abc import Iterator, Sequence
from datetime import datetime
from itertools import pairwise
from statistics import median
from typing import cast

from broodline.book.bodies_rooms import Air, Care
from broodline.book.moments import HOUR_MS, instant, moment_ms
from broodline.book.standing import Head, Setting, Standing
from broodline.reports.agenda_task import Task
from broodline.reports.readings import air_of, phase_at, place_in, root
from broodline.trade.calendar import day_of, local_date
from broodline.trade.climate import LONGEST_GAP_H, SILENT_LEAST_H, SILENT_TIMES, tier
from broodline.trade.counted import many
from broodline.trade.sources import read_table

TASK = "air"
FEWEST = 3  # readings by which the time between them is known
_WORDS = read_table("agenda")["tasks"][TASK]


def air_tasks(standing: Standing, now: datetime) -> Iterator[Task]:
    """One for each machine with eggs whose thermometer has fallen silent since they were set."""
    now_ms = round(now.timestamp() * 1000)
    within: dict[str, list[Setting]] = {}
    for setting in standing.settings.values():
        if setting.runs and setting.set_at_ms <= now_ms:
            within.setdefault(place_in(setting, phase_at(setting, now_ms)), []).append(setting)
    for place, settings in within.items():
        yield from _silent(standing, place, sorted(settings, key=lambda one: (one.set_at_ms, one.id)), now)


def is_seen_to(standing: Standing, place: str, last_ms: int, now: datetime) -> bool:
    """Whether a keeper's care of the air there holds now. last_ms: of the last reading there."""
    zone = standing.keeper.zone
    today = local_date(now, zone)
    for head in standing.heads.get("care", ()):
        care = cast(Care, head.body)
        if care.task != TASK or (care.place is not None and root(standing, care.place) != place):
            continue
        if len(care.on) > len("2026-03-08"):
            holds = instant(moment_ms(care.on)) > now
        else:
            is_put_off = care.on > local_date(instant(head.at_ms), zone)
            holds = care.on >= today and (is_put_off or head.at_ms >= last_ms)
        if holds:
            return True
    return False


def is_by_sensor(head: Head) -> bool:
    """Whether a thermometer wrote that reading."""
    return cast(Air, head.body).by == "sensor"


def _silent(standing: Standing, place: str, settings: Sequence[Setting], now: datetime) -> Iterator[Task]:
    first, now_ms, zone = settings[0], round(now.timestamp() * 1000), standing.keeper.zone
    today = local_date(now, zone)
    own = [
        head
        for head in standing.heads.get("air", ())
        if first.set_at_ms <= head.at_ms <= now_ms and root(standing, cast(Air, head.body).place) == place
    ]
    spoke = sorted(head.at_ms for head in own if is_by_sensor(head))
    if not spoke or now_ms - spoke[-1] <= _silence_ms(spoke) or is_seen_to(standing, place, spoke[-1], now):
        return
    by_hand = max((head.at_ms for head in own if not is_by_sensor(head)), default=spoke[-1])
    if by_hand > spoke[-1] and local_date(instant(by_hand), zone) == today:
        return
    at = instant(spoke[-1] + _silence_ms(spoke))
    n = sum(max(0, one.stages.get(stage, 0)) for one in settings for stage in ("set", "locked"))
    due = local_date(at, zone)
    figure = _lasted(now_ms - spoke[-1]) + _graver(standing, settings)
    yield Task(TASK, None, place, at, day_of(instant(first.set_at_ms), at), n, today, due, figure=figure)


def _silence_ms(spoke: Sequence[int]) -> int:
    """From when on it is silent, after readings at these times, in order."""
    if len(spoke) < FEWEST:
        return int(LONGEST_GAP_H * HOUR_MS)
    usual = median(other - one for one, other in pairwise(spoke))
    return int(max(SILENT_LEAST_H * HOUR_MS, SILENT_TIMES * usual))


def _lasted(ms: int) -> str:
    hours = ms // HOUR_MS
    return many(hours, "hour") if hours < 48 else many(hours // 24, "day")


def _graver(standing: Standing, settings: Sequence[Setting]) -> str:
    """What the last reading said, where that was red for one of these."""
    for setting in settings:
        readings = air_of(standing, setting, [standing.lots[name] for name in setting.lots]).readings
        off_c = readings[-1].off_c if readings else None
        if off_c is not None and tier(off_c, math.inf) == "red":
            said: str = _WORDS["hot" if off_c > 0 else "cold"]
            return said
    return ""
