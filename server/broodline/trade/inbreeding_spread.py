"""How far the F of a mating may lie from its mean, where the parents of its forebears are uncertain.

All ways the forebears may have come are gone through where they are few; where they are many, seeded draws of them
stand for all. F of each way is exact. The mean of the average relationship table agrees with the first and lies within
chance of the second.

>>> from broodline.trade.pedigree import Recorded, independent, pedigree_of
>>> chick = Recorded("pullet", pairs=independent({"old cock": 0.75, "young cock": 0.25}, {}))
>>> spreads(pedigree_of([chick]), [("old cock", "pullet")], 0.25, seed=1)
[Spread(mean=0.1875, low=0.0, high=0.25, over=0.75, draws=None)]
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod, sqrt

import numpy as np
from numpy.typing import NDArray

from broodline.trade.kin import Kin
from broodline.trade.pedigree import Node, Pedigree, forebears_of, places_behind

MOST_WAYS = 4096
MOST_WORK = 150_000_000
"""Cells of tables gone through in one answer, each way its own table: about two seconds of a small machine."""
FEWEST_DRAWS, MOST_DRAWS = 1000, 10_000
_AT_ONCE = 2_000_000
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Spread:
    """F of a mating. low, high: least and greatest found. over: chance that F is at or over the limit.

    draws: how many ways were drawn; None where every way was gone through, so that the figures are exact.
    """

    mean: float
    low: float
    high: float
    over: float
    draws: int | None

    @property
    def error(self) -> float | None:
        """How far `over` may be off, with 95 % confidence; None where it is exact.

        Two standard errors of a share; of a share of none or all the rule of three (Hanley and Lippman-Hand 1983, JAMA
        249:1743, from memory).
        """
        if self.draws is None:
            return None
        return max(1.96 * sqrt(self.over * (1 - self.over) / self.draws), 3 / self.draws)


def spreads(
    pedigree: Pedigree, matings: Sequence[tuple[str, str]], limit: float, *, seed: int, draws: int | None = None
) -> list[Spread]:
    """The spread of F for a chick of each (cock, hen). limit: a share of 1, 0 < limit. seed: of the draws.

    draws: at most so many; None is from 1,000 to 10,000, the fewer the more forebears there are.
    """
    places = [(pedigree.position[cock], pedigree.position[hen]) for cock, hen in matings]
    keys = _alike(pedigree, places)
    first = dict(reversed(list(zip(keys, places, strict=True))))
    known: dict[_Key, Spread] = {}
    drawn = []
    left = MOST_WORK
    for key, pair in first.items():
        nodes, moved = forebears_of(pedigree, pair)
        ways = prod(len(node.pairs) for node in nodes)
        left -= ways * len(nodes) ** 2 if ways <= MOST_WAYS else 0
        if ways <= MOST_WAYS and left > 0:
            found, weights = _kinships(nodes, [(moved[pair[0]], moved[pair[1]])], *_all_ways(nodes))
            known[key] = _spread(found[:, 0], weights, limit, None)
        else:
            drawn.append(key)
    if drawn:
        nodes, moved = forebears_of(pedigree, (place for key in drawn for place in first[key]))
        n = draws or min(MOST_DRAWS, max(FEWEST_DRAWS, MOST_WORK // len(nodes) ** 2))
        pairs = [(moved[cock], moved[hen]) for cock, hen in (first[key] for key in drawn)]
        found, weights = _kinships(nodes, pairs, *_drawn_ways(nodes, n, seed))
        known |= {key: _spread(column, weights, limit, n) for key, column in zip(drawn, found.T, strict=True)}
    return [known[key] for key in keys]


def bird_spreads(
    pedigree: Pedigree,
    birds: Sequence[str],
    limit: float,
    kin: Kin,
    *,
    seed: int,
    draws: int = FEWEST_DRAWS,
    most_ways: int = 512,
) -> list[Spread]:
    """The spread of each bird's own F. kin: of the same pedigree, for birds all of whose forebears are sure.

    Birds of the same candidate parents are worked out once.
    """
    known: dict[tuple[tuple[int, int, float], ...], Spread] = {}
    unsure = _unsure(pedigree.nodes)
    answer = []
    for bird in birds:
        place = pedigree.position[bird]
        pairs = pedigree.nodes[place].pairs
        if pairs not in known and not unsure[place]:
            own = kin.inbreeding(bird)
            known[pairs] = Spread(own, own, own, float(own >= limit - _SAME), None)
        elif pairs not in known:
            nodes, moved = forebears_of(pedigree, [place])
            exact = prod(len(node.pairs) for node in nodes) <= most_ways
            ways = _all_ways(nodes) if exact else _drawn_ways(nodes, draws, seed)
            found, weights = _kinships(nodes, [(moved[place], moved[place])], *ways)
            # The kinship of a bird with itself is half of one plus its F.
            known[pairs] = _spread(2 * found[:, 0] - 1, weights, limit, None if exact else draws)
        answer.append(known[pairs])
    return answer


_Key = tuple[object, object]


def _alike(pedigree: Pedigree, places: Sequence[tuple[int, int]]) -> list[_Key]:
    """What the F of each mating depends on: candidate parents, or the bird itself where the other descends from it."""
    behind = {place: places_behind(pedigree.nodes, [place]) for place in {one for pair in places for one in pair}}

    def key(one: int, other: int) -> object:
        return one if one in behind[other] else pedigree.nodes[one].pairs

    return [(key(cock, hen), key(hen, cock)) for cock, hen in places]


def _unsure(nodes: Iterable[Node]) -> list[bool]:
    """Whether a bird's F may come out one way or another: it or a forebear has several candidate pairs."""
    found: list[bool] = []
    for node in nodes:
        parents = (parent for pair in node.pairs for parent in pair[:2] if parent >= 0)
        found.append(len(node.pairs) > 1 or any(found[parent] for parent in parents))
    return found


def _kinships(
    nodes: Sequence[Node], places: Sequence[tuple[int, int]], ways: NDArray[np.int64], weights: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Kinship of each two places in each way (way, pair), and the chance of each way."""
    found = np.zeros((len(ways), len(places)))
    step = max(1, _AT_ONCE // max(1, len(nodes) ** 2))
    down, across = [one for one, _ in places], [other for _, other in places]
    for start in range(0, len(ways), step):
        found[start : start + step] = _sure_tables(nodes, ways[start : start + step])[:, down, across] / 2
    return found, weights


def _spread(values: NDArray[np.float64], weights: NDArray[np.float64], limit: float, draws: int | None) -> Spread:
    return Spread(
        mean=float(weights @ values),
        low=float(values.min()),
        high=float(values.max()),
        over=min(1.0, float(weights[values >= limit - _SAME].sum())),
        draws=draws,
    )


def _all_ways(nodes: Sequence[Node]) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Each way: which pair of each node; with its chance."""
    ways = np.array(list(product(*(range(len(node.pairs)) for node in nodes))), int)
    weights = np.ones(len(ways))
    for at, node in enumerate(nodes):
        weights *= np.array([chance for _, _, chance in node.pairs])[ways[:, at]]
    return ways, weights


def _drawn_ways(nodes: Sequence[Node], draws: int, seed: int) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    chance = np.random.default_rng(seed)
    ways = np.zeros((draws, len(nodes)), int)
    for at, node in enumerate(nodes):
        if len(node.pairs) > 1:
            shares = np.array([share for _, _, share in node.pairs])
            ways[:, at] = chance.choice(len(node.pairs), size=draws, p=shares / shares.sum())
    return ways, np.full(draws, 1 / draws)


def _sure_tables(nodes: Sequence[Node], ways: NDArray[np.int64]) -> NDArray[np.float64]:
    """Tables of relationships, one for each way (way, node, node), by the tabular rules for sure parents."""
    count, each = len(nodes), np.arange(len(ways))
    # The last row and column stay empty: position -1, an unknown parent, is related to nobody.
    tables = np.zeros((len(ways), count + 1, count + 1))
    for row, node in enumerate(nodes):
        chosen = np.array([pair[:2] for pair in node.pairs], int)[ways[:, row]]
        sire, dam = chosen[:, 0], chosen[:, 1]
        if node.bird is None:
            line, own = tables[each, dam], np.where(dam >= 0, tables[each, dam, dam], 1.0)
        else:
            line, own = (tables[each, sire] + tables[each, dam]) / 2, 1 + tables[each, sire, dam] / 2
        tables[:, row, :row] = tables[:, :row, row] = line[:, :row]
        tables[:, row, row] = own
    return tables
