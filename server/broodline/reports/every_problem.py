"""Every problem that any report of a book tells, for one list of them: the book's own, those of each setting's dates,
weighings and air, of parents and pens, of scores, and what to mind where batches share a place.

Each is worked out by what the reports call, so that nothing is told here in other words.
"""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from typing import cast

from broodline.book.bodies_eggs import EggsWeighed, Locked
from broodline.book.bodies_rooms import Air, GaugeChecked
from broodline.book.flock_checks import all_problems
from broodline.book.problems import Problem, in_order
from broodline.book.standing import Head, Setting, Standing
from broodline.reports.brood_problems import sharing_problems
from broodline.reports.flock_pedigree import flock_of
from broodline.reports.readings import air_of, end_of, root
from broodline.reports.scores import scores_of
from broodline.reports.season import counts_of_lots
from broodline.reports.setting import setting_problems
from broodline.reports.weighings import weighings_of
from broodline.trade.calendar import local_date


def every_problem(standing: Standing, now: datetime) -> tuple[Problem, ...]:
    """Without doubles, in the order of the book's own. now: aware. What depends on a wish (which birds to pair) is none
    of the book's."""
    now_ms = round(now.timestamp() * 1000)
    return in_order(
        [
            *all_problems(standing),
            *_of_settings(standing, now_ms),
            *flock_of(standing, local_date(now, standing.keeper.zone)).problems,
            *scores_of(standing)[1],
            *sharing_problems(standing, now_ms),
        ]
    )


def _of_settings(standing: Standing, now_ms: int) -> Iterator[Problem]:
    """Each setting is handed what was recorded for it alone: asked for all of it, a long book would take minutes."""
    air = _by_name(standing, "air", lambda head: cast(Air, head.body).place)
    checks = _by_name(standing, "gauge_checked", lambda head: cast(GaugeChecked, head.body).place)
    weighed = _by_name(standing, "eggs_weighed", lambda head: cast(EggsWeighed, head.body).setting)
    locked = _by_name(standing, "locked", lambda head: cast(Locked, head.body).setting)
    begun = {head.root: head for head in standing.heads.get("set", ())}
    for setting in standing.settings.values():
        lots = [standing.lots[name] for name in setting.lots]
        end_ms = end_of(setting, lots)
        places = sorted({setting.place, setting.locked_place or setting.place})
        heads = {
            "set": (begun[setting.id],),
            "outage": standing.heads.get("outage", ()),
            "air": tuple(head for place in places for head in _between(air.get(place, ()), setting, end_ms)),
            "gauge_checked": tuple(head for place in places for head in checks.get(place, ())),
            "eggs_weighed": tuple(weighed.get(setting.id, ())),
            "locked": tuple(locked.get(setting.id, ())),
        }
        own = replace(standing, heads=heads)
        air_here = air_of(own, setting, lots)
        yield from setting_problems(own, setting, lots, weighings_of(own, setting), air_here, now_ms)
        yield from counts_of_lots(setting, lots)


def _by_name(standing: Standing, kind: str, name_of: Callable[[Head], str]) -> dict[str, list[Head]]:
    """Heads of a kind by what they name, in order of time."""
    found: dict[str, list[Head]] = defaultdict(list)
    for head in sorted(standing.heads.get(kind, ()), key=lambda head: (head.at_ms, head.id)):
        found[root(standing, name_of(head))].append(head)
    return found


def _between(heads: Sequence[Head], setting: Setting, end_ms: int | None) -> Sequence[Head]:
    first = bisect_left(heads, setting.set_at_ms, key=lambda head: head.at_ms)
    last = len(heads) if end_ms is None else bisect_right(heads, end_ms, key=lambda head: head.at_ms)
    return heads[first:last]
