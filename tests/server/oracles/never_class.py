"""Time of an event that some never have: any curve of two figures, and the share that has it at all, by maximum
likelihood over all three together.

The likelihood is written as the book of germination does it: seeds in each interval, and those left at the end.
"""

from collections.abc import Callable, Sequence
from math import inf, log

from scipy.optimize import minimize
from scipy.special import expit, logit

Curve = Callable[[float, float, float], float]


def fit(
    curve: Curve,
    intervals: Sequence[tuple[float, float, int]],
    left: Sequence[tuple[float, int]],
    start: tuple[float, float, float],
) -> tuple[float, float, float, float]:
    """First and second figure, share, log likelihood. curve(time, first, second): the share out by then of those that
    ever come out. left: (time, how many had not come out by then). start: near the answer.
    """

    def minus(at: Sequence[float]) -> float:
        first, second, share = at[0], at[1], float(expit(at[2]))

        def out(time: float) -> float:
            return 0.0 if time == -inf else share * (1.0 if time == inf else curve(time, first, second))

        total = sum(n * log(max(1e-300, out(by) - out(after))) for after, by, n in intervals if n)
        return -total - sum(n * log(max(1e-300, 1 - out(time))) for time, n in left)

    best, height = [start[0], start[1], float(logit(start[2]))], inf
    for _ in range(6):  # a simplex that shrank too soon is opened again
        found = minimize(
            minus, best, method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-12, "maxiter": 4000, "maxfev": 8000}
        )
        best, settled, height = list(found.x), abs(height - found.fun) < 1e-12, found.fun
        if settled:
            break
    return best[0], best[1], float(expit(best[2])), -height
