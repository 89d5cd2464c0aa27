"""Who is where: the chicks of each lot by stage and place, the broods that share a place, and where they stood before.

Moves name the place chicks go to, not the one they leave. They are taken from the place named where the move only says
what became of them, else from where most of that stage are, of equal ones from the place that comes first by its id.
Without a place chicks stay where they are; only out of an incubator or hatcher they go nobody knows where. Places hold
as many as the counts say: a move that was written by a slow clock waits until those it moves are there, and where more
move house than are there, those that are there move. Chicks of unknown family are a brood of the lots they may be of.
Mirrored in pwa/src/book/whereabouts.ts over tests/vectors/whereabouts.json.
"""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from broodline.book.stages import CHICK_STAGES, MISSING
from broodline.book.standing import Lot, Move, Setting, Standing
from broodline.book.tied import Tied, tied_groups

LIVING = ("hatched", "brooding", "growing", "flock")
YOUNG = ("hatched", "brooding", "growing")
_MACHINES = frozenset({"incubator", "hatcher"})
_CHICKS = frozenset(CHICK_STAGES)


@dataclass(frozen=True, slots=True)
class Brood:
    """Young of one lot in one place. place: None where nobody wrote it. stages: stage -> how many, each above zero.

    among: the lots they may be of where nobody knows the family, then `lot` is the first of them; else empty.
    """

    lot: str
    place: str | None
    stages: Mapping[str, int]
    among: tuple[str, ...] = ()

    @property
    def lots(self) -> tuple[str, ...]:
        """The lots they may be of: one where it is known."""
        return self.among or (self.lot,)

    @property
    def n(self) -> int:
        """All of them."""
        return sum(self.stages.values())


@dataclass(frozen=True, slots=True)
class Stay:
    """Living chicks or birds of a lot in one place. until_ms: when the last of them left; None while some are there."""

    place: str
    since_ms: int
    until_ms: int | None

    def covers(self, at_ms: int) -> bool:
        """Whether some stood there at that moment."""
        return self.since_ms <= at_ms and (self.until_ms is None or at_ms <= self.until_ms)


@dataclass(slots=True)
class _Held:
    """Chicks of one lot: stage -> place -> how many."""

    by: dict[str, dict[str | None, int]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(int)))

    def put(self, stage: str, place: str | None, n: int) -> None:
        if stage in LIVING and n > 0:
            self.by[stage][place] += n

    def take(self, stage: str, n: int, first: str | None, last: str | None) -> list[tuple[str | None, int]]:
        """Up to n that are in a stage as (place, n). first, last: the place they leave before, or after, all others."""
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
        return taken

    def leave(self, stage: str, most: int) -> int:
        """At most so many in a stage; how many are left."""
        there = sum(self.by[stage].values())
        self.take(stage, there - most, None, None)
        return min(there, most)

    def places(self) -> set[str]:
        """Where any are, as far as somebody wrote it."""
        return {place for places in self.by.values() for place, n in places.items() if place is not None and n > 0}

    def most(self) -> str | None:
        """Where most of the chicks are."""
        by_place: dict[str | None, int] = defaultdict(int)
        for places in self.by.values():
            for place, n in places.items():
                by_place[place] += n
        return min(by_place, key=lambda place: (-by_place[place], place or ""), default=None)


def broods(standing: Standing) -> list[Brood]:
    """Every lot's young by place, in order of lots and places; a lot of a place nobody wrote comes first. Then those of
    unknown family, setting by setting."""
    own = [brood for lot in standing.lots.values() for brood in broods_of(standing, lot)]
    return own + [brood for setting in standing.settings.values() for brood in shared_broods(standing, setting)]


def broods_of(standing: Standing, lot: Lot) -> list[Brood]:
    """The young of one lot, by place."""
    held = _own(standing, lot)
    return _by_place(held, lot.id, ())


def _own(standing: Standing, lot: Lot, after: Callable[[int, _Held], None] | None = None) -> _Held:
    held = _Held()
    if lot.came:
        held.put(lot.start, None, lot.n)
    setting = None if lot.setting is None else standing.settings.get(lot.setting)
    _walk(standing, held, lot.moves, _shell(setting), after)
    return held


def stays_of(standing: Standing, lot: Lot) -> list[Stay]:
    """Where chicks of one lot, and those of unknown family that may be of it, stood since they hatched or came; the
    earliest first."""
    found = _Stays()
    _own(standing, lot, found.after)
    stays = found.all()
    setting = standing.settings.get(lot.setting or "")
    if setting is not None and setting.among:
        for tied in tied_groups([standing.lots[name] for name in setting.lots], setting.among):
            if any(one.id == lot.id for one in tied.lots):
                found = _Stays()
                _walk(standing, _Held(), tied.among, _shell(setting), found.after)
                stays += found.all()
    return sorted(stays, key=lambda stay: (stay.since_ms, stay.place))


class _Stays:
    """Put together while moves are walked through."""

    def __init__(self) -> None:
        self._over: list[Stay] = []
        self._since: dict[str, int] = {}

    def after(self, at_ms: int, held: _Held) -> None:
        there = held.places()
        for place in [place for place in self._since if place not in there]:
            self._over.append(Stay(place, self._since.pop(place), at_ms))
        for place in there:
            self._since.setdefault(place, at_ms)

    def all(self) -> list[Stay]:
        return self._over + [Stay(place, since_ms, None) for place, since_ms in self._since.items()]


def broods_with(standing: Standing, lot: Lot) -> list[Brood]:
    """The young of one lot, and those of unknown family that may be of it."""
    setting = standing.settings.get(lot.setting or "")
    shared = [] if setting is None else shared_broods(standing, setting)
    return broods_of(standing, lot) + [brood for brood in shared if lot.id in brood.among]


def shared_broods(standing: Standing, setting: Setting) -> list[Brood]:
    """The young of a setting of whom nobody knows the family, by place: they may be of any of the lots they tie."""
    if not setting.among:
        return []
    groups = tied_groups([standing.lots[name] for name in setting.lots], setting.among)
    return [brood for tied in groups if tied.among for brood in _shared(standing, tied, _shell(setting))]


def _shared(standing: Standing, tied: Tied, shell: str | None) -> list[Brood]:
    """No more in a stage, nor in all, than the lots have together beyond what is known of each: the rest of what was
    moved, or lost, was of those whose family is known."""
    held = _Held()
    _walk(standing, held, tied.among, shell)
    every, known = tied.stages, Counter[str]()
    for lot in tied.lots:
        known.update({stage: max(0, n) for stage, n in lot.stages.items()})
    room = sum(every.get(stage, 0) - known[stage] for stage in LIVING)
    for stage in LIVING:
        held.leave(stage, max(0, every.get(stage, 0) - known[stage]))
    for stage in reversed(LIVING):
        room -= held.leave(stage, max(0, room))
    names = tuple(lot.id for lot in tied.lots)
    return _by_place(held, names[0], names)


def _by_place(held: _Held, lot: str, among: tuple[str, ...]) -> list[Brood]:
    places: dict[str | None, dict[str, int]] = defaultdict(dict)
    for stage in YOUNG:
        for place, n in held.by[stage].items():
            if n > 0:
                places[place][stage] = n
    return [Brood(lot, place, places[place], among) for place in sorted(places, key=lambda place: place or "")]


def _shell(setting: Setting | None) -> str | None:
    """Where chicks of a setting come out."""
    return None if setting is None else setting.locked_place or setting.place


def _walk(
    standing: Standing,
    held: _Held,
    moves: Iterable[Move],
    shell: str | None,
    after: Callable[[int, _Held], None] | None = None,
) -> None:
    """All moves in order of time. When all is done, those never written into a stage leave it from nowhere, the
    youngest first: others may be waiting for them. after: told of every move, with what is where once it is made."""
    waiting: list[Move] = []
    for move in moves:
        rest = _carry(standing, held, move, shell)
        if waiting:
            waiting = _go_on(standing, held, waiting)
        if rest and move.source != move.target:
            waiting.append(move._replace(n=rest))
        if after is not None:
            after(move.at_ms, held)
    while waiting:
        move = min(waiting, key=lambda one: LIVING.index(one.source))
        waiting.remove(move)
        held.put(move.target, _root(standing, move) or _kept(standing, move, None), move.n)
        waiting = _go_on(standing, held, waiting)
        if after is not None:
            after(move.at_ms, held)


def _go_on(standing: Standing, held: _Held, waiting: list[Move]) -> list[Move]:
    """Moves that wait, as far as chicks are there by now; those that wait still."""
    before = None
    while waiting and waiting != before:
        before = waiting
        rests = [(move, _carry(standing, held, move, None)) for move in waiting]
        waiting = [move._replace(n=rest) for move, rest in rests if rest]
    return waiting


def _carry(standing: Standing, held: _Held, move: Move, shell: str | None) -> int:
    """One move; how many of it are not there."""
    place = _root(standing, move)
    if move.source not in LIVING:
        if move.target in LIVING:
            found = place or (held.most() if move.source == MISSING or move.source in _CHICKS else shell)
            held.put(move.target, found, move.n)
        return 0
    stays = move.target in LIVING
    leaving = held.take(move.source, move.n, None if stays else place, place if stays else None)
    for old, n in leaving:
        held.put(move.target, place or _kept(standing, move, old), n)
    return move.n - sum(n for _, n in leaving)


def _root(standing: Standing, move: Move) -> str | None:
    return None if move.place is None else standing.root_of.get(move.place, move.place)


def _kept(standing: Standing, move: Move, old: str | None) -> str | None:
    """Where chicks are after a move that names no place."""
    there = standing.places.get(old or "")
    out = move.source == "hatched" and move.target != "hatched"
    return None if out and (there is None or there.role in _MACHINES) else old
