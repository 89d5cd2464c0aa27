"""Who is where: the chicks of each lot by stage and place, and the broods that share a place.

Moves name the place chicks go to, not the one they leave. They are taken from the place named where the move only says
what became of them, else from where most of that stage are, of equal ones from the place that comes first by its id.
Without a place chicks stay where they are; only out of an incubator or hatcher they go nobody knows where. Mirrored in
pwa/src/book/whereabouts.ts.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from broodline.book.stages import CHICK_STAGES
from broodline.book.standing import Lot, Move, Standing

LIVING = ("hatched", "brooding", "growing", "flock")
YOUNG = ("hatched", "brooding", "growing")
_MACHINES = frozenset({"incubator", "hatcher"})
_CHICKS = frozenset(CHICK_STAGES)


@dataclass(frozen=True, slots=True)
class Brood:
    """Young of one lot in one place. place: None where nobody wrote it. stages: stage -> how many, each above zero."""

    lot: str
    place: str | None
    stages: Mapping[str, int]

    @property
    def n(self) -> int:
        """All of them."""
        return sum(self.stages.values())


@dataclass(slots=True)
class _Held:
    """Chicks of one lot: stage -> place -> how many."""

    by: dict[str, dict[str | None, int]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(int)))

    def put(self, stage: str, place: str | None, n: int) -> None:
        if stage in LIVING and n > 0:
            self.by[stage][place] += n

    def take(self, stage: str, n: int, first: str | None, last: str | None) -> list[tuple[str | None, int]]:
        """Up to n out of a stage as (place, n). first, last: the place they leave before, or after, all others."""
        there = self.by[stage]
        turn = sorted(
            there,
            key=lambda one: (one != first or first is None, last is not None and one == last, -there[one], one or ""),
        )
        taken = []
        for place in turn:
            some = min(n, there[place])
            if some > 0:
                there[place] -= some
                n -= some
                taken.append((place, some))
        return [*taken, (None, n)] if n else taken

    def most(self) -> str | None:
        """Where most of the chicks are."""
        by_place: dict[str | None, int] = defaultdict(int)
        for places in self.by.values():
            for place, n in places.items():
                by_place[place] += n
        return min(by_place, key=lambda place: (-by_place[place], place or ""), default=None)


def broods(standing: Standing) -> list[Brood]:
    """Every lot's young by place, in order of lots and places; a lot of a place nobody wrote comes first."""
    return [brood for lot in standing.lots.values() for brood in broods_of(standing, lot)]


def broods_of(standing: Standing, lot: Lot) -> list[Brood]:
    """The young of one lot, by place."""
    held = _held(standing, lot)
    places: dict[str | None, dict[str, int]] = defaultdict(dict)
    for stage in YOUNG:
        for place, n in held.by[stage].items():
            if n > 0:
                places[place][stage] = n
    return [Brood(lot.id, place, places[place]) for place in sorted(places, key=lambda place: place or "")]


def _held(standing: Standing, lot: Lot) -> _Held:
    held = _Held()
    setting = None if lot.setting is None else standing.settings.get(lot.setting)
    shell = None if setting is None else setting.locked_place or setting.place
    if lot.came:
        held.put(lot.start, None, lot.n)
    for move in lot.moves:
        _carry(standing, held, move, shell)
    return held


def _carry(standing: Standing, held: _Held, move: Move, shell: str | None) -> None:
    place = None if move.place is None else standing.root_of.get(move.place, move.place)
    if move.source not in LIVING:
        if move.target in LIVING:
            found = place or (held.most() if move.source == "unaccounted" or move.source in _CHICKS else shell)
            held.put(move.target, found, move.n)
        return
    stays = move.target in LIVING
    leaving = held.take(move.source, move.n, None if stays else place, place if stays else None)
    for old, n in leaving:
        held.put(move.target, place or _kept(standing, move, old), n)


def _kept(standing: Standing, move: Move, old: str | None) -> str | None:
    """Where chicks are after a move that names no place."""
    there = standing.places.get(old or "")
    out = move.source == "hatched" and move.target != "hatched"
    return None if out and (there is None or there.role in _MACHINES) else old
