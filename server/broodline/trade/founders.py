"""What the living birds still carry of their founders, by dropping genes through the pedigree.

Gene drop: MacCluer et al. 1986, Zoo Biol. 5:147. Founder equivalents fe = 1 / sum p^2 and founder genome equivalents
fg = 1 / sum (p^2 / r): Lacy 1989, Zoo Biol. 8:111. One over twice the mean kinship is another figure, and not this fg.
A founder is a bird with no known parent, or the unknown other parent of a chick.

>>> from broodline.trade.pedigree import Recorded, independent, pedigree_of
>>> pair = independent({"cock": 1.0}, {"hen": 1.0})
>>> found = founders_of(pedigree_of([Recorded("chick", pairs=pair)]), ["chick", "cock"], seed=1)
>>> [(one.bird, one.share, one.kept) for one in found.founders], found.fe, found.alleles
([('cock', 0.75, 1.0), ('hen', 0.25, 0.5)], 1.6, 3.0)
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from broodline.trade.pedigree import Node, Pedigree, forebears_of


@dataclass(frozen=True, slots=True)
class Founder:
    """A founder in the living birds. bird: None for an unknown parent of `chick`.

    share: of the living birds' genes, to be expected (p). kept: of its own genes, to be expected (r).
    descendants: how many living birds may come from it, itself not counted.
    """

    bird: str | None
    chick: str | None
    share: float
    kept: float
    descendants: int


@dataclass(frozen=True, slots=True)
class Founders:
    """fe: founder equivalents. fg: founder genome equivalents. alleles: founder genes kept, two for each founder."""

    fe: float
    fg: float
    alleles: float
    founders: tuple[Founder, ...]


def founders_of(pedigree: Pedigree, living: Sequence[str], *, seed: int, drops: int = 10_000) -> Founders | None:
    """What is left of the founders in the living birds; None where none lives. seed: of the gene drop."""
    if not living:
        return None
    nodes, moved = forebears_of(pedigree, (pedigree.position[bird] for bird in living))
    at = [moved[pedigree.position[bird]] for bird in living]
    sources = _sources(nodes)
    shares = _shares(nodes, sources)
    mean = shares[at].mean(axis=0)
    kept = _kept(nodes, sources, at, np.random.default_rng(seed), drops)
    found = []
    for (place, side), column in sources.items():
        whole = side == _BIRD
        node = nodes[place]
        if kept[column] > 0:  # a candidate too unlikely to have given a gene in any drop is no founder
            found.append(
                Founder(
                    bird=node.bird if whole else None,
                    chick=None if whole else node.bird,
                    share=float(mean[column]),
                    kept=float(kept[column]),
                    descendants=int((shares[at, column] > 0).sum()) - (1 if whole and place in at else 0),
                )
            )
    return Founders(
        fe=1 / sum(one.share**2 for one in found),
        fg=1 / sum(one.share**2 / one.kept for one in found),
        alleles=2 * sum(one.kept for one in found),
        founders=tuple(found),
    )


_SIRE, _DAM, _BIRD = 0, 1, 2
_Sources = dict[tuple[int, int], int]


def _sources(nodes: Sequence[Node]) -> _Sources:
    """Where genes enter: (node, whether as a whole bird or as one unknown parent) -> a number."""
    found: _Sources = {}
    for place, node in enumerate(nodes):
        if all(sire < 0 and dam < 0 for sire, dam, _ in node.pairs):
            found[place, _BIRD] = len(found)
            continue
        for side in (_SIRE, _DAM) if node.bird is not None else (_DAM,):
            if any(pair[side] < 0 for pair in node.pairs):
                found[place, side] = len(found)
    return found


def _shares(nodes: Sequence[Node], sources: _Sources) -> NDArray[np.float64]:
    """Expected share of each node's genes from each source."""
    shares = np.zeros((len(nodes), len(sources)))
    for place, node in enumerate(nodes):
        if (place, _BIRD) in sources:
            shares[place, sources[place, _BIRD]] = 1.0
            continue
        sides, part = ((_SIRE, _DAM), 0.5) if node.bird is not None else ((_DAM,), 1.0)
        for sire, dam, chance in node.pairs:
            for side in sides:
                parent = (sire, dam)[side]
                if parent >= 0:
                    shares[place] += part * chance * shares[parent]
                else:
                    shares[place, sources[place, side]] += part * chance
    return shares


def _kept(
    nodes: Sequence[Node], sources: _Sources, living: Sequence[int], chance: np.random.Generator, drops: int
) -> NDArray[np.float64]:
    """Mean share of each source's two genes that some living bird still carries."""
    each = np.arange(drops)
    genes = np.zeros((len(nodes), drops, 2), np.int32)
    for place, node in enumerate(nodes):
        chances = np.array([pair[2] for pair in node.pairs])
        way = chance.choice(len(chances), size=drops, p=chances / chances.sum())
        if (place, _BIRD) in sources:
            genes[place] = 2 * sources[place, _BIRD] + np.array([0, 1])
        elif node.bird is None:
            dam = np.array([pair[_DAM] for pair in node.pairs])[way]
            genes[place] = genes[dam, each]
            genes[place][dam < 0] = 2 * sources.get((place, _DAM), 0) + np.array([0, 1])
        else:
            for side in (_SIRE, _DAM):
                parent = np.array([pair[side] for pair in node.pairs])[way]
                half = chance.integers(0, 2, size=drops)
                fresh = 2 * sources.get((place, side), 0) + half
                genes[place, :, side] = np.where(parent >= 0, genes[parent, each, half], fresh)
    seen = np.zeros((drops, 2 * len(sources)), bool)
    for place in living:
        seen[each, genes[place, :, 0]] = True
        seen[each, genes[place, :, 1]] = True
    shares: NDArray[np.float64] = seen.mean(axis=0).reshape(-1, 2).mean(axis=1)
    return shares
