"""How much each bird should give to the next generation so that it keeps the most variety.

Least c' f c with shares c >= 0 that sum to one, f the kinships (Meuwissen 1997, J. Anim. Sci. 75:934, from memory; here
without a breeding goal and without a rule for the sexes).

>>> shares, least = least_kin_shares(np.array([[0.5, 0.0, 0.25], [0.0, 0.5, 0.25], [0.25, 0.25, 0.5]]))
>>> [round(float(share), 3) for share in shares], round(least, 3)
([0.5, 0.5, 0.0], 0.25)
"""

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import nnls


def least_kin_shares(kinships: NDArray[np.float64]) -> tuple[NDArray[np.float64], float]:
    """Shares of each bird and the mean kinship they leave. kinships: square, of at least one bird, positive definite.

    The least of x' f x / 2 - sum x over x >= 0 has the same direction; with f = R' R that is a least-squares problem.
    """
    root = np.linalg.cholesky(kinships).T
    found, _ = nnls(root, np.linalg.solve(root.T, np.ones(len(kinships))))
    shares = found / found.sum()
    return shares, float(shares @ kinships @ shares)
