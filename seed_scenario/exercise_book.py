"""Hatches from before the app: Mara types them in from her exercise book, one line for all families at a time.

The book held what came out at the candling, what hatched, what was found in the eggs that did not, and what became of
the chicks; nothing of air or weight. `written` is the evening of typing, `at` the day it happened.
"""

import itertools
from collections.abc import Callable, Iterable
from typing import Any

from seed_scenario.eggs import GATHERING_DAYS, Lot, Setting
from seed_scenario.finished_hatch import FATES
from seed_scenario.flock import FAMILIES, Chance, Egg, lay
from seed_scenario.notebook import Clock, Notebook, on

SET_TIME = "06:00"
CANDLED, LOCKED, OUT_FIRST, OUT_LAST, OPENED = 7, 18, 21, 22, 24
GROWN_DAYS, SOLD_DAYS = 42, 119


def type_in(
    book: Notebook,
    typing: Clock,
    name: str,
    set_day: int,
    wanted: dict[str, int],
    seed: str,
    *,
    kept: dict[str, int] | None,
) -> Setting:
    """One setting from eggs to grown chicks. kept: how many of each family joined the birds, each written down by
    itself; the others were sold in that autumn. None: all are growing still."""
    lots = {
        family: Lot(f"{name}_{family}", family, lay(FAMILIES[family], n, Chance(f"{seed}/{name}/{family}")))
        for family, n in wanted.items()
    }
    setting = Setting(name, "loft_box", "chicken", set_day, SET_TIME, lots)
    for lot in lots.values():
        n = len(lot.eggs)
        body = {"family": "@" + lot.family, "on": on(set_day - 1), "n": n, "kept": n, "store": "@pantry"}
        book.write("gathered", body, typing.tick(15), at=(set_day - 1, "17:00:00"))
    book.write("set", _set_body(setting), typing.tick(40), name=name, at=(set_day, SET_TIME + ":00"))
    _all(book, setting, typing, CANDLED, "20:40", _at_candling, why="candled")
    at = (set_day + LOCKED, "20:00:00")
    book.write("locked", {"setting": "@" + name, "place": "@hatcher"}, typing.tick(15), at=at)
    _all(book, setting, typing, LOCKED, "20:00", lambda egg: ["locked"] if egg.stage == "set" else [], why="lockdown")
    for day in (OUT_FIRST, OUT_LAST):
        _, hours = setting.incubated(Clock.at(set_day + day, "20:00"))
        _all(book, setting, typing, day, "20:00", _out_by(hours), why="hatch")
    _all(book, setting, typing, OUT_LAST, "20:30", lambda egg: ["brooding"] if egg.stage == "hatched" else [],
         why="brooded", place="@brooder_one")  # fmt: skip
    _all(book, setting, typing, OPENED, "20:00", _opened, why="opened")
    _all(book, setting, typing, OUT_LAST + 4, "20:00", _lost, day=False, why="lost")
    _all(book, setting, typing, OUT_LAST + GROWN_DAYS, "18:00",
         lambda egg: ["growing"] if egg.stage == "brooding" else [],
         day=False, why="brooded", place="@young_run")  # fmt: skip
    if any(egg.stage in ("set", "locked", "hatched", "brooding") for lot in lots.values() for egg in lot.eggs):
        raise ValueError(f"{name} is not finished")
    if kept is not None:
        for lot in lots.values():
            for egg in [egg for egg in lot.eggs if egg.stage == "growing"][: kept[lot.family]]:
                egg.stage = "keeping"
        _all(book, setting, typing, OUT_LAST + SOLD_DAYS, "18:00", _kept_or_sold, day=False, why="left",
             who="Breeders' day at Millbridge")  # fmt: skip
    return setting


def _set_body(setting: Setting) -> dict[str, Any]:
    return {
        "place": "@" + setting.place,
        "species": setting.species,
        "set_at": {"on_day": setting.set_day, "at_time": SET_TIME + ":00"},
        "lots": [
            {
                "lot": "@" + lot.name,
                "family": "@" + lot.family,
                "n": len(lot.eggs),
                "laid_from": on(setting.set_day - GATHERING_DAYS),
                "laid_to": on(setting.set_day - 1),
                "sign": FAMILIES[lot.family].sign,
            }
            for lot in setting.lots.values()
        ],
        "note": "From the exercise book.",
    }


def _all(
    book: Notebook,
    setting: Setting,
    typing: Clock,
    offset: int,
    time: str,
    path_of: Callable[[Egg], list[str]],
    *,
    day: bool = True,
    **about: Any,
) -> None:
    """What happened to all lots on a day, as one entry. path_of: the stages an egg goes through then."""
    moves: list[dict[str, Any]] = []
    for lot in setting.lots.values():
        groups: dict[tuple[str, ...], list[Egg]] = {}
        for egg in lot.eggs:
            if path := path_of(egg):
                groups.setdefault(("growing" if egg.stage == "keeping" else egg.stage, *path), []).append(egg)
        for steps, eggs in groups.items():
            moves += _moves(lot, steps, len(eggs))
            for egg in eggs:
                egg.stage = steps[-1]
    if moves:
        told = {"day": offset} if day else {}
        body = {"moves": moves, **told, **about}
        book.write("moved", body, typing.tick(25), at=(setting.set_day + offset, time + ":00"))


def _moves(lot: Lot, steps: Iterable[str], n: int) -> list[dict[str, Any]]:
    stages = list(steps)
    return [
        {"lot": "@" + lot.name, "from": source, "to": target, "n": n} for source, target in itertools.pairwise(stages)
    ]


def _at_candling(egg: Egg) -> list[str]:
    shows = egg.candled(CANDLED)
    return [] if shows == "live" else [shows]


def _out_by(hours: float) -> Callable[[Egg], list[str]]:
    return lambda egg: ["hatched"] if egg.stage == "locked" and egg.hatch_h is not None and egg.hatch_h <= hours else []


def _opened(egg: Egg) -> list[str]:
    if egg.stage in ("clear", "blood_ring"):
        return [egg.fate]
    return ["unhatched", egg.fate] if egg.stage == "locked" and egg.fate in FATES else []


def _lost(egg: Egg) -> list[str]:
    return ["died"] if egg.stage == "brooding" and egg.dies_on_day is not None else []


def _kept_or_sold(egg: Egg) -> list[str]:
    return {"keeping": ["flock"], "growing": ["parted"]}.get(egg.stage, [])
