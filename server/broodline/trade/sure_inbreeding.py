"""Inbreeding in a large pedigree whose parents are sure, without the square table of relationships.

Meuwissen and Luo 1992, Genet. Sel. Evol. 24:305: a bird's own relationship is the sum over its ancestors of the squared
share that comes from each times that ancestor's Mendelian part, walked from the youngest.

>>> sure_inbreeding([(-1, -1), (-1, -1), (0, 1), (0, 1), (2, 3)])
[0.0, 0.0, 0.0, 0.0, 0.25]
"""

from collections.abc import Sequence
from heapq import heappop, heappush

from broodline.trade.pedigree import Pedigree


def sure_inbreeding(parents: Sequence[tuple[int, int]]) -> list[float]:
    """F of each bird from (sire, dam) positions, -1 for unknown, parents before chicks. Full sibs share one walk."""
    # An unknown parent counts as F = -1 in the Mendelian part; index -1 reads the last place.
    inbreeding = [0.0] * len(parents) + [-1.0]
    mendelian = [1.0] * len(parents)
    walked: dict[tuple[int, int], float] = {}
    for bird, (sire, dam) in enumerate(parents):
        mendelian[bird] = 0.5 - 0.25 * (inbreeding[sire] + inbreeding[dam])
        if sire < 0 or dam < 0:
            continue
        if (sire, dam) not in walked:
            walked[sire, dam] = mendelian[bird] + _from_ancestors(sire, dam, parents, mendelian) - 1
        inbreeding[bird] = walked[sire, dam]
    return inbreeding[:-1]


def sure_parents(pedigree: Pedigree) -> list[tuple[int, int]] | None:
    """(sire, dam) positions of each node, or None where a parent is uncertain."""
    if any(len(node.pairs) > 1 or node.bird is None for node in pedigree.nodes):
        return None
    return [(node.pairs[0][0], node.pairs[0][1]) for node in pedigree.nodes]


def _from_ancestors(sire: int, dam: int, parents: Sequence[tuple[int, int]], mendelian: Sequence[float]) -> float:
    shares: dict[int, float] = {}
    youngest_first: list[int] = []

    def add(ancestor: int, share: float) -> None:
        if ancestor not in shares:
            heappush(youngest_first, -ancestor)
        shares[ancestor] = shares.get(ancestor, 0.0) + share

    add(sire, 0.5)
    add(dam, 0.5)
    total = 0.0
    while youngest_first:
        ancestor = -heappop(youngest_first)
        share = shares[ancestor]
        total += share * share * mendelian[ancestor]
        for parent in parents[ancestor]:
            if parent >= 0:
                add(parent, share / 2)
    return total
