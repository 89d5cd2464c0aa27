"""Candidate parents the slow way: eggs drawn one by one from pens written as plain rows."""

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cache
from random import Random
from typing import NamedTuple


class Row(NamedTuple):
    """One pen: from day to day (numbers; the last None while it lasts), cocks, hens, all with equal shares."""

    first: int
    last: int | None
    cocks: tuple[str, ...]
    hens: tuple[str, ...]


def draw_parents(
    pens: Sequence[Row],
    days: range,
    overlap: int,
    eggs: int,
    chance: Random,
    away: Mapping[str, tuple[int, int]] | None = None,
) -> dict[tuple[str | None, str | None], float]:
    """Share of eggs of each cock and hen: a day, a hen of that day, and a cock whose semen she may hold.

    away: bird -> the days it left and came back, on both of which it was in its pen; between them it was not.
    """

    def there(pen: Row, bird: str, day: int) -> bool:
        left, back = (away or {}).get(bird, (day, day))
        return pen.first <= day and (pen.last is None or day <= pen.last) and not left < day < back

    @cache
    def sires(hen: str, day: int) -> dict[str | None, float]:
        weights: dict[str | None, float] = {}
        for pen in pens:
            for cock in pen.cocks if hen in pen.hens else ():
                if any(there(pen, cock, before) for before in range(day - overlap, day + 1)):
                    weights[cock] = max(weights.get(cock, 0.0), 1 / len(pen.cocks))
        return weights or {None: 1.0}

    found: Counter[tuple[str | None, str | None]] = Counter()
    for _ in range(eggs):
        day = chance.choice(days)
        hen = chance.choice([hen for pen in pens for hen in pen.hens if there(pen, hen, day)])
        weights = sires(hen, day)
        found[chance.choices(list(weights), list(weights.values()))[0], hen] += 1
    return {pair: n / eggs for pair, n in found.items()}
