"""Which young birds to keep so that as many parents as can be live on in one, the better bird of equals first.

A bird that may be of several cocks counts for each by its chance. Birds are taken one by one, always the one by whom
most is gained: the expected number of parents with at least one chick kept. Such a choice gains at least 63 % of the
best (Nemhauser, Wolsey and Fisher 1978, Math. Program. 14:265, from memory); where parents are sure, all of it.

>>> chances = [{"old": 1.0}, {"old": 1.0}, {"young": 1.0}]
>>> choose(chances, [2.0, 3.0, 1.0], 2)
[1, 2]
"""

from collections.abc import Mapping, Sequence

_SAME = 1e-9


def choose(parents: Sequence[Mapping[str, float]], merit: Sequence[float], n: int) -> list[int]:
    """Positions of the birds to keep, the first chosen first. parents: of each bird, parent -> chance. n: how many.

    merit: the higher the better, where two birds bring the same.
    """
    missed: dict[str, float] = {}
    kept: list[int] = []
    left = set(range(len(parents)))
    while left and len(kept) < n:
        best = max(left, key=lambda at: (round(_gain(parents[at], missed) / _SAME), merit[at], -at))
        left.remove(best)
        kept.append(best)
        for parent, chance in parents[best].items():
            missed[parent] = missed.get(parent, 1.0) * (1 - chance)
    return kept


def covered(parents: Sequence[Mapping[str, float]]) -> dict[str, float]:
    """Parent -> chance that at least one of these birds is its chick."""
    missed: dict[str, float] = {}
    for of_bird in parents:
        for parent, chance in of_bird.items():
            missed[parent] = missed.get(parent, 1.0) * (1 - chance)
    return {parent: 1 - share for parent, share in missed.items()}


def _gain(parents: Mapping[str, float], missed: Mapping[str, float]) -> float:
    return sum(missed.get(parent, 1.0) * chance for parent, chance in parents.items())
