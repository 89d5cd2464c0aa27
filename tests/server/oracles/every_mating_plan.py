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
    """Sum of F over hens, and the plan, of each plan that keeps the limits."""
    n_cocks, n_hens = len(table), len(table[0])
    wanted = min(pens * hens, n_hens)
    least = max(1, wanted // pens)
    groups = [group for group in combinations(combinations(range(n_cocks), cocks), pens) if _apart(group)]
    for placed in product(range(-1, pens), repeat=n_hens):
        sizes = [placed.count(pen) for pen in range(pens)]
        if sum(sizes) != wanted or min(sizes) < least or max(sizes) > hens:
            continue
        in_pens = {(pen, families[hen]) for hen, pen in enumerate(placed) if pen >= 0} if families else set()
        if len(in_pens) > pens:
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


def _apart(group: Sequence[tuple[int, ...]]) -> bool:
    birds = [cock for pen in group for cock in pen]
    return len(birds) == len(set(birds))
