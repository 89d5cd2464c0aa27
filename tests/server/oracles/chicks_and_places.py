"""A slow second opinion on where chicks are: every chick an object that knows its stage and its place."""

from collections import Counter
from dataclasses import dataclass

from broodline.book.standing import Lot, Move, Standing

ALIVE = {"hatched", "brooding", "growing", "flock"}
AT_HEEL = ("hatched", "brooding", "growing")
OUT_OF_SHELL = ALIVE | {"died", "culled", "parted", "unaccounted"}


@dataclass
class Chick:
    """One chick; place: None where nobody wrote it."""

    stage: str
    place: str | None


def who_is_where(standing: Standing) -> dict[tuple[str, str | None], dict[str, int]]:
    """(lot, place) -> stage -> how many young."""
    found: dict[tuple[str, str | None], Counter[str]] = {}
    for lot in standing.lots.values():
        for chick in _walked(standing, lot):
            if chick.stage in AT_HEEL:
                found.setdefault((lot.id, chick.place), Counter())[chick.stage] += 1
    return {key: dict(counts) for key, counts in found.items()}


def _walked(standing: Standing, lot: Lot) -> list[Chick]:
    chicks = [Chick(lot.start, None) for _ in range(lot.n)] if lot.came else []
    for move in lot.moves:
        named = standing.root_of.get(move.place, move.place) if move.place is not None else None
        for chick in _chosen(standing, lot, chicks, move, named):
            chick.stage = move.target
            if named is not None:
                chick.place = named
            elif move.source == "hatched" and move.target != "hatched" and _is_machine(standing, chick.place):
                chick.place = None
        chicks = [chick for chick in chicks if chick.stage in ALIVE]
    return chicks


def _chosen(standing: Standing, lot: Lot, chicks: list[Chick], move: Move, named: str | None) -> list[Chick]:
    """The chicks a move is about. Those the book does not know of come from nowhere and are put into the list."""
    if move.source not in ALIVE:
        newcomers = [Chick(move.source, _beginning(standing, lot, chicks, move)) for _ in range(move.n)]
        chicks += newcomers
        return newcomers
    crowd = Counter(chick.place for chick in chicks if chick.stage == move.source)

    def turn(place: str | None) -> tuple[int, int, str]:
        at_the_named = 0 if named is None or place != named else (1 if move.target in ALIVE else -1)
        return at_the_named, -crowd[place], place or ""

    there = sorted((one for one in chicks if one.stage == move.source), key=lambda one: turn(one.place))
    strangers = [Chick(move.source, None) for _ in range(move.n - len(there))]
    chicks += strangers
    return [*there, *strangers][: move.n]


def _beginning(standing: Standing, lot: Lot, chicks: list[Chick], move: Move) -> str | None:
    """Where a chick is that was not among the living: in the shell's machine, or with most of the others."""
    if move.source in OUT_OF_SHELL:
        crowd = Counter(chick.place for chick in chicks)
        return min(crowd, key=lambda place: (-crowd[place], place or ""), default=None)
    setting = standing.settings.get(lot.setting or "")
    return None if setting is None else setting.locked_place or setting.place


def _is_machine(standing: Standing, place: str | None) -> bool:
    known = standing.places.get(place or "")
    return known is None or known.role in {"incubator", "hatcher"}
