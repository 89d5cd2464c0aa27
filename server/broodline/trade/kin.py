"""How kin birds are, by whichever way is quick enough for the pedigree.

Up to 3,000 birds the whole table. Above that walks through the ancestors, which need no table, for all birds whose
parents and forebears are sure; and a table for each part of the pedigree that holds an uncertain parent and is kin to
no other part.

>>> from broodline.trade.pedigree import Recorded, independent, pedigree_of
>>> pair = independent({"cock": 1.0}, {"hen": 1.0})
>>> kin_of(pedigree_of([Recorded(name, pairs=pair) for name in ("son", "daughter")])).kinship("son", "daughter")
0.25
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from broodline.trade.kinship import Matrix, relationships
from broodline.trade.pedigree import Pedigree, forebears_of
from broodline.trade.sure_inbreeding import sure_parents
from broodline.trade.sure_kinship import SureKinship

MOST_IN_TABLE = 3000


class Kin(Protocol):
    """What is asked of a pedigree, birds by their names."""

    def kinship(self, one: str, other: str) -> float:
        """Kinship: the F to expect in a chick of the two."""
        ...

    def inbreeding(self, bird: str) -> float:
        """F to expect of a bird."""
        ...

    def kinships(self, rows: Sequence[str], columns: Sequence[str]) -> Matrix:
        """Kinship of each bird of rows (down) with each of columns (across)."""
        ...

    def mean_kinships(self, birds: Sequence[str]) -> Matrix:
        """Mean kinship of each bird with all of them, itself included."""
        ...


@dataclass(frozen=True, slots=True)
class KinApart:
    """parts: kin within each, and none to another's. part_of: bird -> which of them it is in."""

    parts: Sequence[Kin]
    part_of: dict[str, int]

    def kinship(self, one: str, other: str) -> float:
        """Kinship: the F to expect in a chick of the two."""
        part = self.part_of[one]
        return self.parts[part].kinship(one, other) if part == self.part_of[other] else 0.0

    def inbreeding(self, bird: str) -> float:
        """F to expect of a bird."""
        return self.parts[self.part_of[bird]].inbreeding(bird)

    def kinships(self, rows: Sequence[str], columns: Sequence[str]) -> Matrix:
        """Kinship of each bird of rows (down) with each of columns (across)."""
        found = np.zeros((len(rows), len(columns)))
        across = self._apart(columns)
        for part, down in self._apart(rows).items():
            own = [rows[at] for at in down], [columns[at] for at in across[part]]
            found[np.ix_(down, across[part])] = self.parts[part].kinships(*own)
        return found

    def mean_kinships(self, birds: Sequence[str]) -> Matrix:
        """Mean kinship of each bird with all of them, itself included."""
        means = np.zeros(len(birds))
        for part, at in self._apart(birds).items():
            means[at] = self.parts[part].mean_kinships([birds[one] for one in at]) * len(at) / len(birds)
        return means

    def _apart(self, birds: Sequence[str]) -> defaultdict[int, list[int]]:
        """Where in the list the birds of each part stand."""
        found: defaultdict[int, list[int]] = defaultdict(list)
        for at, bird in enumerate(birds):
            found[self.part_of[bird]].append(at)
        return found


def kin_of(pedigree: Pedigree) -> Kin:
    """The kinships of a pedigree."""
    if len(pedigree.nodes) <= MOST_IN_TABLE:
        return relationships(pedigree)
    parts = _parts(pedigree)
    if len(parts) == 1:
        return _kin_of_part(pedigree)
    return KinApart(
        [_kin_of_part(part) for part in parts],
        {bird: number for number, part in enumerate(parts) for bird in part.position},
    )


def _kin_of_part(part: Pedigree) -> Kin:
    parents = sure_parents(part)
    return relationships(part) if parents is None else SureKinship.of(parents, part.position)


def _parts(pedigree: Pedigree) -> list[Pedigree]:
    """What is kin to nothing else and holds an uncertain parent, each by itself; all the rest together."""
    count = len(pedigree.nodes)
    links = [(at, up) for at, node in enumerate(pedigree.nodes) for pair in node.pairs for up in pair[:2] if up >= 0]
    down, up = np.array(links, int).reshape(-1, 2).T
    _, group = connected_components(coo_array((np.ones(len(links)), (down, up)), shape=(count, count)), directed=False)
    unsure = {int(group[at]) for at, node in enumerate(pedigree.nodes) if len(node.pairs) > 1 or node.bird is None}
    places: defaultdict[int, list[int]] = defaultdict(list)
    for at in range(count):
        places[int(group[at]) if group[at] in unsure else -1].append(at)
    return [_cut(pedigree, places[part]) for part in sorted(places)]


def _cut(pedigree: Pedigree, places: Sequence[int]) -> Pedigree:
    nodes, _ = forebears_of(pedigree, places)
    position = {node.bird: at for at, node in enumerate(nodes) if node.bird is not None}
    return Pedigree(tuple(nodes), position, {bird: pedigree.completeness[bird] for bird in position}, ())
