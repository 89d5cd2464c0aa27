"""Pens of several cocks by exchange: cocks change places one by one, hens are shared out anew each time as a flow.

With several cocks in a pen the programme of `mating` is far from its end after any time a keeper would wait; this finds
plans that are good in a second or two. Limited by work and drawn from a fixed seed, so that any machine finds the same.

>>> table = np.array([[0.25, 0.0, 0.25], [0.25, 0.0, 0.25], [0.0, 0.25, 0.25], [0.0, 0.25, 0.25]])
>>> search_pens(table, Asked(pens=2, hens=1, least=1, cocks=2))
[((0, 1), (1,)), ((2, 3), (0,))]
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linear_sum_assignment

Matrix = NDArray[np.float64]
Pens = list[tuple[tuple[int, ...], tuple[int, ...]]]
SEED, STARTS = 7, 12
# Cells of the tables of hens by places that may be gone through, and tables that are in any case.
WORK, LEAST_TABLES = 12_000_000, 600
_BROKEN = 1000.0
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Asked:
    """As `mating.Limits`. least: hens in the smallest pen. pens_of: the family of each pen, where these are apart."""

    pens: int
    hens: int
    least: int
    cocks: int
    forbidden: frozenset[tuple[int, int]] = frozenset()
    together: frozenset[tuple[int, int]] = frozenset()
    must_cocks: frozenset[int] = frozenset()
    must_hens: frozenset[int] = frozenset()
    families: tuple[int, ...] | None = None
    pens_of: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class _Shared:
    """Hens shared out: cost with what is broken, and each hen's pen, -1 for none."""

    cost: float
    pen_of: NDArray[np.intp]


def search_pens(
    table: Matrix, asked: Asked, merits: tuple[Matrix, Matrix] | None = None, *, seed: int = SEED
) -> Pens | None:
    """The best plan of several starts, pens by their first cock; None where none was found that keeps the limits.

    table: F of each cock (down) with each hen. merits: added cost of each cock and hen that is used.
    """
    chance = np.random.default_rng(seed)
    cocks, hens = table.shape
    asked = replace(asked, hens=min(asked.hens, hens))  # places for hens that nobody has cost time alone
    of_cocks, of_hens = merits or (np.zeros(cocks), np.zeros(hens))
    bad = np.zeros(table.shape)
    for pair in asked.forbidden:
        bad[pair] = _BROKEN
    cost = table / asked.cocks + of_hens / asked.cocks + bad
    must = sorted(asked.must_cocks | {cock for cock, _ in asked.together})
    if len(must) > asked.pens * asked.cocks:
        return None
    left = max(LEAST_TABLES, WORK // (hens * asked.pens * asked.hens))
    best: tuple[float, list[int], _Shared] | None = None
    for _ in range(STARTS):
        others = [int(cock) for cock in chance.permutation(cocks) if cock not in must]
        seats = [*must, *others][: asked.pens * asked.cocks]
        seats = [seats[at] for at in chance.permutation(len(seats))]
        spare = [cock for cock in range(cocks) if cock not in seats]
        shared = _share(cost, asked, seats)
        now = shared.cost + float(of_cocks[seats].sum())
        better = True
        while better and left > 0:
            better = False
            for tried in _exchanges(seats, spare, frozenset(must), asked.cocks, chance):
                left -= 1
                found = _share(cost, asked, tried)
                then = found.cost + float(of_cocks[tried].sum())
                if then < now - _SAME:
                    spare = [cock for cock in range(cocks) if cock not in tried]
                    seats, shared, now, better = tried, found, then, True
                    break
                if left <= 0:
                    break
        if best is None or now < best[0] - _SAME:
            best = (now, seats, shared)
        if left <= 0:
            break
    return None if best is None or best[2].cost >= _BROKEN / 2 else _pens(asked, best[1], best[2])


def _exchanges(
    seats: Sequence[int], spare: Sequence[int], must: frozenset[int], in_pen: int, chance: np.random.Generator
) -> Iterator[list[int]]:
    """Seats with two cocks of different pens changed, or with one of a pen for one of none, in any order."""
    swaps = [(at, to) for at in range(len(seats)) for to in range(at) if at // in_pen != to // in_pen]
    fresh = [(at, -1 - n) for at, cock in enumerate(seats) if cock not in must for n in range(len(spare))]
    tries = [*swaps, *fresh]
    for number in chance.permutation(len(tries)):
        at, to = tries[number]
        tried = list(seats)
        if to >= 0:
            tried[at], tried[to] = tried[to], tried[at]
        else:
            tried[at] = spare[-1 - to]
        yield tried


def _share(cost: Matrix, asked: Asked, seats: Sequence[int]) -> _Shared:
    """The best sharing out of the hens among pens whose cocks are given: an assignment of hens to places.

    All hens have a place, or all places a hen. The first places of each pen are filled before others, and hens that
    must be used before others; whatever limit stays broken costs more than any plan.
    """
    hens = cost.shape[1]
    of_pens = cost[np.array(seats).reshape(asked.pens, asked.cocks)].sum(axis=1)
    for cock, hen in asked.together:
        here = seats.index(cock) // asked.cocks
        of_pens[[pen for pen in range(asked.pens) if pen != here], hen] += _BROKEN
    places = np.repeat(of_pens, asked.hens, axis=0).T.copy()
    first = np.tile(np.arange(asked.hens) < asked.least, asked.pens)
    places[:, first] -= _BROKEN
    must = sorted(asked.must_hens | {hen for _, hen in asked.together})
    places[must] -= _BROKEN
    pen_of = np.full(hens, -1)
    least = _BROKEN * (int(first.sum()) + len(must))
    for these, theirs in _sides(asked, hens):
        side = places[np.ix_(these, theirs)]
        rows, columns = linear_sum_assignment(side)
        pen_of[these[rows]] = theirs[columns] // asked.hens
        least += float(side[rows, columns].sum())
    return _Shared(least, pen_of)


def _sides(asked: Asked, hens: int) -> Iterator[tuple[NDArray[np.intp], NDArray[np.intp]]]:
    """Hens and the places open to them: all to all, or those of each family to the pens that are its own."""
    places = np.arange(asked.pens * asked.hens)
    if asked.families is None:
        yield np.arange(hens), places
        return
    of_hens, of_places = np.array(asked.families), np.repeat(np.array(asked.pens_of), asked.hens)
    for family in sorted(set(asked.pens_of)):
        yield np.flatnonzero(of_hens == family), places[of_places == family]


def _pens(asked: Asked, seats: Sequence[int], shared: _Shared) -> Pens:
    return sorted(
        (
            tuple(sorted(seats[pen * asked.cocks : (pen + 1) * asked.cocks])),
            tuple(int(hen) for hen in np.flatnonzero(shared.pen_of == pen)),
        )
        for pen in range(asked.pens)
    )
