"""How far the F of a mating may lie from its mean, where the parents of its forebears are uncertain.

All ways the forebears may have come are gone through where they are few; where they are many, seeded draws of them
stand for all. F of each way is exact. The mean of the average relationship table agrees with the first and lies within
chance of the second.

>>> from broodline.trade.pedigree import Recorded, independent, pedigree_of
>>> chick = Recorded("pullet", pairs=independent({"old cock": 0.75, "young cock": 0.25}, {}))
>>> spreads(pedigree_of([chick]), [("old cock", "pullet")], 0.25, seed=1)
[Spread(mean=0.1875, low=0.0, high=0.25, over=0.75, exact=True)]
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

import numpy as np
from numpy.typing import NDArray

from broodline.trade.pedigree import Node, Pedigree

MOST_WAYS = 4096
_AT_ONCE = 2_000_000
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Spread:
    """F of a mating. low, high: least and greatest found. over: chance that F is at or over the limit.

    exact: every way was gone through; else it was drawn.
    """

    mean: float
    low: float
    high: float
    over: float
    exact: bool


def spreads(
    pedigree: Pedigree, matings: Sequence[tuple[str, str]], limit: float, *, seed: int, draws: int = 1000
) -> list[Spread]:
    """The spread of F for a chick of each (cock, hen). limit: a share of 1, 0 < limit. seed: of the draws."""
    places = [(pedigree.position[cock], pedigree.position[hen]) for cock, hen in matings]
    found, weights, exact = _kinships(pedigree, places, seed, draws, MOST_WAYS)
    return [_spread(column, weights, limit, exact=exact) for column in found.T]


def bird_spreads(
    pedigree: Pedigree, birds: Sequence[str], limit: float, *, seed: int, draws: int = 200, most_ways: int = 512
) -> list[Spread]:
    """The spread of each bird's own F. Birds of the same candidate parents are worked out once."""
    known: dict[tuple[tuple[int, int, float], ...], Spread] = {}
    answer = []
    for bird in birds:
        place = pedigree.position[bird]
        pairs = pedigree.nodes[place].pairs
        if pairs not in known:
            found, weights, exact = _kinships(pedigree, [(place, place)], seed, draws, most_ways)
            # The kinship of a bird with itself is half of one plus its F.
            known[pairs] = _spread(2 * found[:, 0] - 1, weights, limit, exact=exact)
        answer.append(known[pairs])
    return answer


def _kinships(
    pedigree: Pedigree, places: Sequence[tuple[int, int]], seed: int, draws: int, most_ways: int
) -> tuple[NDArray[np.float64], NDArray[np.float64], bool]:
    """Kinship of each two places in each way (way, pair), the chance of each way, and whether these are all ways."""
    nodes, place = _forebears(pedigree, [one for pair in places for one in pair])
    exact = prod(len(node.pairs) for node in nodes) <= most_ways
    ways, weights = _all_ways(nodes) if exact else _drawn_ways(nodes, draws, seed)
    found = np.zeros((len(ways), len(places)))
    step = max(1, _AT_ONCE // max(1, len(nodes) ** 2))
    down, across = [place[one] for one, _ in places], [place[other] for _, other in places]
    for start in range(0, len(ways), step):
        found[start : start + step] = _sure_tables(nodes, ways[start : start + step])[:, down, across] / 2
    return found, weights, exact


def _spread(values: NDArray[np.float64], weights: NDArray[np.float64], limit: float, *, exact: bool) -> Spread:
    return Spread(
        mean=float(weights @ values),
        low=float(values.min()),
        high=float(values.max()),
        over=min(1.0, float(weights[values >= limit - _SAME].sum())),
        exact=exact,
    )


def _forebears(pedigree: Pedigree, wanted: Sequence[int]) -> tuple[list[Node], dict[int, int]]:
    """The nodes from which the wanted descend, themselves included, and where each now stands."""
    needed = set(wanted)
    for place in range(len(pedigree.nodes) - 1, -1, -1):
        if place in needed:
            needed.update(parent for pair in pedigree.nodes[place].pairs for parent in pair[:2] if parent >= 0)
    moved = {place: at for at, place in enumerate(sorted(needed))}
    moved[-1] = -1
    nodes = [
        Node(
            pedigree.nodes[place].bird,
            tuple((moved[sire], moved[dam], chance) for sire, dam, chance in pedigree.nodes[place].pairs),
        )
        for place in sorted(needed)
    ]
    return nodes, moved


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
