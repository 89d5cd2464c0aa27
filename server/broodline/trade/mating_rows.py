"""The rows of a linear programme over whole birds.

>>> rows = Rows(2)
>>> rows.add(0, 1, (0, 1.0), (1, 1.0))
>>> rows.constraint().A.toarray().tolist()
[[1.0, 1.0]]
"""

from dataclasses import dataclass, field

import numpy as np
from scipy.optimize import LinearConstraint
from scipy.sparse import coo_array


@dataclass(slots=True)
class Rows:
    """The rows of a programme, written down one by one. columns: how many unknowns there are."""

    columns: int
    cells: list[tuple[int, int, float]] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)

    def add(self, low: float, high: float, *terms: tuple[int, float]) -> None:
        """low <= the sum of each (column, weight) <= high."""
        self.cells.extend((len(self.low), column, weight) for column, weight in terms)
        self.low.append(low)
        self.high.append(high)

    def constraint(self) -> LinearConstraint:
        """All of them, as scipy takes them. There must be a row."""
        down, across, weights = zip(*self.cells, strict=True)
        matrix = coo_array((weights, (down, across)), shape=(len(self.low), self.columns)).tocsr()
        return LinearConstraint(matrix, np.array(self.low), np.array(self.high))
