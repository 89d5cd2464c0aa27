"""How kin birds are, by whichever way is quick enough for the pedigree.

Up to 3,000 birds, and wherever parents are uncertain, the whole table; above that, where all parents are sure, walks
through the ancestors, which need no table.

>>> from broodline.trade.pedigree import Recorded, independent, pedigree_of
>>> pair = independent({"cock": 1.0}, {"hen": 1.0})
>>> kin_of(pedigree_of([Recorded(name, pairs=pair) for name in ("son", "daughter")])).kinship("son", "daughter")
0.25
"""

from collections.abc import Sequence
from typing import Protocol

from broodline.trade.kinship import Matrix, relationships
from broodline.trade.pedigree import Pedigree
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


def kin_of(pedigree: Pedigree) -> Kin:
    """The kinships of a pedigree."""
    parents = sure_parents(pedigree) if len(pedigree.nodes) > MOST_IN_TABLE else None
    return relationships(pedigree) if parents is None else SureKinship.of(parents, pedigree.position)
