"""Candidate parents the slow way: eggs drawn one by one from pens written as plain rows."""

from collections import Counter
from collections.abc import Sequence
from random import Random
from typing import NamedTuple


class Row(NamedTuple):
    """One pen: from day to day (numbers; the last None while it lasts), cocks, hens, all with equal shares."""

    first: int
    last: int | None
    cocks: tuple[str, ...]
    hens: tuple[str, ...]


def draw_parents(
    pens: Sequence[Row], days: range, overlap: int, eggs: int, chance: Random
) -> dict[tuple[str | None, str | None], float]:
    """Share of eggs of each cock and hen: a day, a hen of that day, and a cock whose semen she may hold."""
    found: Counter[tuple[str | None, str | None]] = Counter()
    for _ in range(eggs):
        day = chance.choice(days)
        hens = [hen for pen in pens if pen.first <= day and (pen.last is None or day <= pen.last) for hen in pen.hens]
        hen = chance.choice(hens)
        weights: dict[str, float] = {}
        for pen in pens:
            if hen in pen.hens and pen.first <= day and (pen.last is None or day - pen.last <= overlap):
                for cock in pen.cocks:
                    weights[cock] = max(weights.get(cock, 0.0), 1 / len(pen.cocks))
        found[chance.choices(list(weights), list(weights.values()))[0], hen] += 1
    return {pair: n / eggs for pair, n in found.items()}
