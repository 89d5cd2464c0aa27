"""The best and the worst plan of pens by going through all plans there are."""

from collections.abc import Iterator, Sequence
from itertools import combinations, product

Table = Sequence[Sequence[float]]
Pens = tuple[tuple[tuple[int, ...], tuple[int, ...]], ...]


def every_plan(
    table: Table,
    *,
    pens: int,
    hens: int,
    cocks: int = 1,
    forbidden: frozenset[tuple[int, int]] = frozenset(),
    together: frozenset[tuple[int, int]] = frozenset(),
    must_cocks: frozenset[int] = frozenset(),
    must_hens: frozenset[int] = frozenset(),
    families: tuple[int, ...] | None = None,
) -> Iterator[tuple[float, Pens]]:
    """Sum of F over hens, and the plan, of each that keeps the limits: as many hens as can be, as even as can be."""
    n_cocks, n_hens = len(table), len(table[0])
    placings = [
        placed
        for placed in product(range(-1, pens), repeat=n_hens)
        if all(1 <= placed.count(pen) <= hens for pen in range(pens)) and _families_kept(placed, pens, families)
    ]
    wanted = max((_sizes(placed, pens)[0] for placed in placings), default=0)
    least = max((least for total, least in (_sizes(placed, pens) for placed in placings) if total == wanted), default=0)
    groups = [group for group in combinations(combinations(range(n_cocks), cocks), pens) if _apart(group)]
    for placed in placings:
        total, smallest = _sizes(placed, pens)
        if total != wanted or smallest < least:
            continue
        if any(placed[hen] < 0 for hen in must_hens):
            continue
        for group in groups:
            used = {cock for pen in group for cock in pen}
            pairs = [(cock, hen) for hen, pen in enumerate(placed) if pen >= 0 for cock in group[pen]]
            if must_cocks <= used and not forbidden & set(pairs) and together <= set(pairs):
                plan = tuple(
                    (group[pen], tuple(hen for hen in range(n_hens) if placed[hen] == pen)) for pen in range(pens)
                )
                yield sum(table[cock][hen] for cock, hen in pairs) / cocks, plan


def _sizes(placed: Sequence[int], pens: int) -> tuple[int, int]:
    """Hens in all pens, and in the smallest."""
    sizes = [placed.count(pen) for pen in range(pens)]
    return sum(sizes), min(sizes)


def _families_kept(placed: Sequence[int], pens: int, families: tuple[int, ...] | None) -> bool:
    """No pen of two families; and none without a pen, if there are pens enough."""
    if families is None:
        return True
    in_pens = {(pen, families[hen]) for hen, pen in enumerate(placed) if pen >= 0}
    without = set(families) - {family for _, family in in_pens}
    return len(in_pens) <= pens and (not without or len(set(families)) > pens)


def _apart(group: Sequence[tuple[int, ...]]) -> bool:
    birds = [cock for pen in group for cock in pen]
    return len(birds) == len(set(birds))
