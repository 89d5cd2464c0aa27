"""The share of a group by time from any intervals, overlapping or not: Turnbull 1976, by plain repetition (EM).

Each of a group is known to lie after one time and by another, (after, by]. Mass can only lie on intervals between an
"after" and the next "by". Slow and obvious; checked on the breast cosmesis data in test_hatch_time_oracles.py.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import log


def masses(intervals: Sequence[tuple[float, float, int]], rounds: int = 20_000) -> list[tuple[float, float, float]]:
    """(after, by, mass) of every innermost interval that holds mass. intervals: (after, by, how many)."""
    ends = sorted([(by, 0) for _, by, _ in intervals] + [(after, 1) for after, _, _ in intervals])
    # A "by" at the same time as an "after" comes first: (a, t] and (t, b] share nothing.
    inner = [(one[0], other[0]) for one, other in pairwise(ends) if (one[1], other[1]) == (1, 0)]
    inner = sorted(set(inner))
    holds = [
        ([at for at, (low, high) in enumerate(inner) if after <= low and high <= by], n) for after, by, n in intervals
    ]
    total = sum(n for _, n in holds)
    mass = [1 / len(inner)] * len(inner)
    for _ in range(rounds):
        fresh = [0.0] * len(inner)
        for places, n in holds:
            whole = sum(mass[at] for at in places)
            for at in places:
                fresh[at] += n * mass[at] / whole / total
        moved = max(abs(one - other) for one, other in zip(mass, fresh, strict=True))
        mass = fresh
        if moved < 1e-12:
            break
    return [(low, high, part) for (low, high), part in zip(inner, mass, strict=True) if part > 1e-6]


def log_likelihood(intervals: Sequence[tuple[float, float, int]], found: Sequence[tuple[float, float, float]]) -> float:
    """Of the intervals, given the masses."""
    return sum(
        n * log(sum(part for low, high, part in found if after <= low and high <= by)) for after, by, n in intervals
    )
