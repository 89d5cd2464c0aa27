"""Who is kept here at the end of a day: birds known by themselves, and chicks that are counted by their batches.

A bird that came is kept from that day on; a forebear known from papers alone never. One that came out of a batch is
counted in it until it is written down by itself; any other is kept since it hatched, where nobody wrote when, since it
was written down. Mirrored in pwa/src/book/kept-here.ts over tests/vectors/kept_here.json.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import cast

from broodline.book.birds import NEVER_HERE, OneBird, bird_id, birds_of
from broodline.book.bodies_flock import Came, Left
from broodline.book.moments import instant
from broodline.book.out_of_shell import put_back
from broodline.book.stages import MISSING
from broodline.book.standing import Move, Standing
from broodline.book.whereabouts import LIVING
from broodline.trade.calendar import local_date

_CAME_BACK = ("returned", "found")
_NEVER = "9999-12-31"


@dataclass(frozen=True, slots=True)
class Kept:
    """birds: those known by themselves, by id. chicks: how many of batches, of whom no bird is written down."""

    birds: dict[str, OneBird]
    chicks: int


def kept_here(standing: Standing, day: str) -> Kept:
    """All that is kept at the end of a local day, as far as it is written."""
    birds = birds_of(standing, day)
    written = _written(standing)
    came = _came(standing)
    here: dict[str, OneBird] = {}
    named: Counter[tuple[str, ...]] = Counter()
    for bird, one in birds.items():
        lots = one.body.lots or ()
        if lots and written[bird] <= day:
            named[tuple(part.lot for part in lots)] += 1
        since = written[bird] if lots else one.body.hatched_on or written[bird]
        if one.where == "here" and came.get(bird, since) <= day:
            here[bird] = one
    return Kept(here, _chicks(standing, day, named))


def found_again(moves: Iterable[Move]) -> list[Move]:
    """Chicks that were missing and are back, in order of time. What was lost from sight and is put into hatched is an
    egg beyond the chicks that are missing by then; n is that of the chicks."""
    back = [
        (move, n if move.target == "hatched" else move.n)
        for move, n in put_back(moves)
        if move.source == MISSING and move.target in LIVING
    ]
    return [move._replace(n=n) for move, n in back if n > 0]


def _written(standing: Standing) -> dict[str, str]:
    """The local day each bird was written down first."""
    days: dict[str, str] = {}
    for head in standing.heads.get("bird", ()):
        bird, day = bird_id(standing, head.root), local_date(instant(head.at_ms), standing.keeper.zone)
        days[bird] = min(day, days.get(bird, day))
    return days


def _came(standing: Standing) -> dict[str, str]:
    """Since when birds are here that were not before: those whose first passage is a coming, and those never here."""
    gone: dict[str, str] = {}
    never = {}
    for head in standing.heads.get("left", ()):
        left = cast(Left, head.body)
        bird = bird_id(standing, left.bird)
        if left.cause == NEVER_HERE:
            never[bird] = _NEVER
        else:
            gone[bird] = min(left.on, gone.get(bird, left.on))
    coming: dict[str, tuple[str, bool]] = {}
    for head in standing.heads.get("came", ()):
        came = cast(Came, head.body)
        if came.bird is not None:
            bird, first = bird_id(standing, came.bird), (came.on, came.how in _CAME_BACK)
            coming[bird] = min(first, coming.get(bird, first))
    new = {bird: on for bird, (on, back) in coming.items() if not back and on < gone.get(bird, _NEVER)}
    return new | never | {bird: on for bird, (on, _) in coming.items() if bird in never}


def _chicks(standing: Standing, day: str, named: Counter[tuple[str, ...]]) -> int:
    zone = standing.keeper.zone

    def change(move: Move) -> int:
        by = move.n * ((move.target in LIVING) - (move.source in LIVING))
        return by if by and local_date(instant(move.at_ms), zone) <= day else 0

    bodies = [cast(Came, head.body) for head in standing.heads.get("came", ())]
    founded = {body.lot: body.on for body in reversed(bodies) if body.lot is not None and body.n is not None}
    alive: dict[str, int] = {}
    for lot in standing.lots.values():
        begun = lot.n if lot.came and founded.get(lot.id, "") <= day else 0
        alive[lot.id] = max(0, begun + sum(map(change, lot.moves)))
    told = sum(alive.values()) - _taken_off(alive, named)
    return max(0, told + sum(change(move) for one in standing.settings.values() for move in one.among))


def _taken_off(alive: Mapping[str, int], named: Counter[tuple[str, ...]]) -> int:
    """How many chicks of batches are birds written down by themselves: each is one of a batch it may have come from, as
    far as any of these has one left. named: by the batches they may be of."""
    held: dict[str, Counter[tuple[str, ...]]] = {lot: Counter() for lot in alive}

    def takes(lots: tuple[str, ...], asked: set[str]) -> bool:
        for lot in lots:
            if lot not in alive or lot in asked:
                continue
            asked.add(lot)
            own = held[lot]
            if own.total() >= alive[lot]:  # a bird that may as well be of another batch makes room
                other = next((other for other in +own if takes(other, asked)), None)
                if other is None:
                    continue
                own[other] -= 1
            own[lots] += 1
            return True
        return False

    return sum(takes(lots, set()) for lots in named.elements())
