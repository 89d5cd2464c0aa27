"""Eggs gathered, set and candled. The keepers write what the simulated eggs show; every egg remembers its stage."""

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

from seed_scenario.flock import FAMILIES, Chance, Egg, lay
from seed_scenario.notebook import MARA, Clock, Notebook, on

GATHERING_DAYS = 7
RESTING = ("set", "locked")
GOES_OUT_AS = ("clear", "blood_ring", "quitter")
AMONG = "among:"  # before the stage of an egg whose family nobody could read


@dataclass(slots=True)
class Lot:
    """Eggs of one family in one setting."""

    name: str
    family: str
    eggs: list[Egg]
    seen: dict[int, Counter[str]] = field(default_factory=dict)  # day of incubation -> live, unsure

    @property
    def resting(self) -> list[Egg]:
        return [egg for egg in self.eggs if egg.stage in RESTING]

    def stages(self) -> dict[str, int]:
        return dict(sorted(Counter(egg.stage for egg in self.eggs).items()))


@dataclass(slots=True)
class Setting:
    """Eggs set at one time; set_day and set_time by the clock on the wall."""

    name: str
    place: str
    species: str
    set_day: int
    set_time: str
    lots: dict[str, Lot]

    def incubated(self, clock: Clock) -> tuple[int, float]:
        """Day and hours of incubation, as if no clock changed; never so near a new day that a change would matter."""
        hour, minute = (int(part) for part in self.set_time.split(":"))
        hours = (clock.day - self.set_day) * 24 + clock.seconds / 3600 - hour - minute / 60
        if not 1.05 < hours % 24 < 22.95:
            raise ValueError(f"{self.name}, {hours} h: the day of incubation would hang on summer time")
        return int(hours // 24), hours


def gather(book: Notebook, setting_day: int, wanted: dict[str, int], seed: str) -> None:
    """A week of gathering that ends the day before setting: as many kept as will be set, a few rejected."""
    first = setting_day - GATHERING_DAYS
    for day in range(first, setting_day):
        clock = Clock.at(day, "17:10")
        for family, n in wanted.items():
            chance = Chance(f"{seed}/gathered/{family}/{day}")
            kept = n // GATHERING_DAYS + (1 if day - first < n % GATHERING_DAYS else 0)
            laid = kept + (1 if chance.happens(0.2) else 0)
            if laid == 0:
                continue
            body = {"family": "@" + family, "on": on(day), "n": laid, "kept": kept, "store": "@pantry"}
            book.write("gathered", body, clock.tick(20))


def set_eggs(
    book: Notebook,
    name: str,
    place: str,
    species: str,
    day: int,
    time: str,
    wanted: dict[str, int],
    seed: str,
    note: str | None = None,
) -> Setting:
    """Eggs of several families into one machine, each lot with its sign and the days it was laid on."""
    lots = {
        family: Lot(f"{name}_{family}", family, lay(FAMILIES[family], n, Chance(f"{seed}/{name}/{family}")))
        for family, n in wanted.items()
    }
    clock = Clock.at(day, time)
    body: dict[str, Any] = {
        "place": "@" + place,
        "species": species,
        "set_at": {"on_day": day, "at_time": clock.read()[1]},
        "lots": [
            {
                "lot": "@" + lot.name,
                "family": "@" + lot.family,
                "n": len(lot.eggs),
                "laid_from": on(day - GATHERING_DAYS),
                "laid_to": on(day - 1),
                "sign": FAMILIES[lot.family].sign,
            }
            for lot in lots.values()
        ],
    }
    if note:
        body["note"] = note
    at = clock.read()
    book.write("set", body, clock.tick(240), name=name, at=at)
    return Setting(name, place, species, day, time, lots)


def move(
    book: Notebook,
    lot: Lot,
    eggs: list[Egg],
    path: list[str],
    clock: Clock,
    *,
    by: str = MARA,
    **about: Any,
) -> str | None:
    """Move eggs of one stage along a path of stages, in one entry; None where there are none to move."""
    if not eggs:
        return None
    (start,) = {egg.stage for egg in eggs}
    steps = [start, *path]
    moves = [
        {"lot": "@" + lot.name, "from": source, "to": target, "n": len(eggs)}
        for source, target in zip(steps, path, strict=False)
    ]
    for egg in eggs:
        egg.stage = path[-1]
    return book.write("moved", {"moves": moves, **about}, clock.tick(), by=by)


def candle(
    book: Notebook,
    setting: Setting,
    lot: Lot,
    clock: Clock,
    *,
    by: str = MARA,
    taps: int | None = None,
    rest_are_live: bool = False,
) -> list[str]:
    """One lot under the candle, one tap an egg; gives the names of the entries.

    taps: stop after so many eggs. rest_are_live: tap only what goes out, then "the rest are live".
    """
    day, _ = setting.incubated(clock)
    seen = lot.seen.setdefault(day, Counter())
    in_hand = lot.resting[sum(seen.values()) :]
    written: list[str] = []
    for egg in in_hand[:taps]:
        shows = egg.candled(day)
        if shows in GOES_OUT_AS:
            written.append(str(move(book, lot, [egg], [shows], clock, by=by, why="candled", day=day)))
        elif not rest_are_live:
            written.append(look(book, setting, lot, clock, "candled", day, by=by, live=1))
            seen["live"] += 1
    if rest_are_live:
        left = len(lot.resting) - sum(seen.values())
        written.append(look(book, setting, lot, clock, "candled", day, by=by, live=left))
        seen["live"] += left
    return written


def look(
    book: Notebook, setting: Setting, lot: Lot, clock: Clock, what: str, day: int, *, by: str = MARA, **seen: Any
) -> str:
    """A look at a lot that moves nothing."""
    body = {"setting": "@" + setting.name, "lot": "@" + lot.name, "what": what, "day": day, **seen}
    return book.write("looked", body, clock.tick(), by=by)
