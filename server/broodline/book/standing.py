"""What the book adds up to: the result of a fold, and its form for comparing two folds.

Times are whole milliseconds since 1970, UTC, by the phone's clock set right where its skew is known.
Heads, moves and looks are tuples with names: a long book has hundreds of thousands, and those are made five times as
fast as frozen dataclasses.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from broodline.book.bodies_flock import Family
from broodline.book.bodies_rooms import Keeper, Place
from broodline.book.body import Body
from broodline.book.problems import Problem


class Head(NamedTuple):
    """An entry that counts: its tree's root (the identity), its own id, its body, and when it happened."""

    root: str
    id: str
    kind: str
    body: Body
    at_ms: int
    device: str


class Move(NamedTuple):
    """n eggs or chicks from one stage to another; `among` names the lots where it is not known which."""

    entry: str
    at_ms: int
    lot: str | None
    among: tuple[str, ...]
    source: str
    target: str
    n: int
    why: str | None
    day: int | None
    cause: str | None
    place: str | None
    helped: bool
    weak: bool


class Look(NamedTuple):
    """What was seen of a lot at one look."""

    entry: str
    at_ms: int
    lot: str
    what: str
    day: int
    live: int
    unsure: int
    pipped: int
    none: bool


@dataclass(frozen=True, slots=True)
class Lot:
    """So many eggs of one family in one setting, or chicks that came as a lot (setting None, `came` True).

    stages: stage -> how many are in it now (zero left out; below zero is kept). open: stage -> up to how many more,
    from moves among several lots. missing: chicks that were lost from sight and not found.
    """

    id: str
    setting: str | None
    family: str | None
    n: int
    start: str
    came: bool
    laid_from: str | None
    laid_to: str | None
    bought_in: bool
    sign: str | None
    stages: Mapping[str, int]
    open: Mapping[str, int]
    moves: tuple[Move, ...]
    looks: tuple[Look, ...]
    missing: int

    def seen(self, what: str) -> dict[int, tuple[int, int, int]]:
        """Looks of one sort added up by day: day -> (live, unsure, pipped)."""
        days: dict[int, tuple[int, int, int]] = {}
        for look in self.looks:
            if look.what == what:
                live, unsure, pipped = days.get(look.day, (0, 0, 0))
                days[look.day] = (live + look.live, unsure + look.unsure, pipped + look.pipped)
        return days


@dataclass(frozen=True, slots=True)
class Setting:
    """Eggs put into one place at one time. stages: the totals of its lots with what was moved among them."""

    id: str
    place: str
    species: str
    set_at_ms: int
    lots: tuple[str, ...]
    lockdown_day: float | None
    note: str | None
    locked_at_ms: int | None
    locked_place: str | None
    stages: Mapping[str, int]
    among: tuple[Move, ...]

    @property
    def runs(self) -> bool:
        """True while an egg is in set or locked."""
        return any(self.stages.get(stage, 0) > 0 for stage in ("set", "locked"))


@dataclass(frozen=True, slots=True)
class Standing:
    """The whole book, added up. heads: kind -> the heads that count, by identity. newer: entries of a newer app.

    unread: entry that cannot be read -> all that it and its tree name.
    """

    keeper: Keeper
    families: Mapping[str, Family]
    places: Mapping[str, Place]
    settings: Mapping[str, Setting]
    lots: Mapping[str, Lot]
    heads: Mapping[str, tuple[Head, ...]]
    root_of: Mapping[str, str]
    same_bird: Mapping[str, str]
    problems: tuple[Problem, ...]
    newer: int
    unread: Mapping[str, frozenset[str]]


def standing_json(standing: Standing) -> dict[str, Any]:
    """The standing as plain JSON, equal in Python and TypeScript for the same set of entries."""
    return {
        "keeper": standing.keeper.model_dump(by_alias=True, exclude_none=True),
        "families": _dumped(standing.families),
        "places": _dumped(standing.places),
        "settings": {name: _setting_json(setting) for name, setting in standing.settings.items()},
        "lots": {name: _lot_json(lot) for name, lot in standing.lots.items()},
        "heads": {kind: [head.id for head in heads] for kind, heads in standing.heads.items()},
        "same_bird": dict(standing.same_bird),
        "problems": [problem.as_json() for problem in standing.problems],
        "newer": standing.newer,
    }


def _dumped(bodies: Mapping[str, Family] | Mapping[str, Place]) -> dict[str, Any]:
    return {name: body.model_dump(by_alias=True, exclude_none=True) for name, body in bodies.items()}


def _setting_json(setting: Setting) -> dict[str, Any]:
    return {
        "place": setting.place,
        "species": setting.species,
        "set_at_ms": setting.set_at_ms,
        "lots": list(setting.lots),
        "lockdown_day": setting.lockdown_day,
        "locked_at_ms": setting.locked_at_ms,
        "locked_place": setting.locked_place,
        "stages": dict(setting.stages),
        "among": [move.entry for move in setting.among],
    }


def _lot_json(lot: Lot) -> dict[str, Any]:
    return {
        "setting": lot.setting,
        "family": lot.family,
        "n": lot.n,
        "start": lot.start,
        "came": lot.came,
        "sign": lot.sign,
        "stages": dict(lot.stages),
        "open": dict(lot.open),
        "missing": lot.missing,
        "moves": [move.entry for move in lot.moves],
        "candled": {str(day): list(seen) for day, seen in lot.seen("candled").items()},
        "hatch": {str(day): list(seen) for day, seen in lot.seen("hatch").items()},
    }
