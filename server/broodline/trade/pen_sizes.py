"""How many hens the pens of a plan hold, where hens of several families may mix and where each pen is of one family.

>>> pen_sizes(pens=4, hens=9, families=[10, 5, 7, 12])
PenSizes(wanted=30, least=5)
>>> pen_sizes(pens=4, hens=9, families=None, birds=34)
PenSizes(wanted=34, least=8)
"""

from collections.abc import Sequence
from dataclasses import dataclass

from broodline.trade.sources import Cell, cell, read_table


@dataclass(frozen=True, slots=True)
class PenSizes:
    """wanted: hens in all pens together. least: in the smallest pen, as even as can be."""

    wanted: int
    least: int


def pen_sizes(*, pens: int, hens: int, families: Sequence[int] | None, birds: int = 0) -> PenSizes:
    """As many hens as can be placed, at most `hens` in each of the pens. families: hens of each, each at least one.

    With families every pen is of one of them, and each family has a pen if there are so many. birds: all hens, where
    families is None and they may mix.
    """
    if families is None:
        wanted = min(pens * hens, birds)
        return PenSizes(wanted, max(1, wanted // max(1, pens)))
    shared = pens_shared(pens=pens, hens=hens, families=families)
    placed = [(min(n, hens * of), of) for n, of in zip(families, shared, strict=True) if of]
    return PenSizes(sum(n for n, _ in placed), max(1, min(n // of for n, of in placed)))


def pens_shared(*, pens: int, hens: int, families: Sequence[int]) -> list[int]:
    """How many pens each family has, so that as many hens as can be have a place. families, hens: as in `pen_sizes`.

    >>> pens_shared(pens=5, hens=9, families=[10, 5, 7, 12])
    [1, 1, 1, 2]
    """
    shared = [1 if pens >= len(families) else 0] * len(families)
    for _ in range(pens - sum(shared)):
        gains = [(min(max(0, n - hens * of), hens), n / (of + 1)) for n, of in zip(families, shared, strict=True)]
        shared[gains.index(max(gains))] += 1
    return shared


def usual_hens(species: str) -> dict[str, Cell]:
    """Hens with one cock in a usual flock, fewest and most, by the weight of the breed; empty where nothing was read.

    >>> {weight: usual.value for weight, usual in usual_hens("chicken").items()}, usual_hens("duck")
    ({'light': [12, 15], 'heavy': [10, 12]}, {})
    """
    return {weight: cell(told) for weight, told in read_table("breeding")["hens_per_cock"].get(species, {}).items()}


def roomy_pen(*, pens: int, families: Sequence[int]) -> int:
    """The fewest hens a pen must take so that as many as can be have a place with the families apart.

    >>> roomy_pen(pens=4, families=[10, 5, 7, 12]), roomy_pen(pens=5, families=[10, 5, 7, 12])
    (12, 10)
    """
    most = pen_sizes(pens=pens, hens=max(families), families=families).wanted
    return next(
        n for n in range(1, max(families) + 1) if pen_sizes(pens=pens, hens=n, families=families).wanted == most
    )
