"""The setting that is finished: looks at the hatch, opening what did not hatch, chicks into the brooder, losses."""

from typing import Any

from seed_scenario.eggs import Lot, Setting, look, move
from seed_scenario.flock import Chance, Egg
from seed_scenario.notebook import MARA, ORLA, Clock, Notebook, on
from seed_scenario.rooms import RING_COLOURS

# Days and times counted from the day of setting, by the clock on the wall.
LOOKS = (
    (19, "21:00"), (20, "07:30"), (20, "13:00"), (20, "19:30"), (20, "23:10"),
    (21, "04:30"), (21, "08:15"), (21, "13:00"), (21, "20:30"), (22, "08:00"),
)  # fmt: skip
PIPS_COUNTED = LOOKS[1]
PULLED = ((21, "13:40"), (22, "08:40"))
ASTRAY = "astray"  # a chick that stands between two baskets, until its family is known
FATES = ("infertile", "dead_early", "dead_mid", "dead_late", "dead_internal_pip", "dead_external_pip")


def lock(book: Notebook, setting: Setting, clock: Clock, hatcher: str) -> None:
    """Lockdown: eggs into the hatcher, each family in its own basket."""
    book.write("locked", {"setting": "@" + setting.name, "place": "@" + hatcher}, clock.tick())
    for lot in setting.lots.values():
        move(book, lot, lot.resting, ["locked"], clock, why="lockdown", place="@" + hatcher)


def watch(book: Notebook, setting: Setting, astray: tuple[str, str]) -> str:
    """All looks at the hatch. astray: two families whose baskets one chick stood between; gives that entry's name.

    The chick is of the second of the two: that comes out when the eggs left in the baskets are counted.
    """
    found_astray = None
    for offset, time in LOOKS:
        clock = Clock.at(setting.set_day + offset, time)
        by = ORLA if time < "05:00" else MARA
        day, hours = setting.incubated(clock)
        out = {lot.name: _out_by(lot, hours) for lot in setting.lots.values()}
        of_second = out[setting.lots[astray[1]].name]
        if found_astray is None and len(of_second) > 1:
            of_second.pop().stage = ASTRAY
            among = ["@" + setting.lots[family].name for family in astray]
            moves = [{"among": among, "from": "locked", "to": "hatched", "n": 1}]
            found_astray = book.write("moved", {"moves": moves, "why": "hatch", "day": day}, clock.tick(), by=by)
        for lot in setting.lots.values():
            strong = [egg for egg in out[lot.name] if egg.cause != "weak"]
            weak = [egg for egg in out[lot.name] if egg.cause == "weak"]
            move(book, lot, strong, ["hatched"], clock, by=by, why="hatch", day=day)
            move(book, lot, weak, ["hatched"], clock, by=by, why="hatch", day=day, weak=True)
            pipped = sum(egg.pips_by(hours) for egg in lot.resting) if (offset, time) == PIPS_COUNTED else 0
            if pipped:
                look(book, setting, lot, clock, "hatch", day, by=by, pipped=pipped)
            elif not any(out.values()):
                look(book, setting, lot, clock, "hatch", day, by=by, none=True)
    if found_astray is None:
        raise ValueError("no chick stood between the baskets")
    return found_astray


def _out_by(lot: Lot, hours: float) -> list[Egg]:
    return [egg for egg in lot.resting if egg.hatch_h is not None and egg.hatch_h <= hours]


def settle_astray(book: Notebook, setting: Setting, name: str, family: str, clock: Clock) -> None:
    """The chick from between the baskets gets its family: a correction, with the time it first had."""
    line = next(line for line in book.lines if line["name"] == name)
    (stray,) = [egg for egg in setting.lots[family].eggs if egg.stage == ASTRAY]
    stray.stage = "hatched"
    moves = [{"lot": "@" + setting.lots[family].name, "from": "locked", "to": "hatched", "n": 1}]
    day, time = line["written"]
    book.write("moved", {**line["body"], "moves": moves}, clock.tick(), at=(day, time), amends=name)


def open_eggs(book: Notebook, setting: Setting, clock: Clock) -> None:
    """Everything that did not hatch broken open, the eggs taken out at the candling as well."""
    for lot in setting.lots.values():
        for stage in ("clear", "blood_ring", "quitter", "locked"):
            for fate in FATES:
                eggs = [egg for egg in lot.eggs if egg.stage == stage and egg.fate == fate]
                path = ["unhatched", fate] if stage == "locked" else [fate]
                move(book, lot, eggs, path, clock, why="opened")


def brood(book: Notebook, setting: Setting, brooder: str) -> None:
    """Dry chicks out of the hatcher in two rounds, ringed by family before they leave their basket."""
    for number, (offset, time) in enumerate(PULLED):
        clock = Clock.at(setting.set_day + offset, time)
        _, hours = setting.incubated(clock)
        for lot in setting.lots.values():
            dry = [egg for egg in lot.eggs if egg.stage == "hatched" and _dry(egg, hours, number)]
            if not dry:
                continue
            ring = {"kind": "ring", "colour": RING_COLOURS[lot.family], "leg": "left"}
            marked = {"lot": "@" + lot.name, "tag": ring, "n": len(dry), "on": on(clock.day)}
            book.write("marked", marked, clock.tick(40))
            move(book, lot, dry, ["brooding"], clock, why="brooded", place="@" + brooder)


def _dry(egg: Egg, hours: float, number: int) -> bool:
    return number == len(PULLED) - 1 or (egg.hatch_h is not None and egg.hatch_h + 6 <= hours)


def lose_chicks(book: Notebook, setting: Setting) -> None:
    """Deaths of the first week, found at the morning round."""
    for lot in setting.lots.values():
        for egg in lot.eggs:
            if egg.stage == "brooding" and egg.dies_on_day is not None:
                clock = Clock.at(setting.set_day + 22 + egg.dies_on_day, "09:30")
                move(book, lot, [egg], ["died"], clock, why="lost", cause=egg.cause)


def weigh_chicks(book: Notebook, setting: Setting, day: int, seed: str) -> None:
    """Six chicks of each family on the kitchen scales."""
    clock = Clock.at(day, "18:00")
    for lot in setting.lots.values():
        chance = Chance(f"{seed}/weighed/{lot.name}/{day}")
        alive = sum(egg.stage == "brooding" for egg in lot.eggs)
        birds: list[dict[str, Any]] = [{"mass_g": round(chance.normal(165.0, 16.0))} for _ in range(min(6, alive))]
        book.write("weighed", {"lot": "@" + lot.name, "birds": birds, "sex": "unknown", "on": on(day)}, clock.tick(90))
