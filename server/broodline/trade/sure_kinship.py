"""Kinship in a large pedigree whose parents are sure, without the square table of relationships.

The table is T D T' (Henderson 1976, Biometrics 32:69): T passes halves from parent to chick, D holds the Mendelian
parts. A column, or a sum of columns, comes of one walk up and one walk down (Colleau 2002, Genet. Sel. Evol. 34:409,
from memory); the Mendelian parts come of Meuwissen and Luo's walks.

>>> kin = SureKinship.of([(-1, -1), (-1, -1), (0, 1), (0, 1)], {"cock": 0, "hen": 1, "son": 2, "daughter": 3})
>>> kin.kinship("son", "daughter"), kin.kinship("cock", "son"), kin.mean_kinships(["cock", "son"]).tolist()
(0.25, 0.25, [0.375, 0.375])
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray

from broodline.trade.sure_inbreeding import sure_inbreeding

Matrix = NDArray[np.float64]
_AT_ONCE = 256


@dataclass(frozen=True, slots=True)
class SureKinship:
    """parents: (sire, dam) positions, -1 for unknown, parents before chicks. own: F of each. mendelian: its own part.

    position: bird -> its place.
    """

    parents: Sequence[tuple[int, int]]
    own: Sequence[float]
    mendelian: Matrix
    position: Mapping[str, int]

    @classmethod
    def of(cls, parents: Sequence[tuple[int, int]], position: Mapping[str, int]) -> Self:
        """F of all birds worked out. position: bird -> its place among the parents."""
        own = sure_inbreeding(parents)
        # An unknown parent counts as F = -1; index -1 reads the last place.
        with_unknown = np.array([*own, -1.0])
        sires, dams = np.array(parents, int).reshape(-1, 2).T
        return cls(parents, own, 0.5 - 0.25 * (with_unknown[sires] + with_unknown[dams]), position)

    def kinship(self, one: str, other: str) -> float:
        """Kinship: the F to expect in a chick of the two."""
        return float(self.kinships([one], [other])[0, 0])

    def inbreeding(self, bird: str) -> float:
        """F of a bird."""
        return self.own[self.position[bird]]

    def kinships(self, rows: Sequence[str], columns: Sequence[str]) -> Matrix:
        """Kinship of each bird of rows (down) with each of columns (across)."""
        if len(columns) > len(rows):
            return self.kinships(columns, rows).T
        down, across = [self.position[bird] for bird in rows], [self.position[bird] for bird in columns]
        found = np.zeros((len(down), len(across)))
        for start in range(0, len(across), _AT_ONCE):
            some = across[start : start + _AT_ONCE]
            wanted = np.zeros((len(self.parents), len(some)))
            wanted[some, np.arange(len(some))] = 1
            found[:, start : start + _AT_ONCE] = self._times(wanted)[down] / 2
        return found

    def mean_kinships(self, birds: Sequence[str]) -> Matrix:
        """Mean kinship of each bird with all of them, itself included."""
        at = [self.position[bird] for bird in birds]
        wanted = np.zeros((len(self.parents), 1))
        wanted[at] = 1 / max(1, len(at))
        means: Matrix = self._times(wanted)[at, 0] / 2
        return means

    def _times(self, wanted: Matrix) -> Matrix:
        """The table of relationships times each column, worked out in place."""
        for bird in range(len(self.parents) - 1, -1, -1):
            for parent in self.parents[bird]:
                if parent >= 0:
                    wanted[parent] += wanted[bird] / 2
        wanted *= self.mendelian[:, None]
        for bird, pair in enumerate(self.parents):
            for parent in pair:
                if parent >= 0:
                    wanted[bird] += wanted[parent] / 2
        return wanted
