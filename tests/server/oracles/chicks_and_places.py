"""A slow second opinion on where chicks are: every chick an object that knows its stage and its place."""

from collections import Counter
from dataclasses import dataclass

from broodline.book.standing import Lot, Move, Standing

ALIVE = {"hatched", "brooding", "growing", "flock"}
AGES = ("hatched", "brooding", "growing", "flock")
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
    """A chick that is moved before anybody wrote it down goes on its way when it is; at the end, from nowhere."""
    chicks = [Chick(lot.start, None) for _ in range(lot.n)] if lot.came else []
    early: list[Move] = []
    for move in lot.moves:
        short = _moved(standing, lot, chicks, move)
        early = _later(standing, lot, chicks, early)
        early += [move._replace(n=short)] if short and move.source != move.target else []
    while early:
        first = min(early, key=lambda move: AGES.index(move.source))
        early.remove(first)
        chicks += [Chick(first.source, None) for _ in range(first.n)]
        _moved(standing, lot, chicks, first)
        early = _later(standing, lot, chicks, early)
    return chicks


def _later(standing: Standing, lot: Lot, chicks: list[Chick], early: list[Move]) -> list[Move]:
    tried = [(move, _moved(standing, lot, chicks, move)) for move in early]
    left = [move._replace(n=short) for move, short in tried if short]
    return left if left == early else _later(standing, lot, chicks, left)


def _moved(standing: Standing, lot: Lot, chicks: list[Chick], move: Move) -> int:
    """How many of those it tells of are not there."""
    named = standing.root_of.get(move.place, move.place) if move.place is not None else None
    chosen = _chosen(standing, lot, chicks, move, named)
    for chick in chosen:
        chick.stage = move.target
        if named is not None:
            chick.place = named
        elif move.source == "hatched" and move.target != "hatched" and _is_machine(standing, chick.place):
            chick.place = None
    chicks[:] = [chick for chick in chicks if chick.stage in ALIVE]
    return move.n - len(chosen)


def _chosen(standing: Standing, lot: Lot, chicks: list[Chick], move: Move, named: str | None) -> list[Chick]:
    """The chicks a move is about, as far as they are there. Those out of a shell are put into the list."""
    if move.source not in ALIVE:
        newcomers = [Chick(move.source, _beginning(standing, lot, chicks, move)) for _ in range(move.n)]
        chicks += newcomers
        return newcomers
    crowd = Counter(chick.place for chick in chicks if chick.stage == move.source)

    def turn(place: str | None) -> tuple[int, int, str]:
        at_the_named = 0 if named is None or place != named else (1 if move.target in ALIVE else -1)
        return at_the_named, -crowd[place], place or ""

    return sorted((one for one in chicks if one.stage == move.source), key=lambda one: turn(one.place))[: move.n]


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
