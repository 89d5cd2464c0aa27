"""Relationship and kinship from a pedigree with uncertain parents.

Relationship a is twice kinship f; a bird's own a is one plus its inbreeding F. With candidate parents the table holds
averages over all that may be (average numerator relationship matrix: Henderson 1988, J. Anim. Sci. 66:1614), exact
where the draws of different birds are independent; the chicks of one unnamed hen share one draw of her.

>>> from broodline.trade.pedigree import Recorded, independent, pedigree_of
>>> sibs = [Recorded(name, pairs=independent({"cock": 1.0}, {"hen": 1.0})) for name in ("brother", "sister")]
>>> chick = Recorded("chick", pairs=independent({"brother": 1.0}, {"sister": 1.0}))
>>> kin = relationships(pedigree_of([*sibs, chick]))
>>> kin.inbreeding("chick"), kin.kinship("brother", "sister")
(0.25, 0.25)
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from broodline.trade.pedigree import Pedigree

Matrix = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Relationships:
    """matrix: average relationships of all nodes (square). mendelian: each node's own part that no parent explains."""

    matrix: Matrix
    mendelian: Matrix
    position: Mapping[str, int]

    def relationship(self, one: str, other: str) -> float:
        """Average numerator relationship of two birds (or of one with itself)."""
        return float(self.matrix[self.position[one], self.position[other]])

    def kinship(self, one: str, other: str) -> float:
        """Kinship: the F to expect in a chick of the two."""
        return self.relationship(one, other) / 2

    def inbreeding(self, bird: str) -> float:
        """F to expect of a bird."""
        return self.relationship(bird, bird) - 1

    def kinships(self, rows: Sequence[str], columns: Sequence[str]) -> Matrix:
        """Kinship of each bird of rows (down) with each of columns (across)."""
        down, across = [self.position[bird] for bird in rows], [self.position[bird] for bird in columns]
        return self.matrix[np.ix_(down, across)] / 2

    def mean_kinships(self, birds: Sequence[str]) -> Matrix:
        """Mean kinship of each bird with all of them, itself included."""
        held = self.kinships(birds, birds)
        return held.mean(axis=1) if birds else np.zeros(0)


def relationships(pedigree: Pedigree) -> Relationships:
    """The whole table, row by row from the oldest; memory and time go with the square of the birds."""
    count = len(pedigree.nodes)
    matrix, mendelian = np.zeros((count, count)), np.ones(count)
    for row, node in enumerate(pedigree.nodes):
        weights: dict[int, float] = {}
        part = 0.5 if node.bird is not None else 1.0
        unknown = 0.0
        for sire, dam, chance in node.pairs:
            for parent in (sire, dam):
                if parent >= 0:
                    weights[parent] = weights.get(parent, 0.0) + part * chance
            unknown += chance if dam < 0 else 0.0
        own = 1.0
        if weights:
            parents, shares = np.fromiter(weights, int), np.fromiter(weights.values(), float)
            line = shares @ matrix[parents, :row]
            matrix[row, :row] = matrix[:row, row] = line
            if node.bird is None:
                own = unknown + float(shares @ matrix[parents, parents])
            else:
                own = 1 + _between_parents(matrix, node.pairs) / 2
            mendelian[row] = own - float(shares @ line[parents])
        matrix[row, row] = own
    return Relationships(matrix, mendelian, pedigree.position)


def _between_parents(matrix: Matrix, pairs: Sequence[tuple[int, int, float]]) -> float:
    known = [pair for pair in pairs if pair[0] >= 0 and pair[1] >= 0]
    if not known:
        return 0.0
    sires, dams, chances = zip(*known, strict=True)
    return float(matrix[list(sires), list(dams)] @ np.array(chances))
