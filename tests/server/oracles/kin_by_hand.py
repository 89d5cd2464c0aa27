"""Kinship the slow ways: by every way the birds may have come, and by counting paths.

Sure pedigrees here are {bird: (sire or None, dam or None)}; uncertain ones {bird: (sires, dams, clutch)} with sires and
dams {name: chance}; what is left to one is unknown.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from itertools import product

Sure = Mapping[str, tuple[str | None, str | None]]
Candidates = Mapping[str, tuple[Mapping[str, float], Mapping[str, float], str | None]]


def every_way(candidates: Candidates) -> Iterator[tuple[float, Sure]]:
    """Each way the birds may have come, with its chance. The birds of one clutch share the draw of the hen."""
    draws: dict[tuple[str, str], list[tuple[str | None, float]]] = {}
    for bird, (sires, dams, clutch) in candidates.items():
        draws["sire", bird] = [*sires.items(), (None, 1 - sum(sires.values()))]
        draws["dam", clutch or bird] = [*dams.items(), (f"hen of {clutch}" if clutch else None, 1 - sum(dams.values()))]
    keys = list(draws)
    for chosen in product(*draws.values()):
        chance = 1.0
        for _, one in chosen:
            chance *= one
        if chance > 1e-12:
            by_key = {key: name for key, (name, _) in zip(keys, chosen, strict=True)}
            yield (
                chance,
                {
                    bird: (by_key["sire", bird], by_key["dam", clutch or bird])
                    for bird, (_, _, clutch) in candidates.items()
                },
            )


def kinship_in(sure: Sure, one: str, other: str) -> float:
    """The definition, written down: the younger bird's gene is from its sire or its dam."""

    def age(bird: str) -> int:
        return 1 + max((age(parent) for parent in sure.get(bird, ()) if parent is not None), default=0)

    @cache
    def kinship(first: str | None, second: str | None) -> float:
        if first is None or second is None:
            return 0.0
        if first == second:
            return 0.5 * (1 + kinship(*sure.get(first, (None, None))))
        if age(first) < age(second):
            first, second = second, first
        sire, dam = sure.get(first, (None, None))
        return 0.5 * (kinship(sire, second) + kinship(dam, second))

    return kinship(one, other)


def mean_kinship_of(candidates: Candidates, one: str, other: str) -> float:
    """Over every way, each by its chance."""
    return sum(chance * kinship_in(sure, one, other) for chance, sure in every_way(candidates))


def inbreeding_by_paths(sure: Sure, bird: str) -> float:
    """Wright 1922: over each common ancestor A and each pair of paths to it that share no other bird,
    one half to the power of the birds on them, times 1 + F of A.
    """
    sire, dam = sure.get(bird, (None, None))
    if sire is None or dam is None:
        return 0.0
    return sum(
        0.5 ** (len(left) + len(right) - 1) * (1 + inbreeding_by_paths(sure, left[-1]))
        for left in _paths(sure, sire)
        for right in _paths(sure, dam)
        if left[-1] == right[-1] and not set(left[:-1]) & set(right[:-1])
    )


def _paths(sure: Sure, bird: str) -> list[tuple[str, ...]]:
    further = [parent for parent in sure.get(bird, ()) if parent is not None]
    return [(bird,), *((bird, *path) for parent in further for path in _paths(sure, parent))]
