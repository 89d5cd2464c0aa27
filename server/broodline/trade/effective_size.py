"""How fast a closed flock becomes inbred: effective size and the rate for each generation.

>>> effective_size(25, 25), round(100 * inbreeding_rate(50), 2)
(50.0, 1.0)
>>> round(100 * rate_within_families(10, 50), 2)
1.0
"""

from collections.abc import Iterable, Sequence


def effective_size(males: int, females: int) -> float:
    """Ne = 4 Nm Nf / (Nm + Nf) (Wright 1931): breeders mated at random, by sex. 0 where one sex is missing.

    >>> round(effective_size(1, 10), 4), effective_size(0, 9)
    (3.6364, 0.0)
    """
    return 4 * males * females / (males + females) if males > 0 and females > 0 else 0.0


def inbreeding_rate(size: float) -> float | None:
    """Delta F = 1 / (2 Ne), a share of 1 for each generation; None where there is no effective size."""
    return 1 / (2 * size) if size > 0 else None


def rate_within_families(males: int, females: int) -> float | None:
    """Delta F where every cock leaves one son and every hen one daughter: 3 / (32 Nm) + 1 / (32 Nf).

    Gowe, Robertson and Latter 1959, Poult. Sci. 38:462 (from memory); it gives FAO's table of 2012. For flocks that
    keep their size and have at least as many hens as cocks. None where one sex is missing.

    >>> round(rate_within_families(5, 25), 3), rate_within_families(0, 4)
    (0.02, None)
    """
    return 3 / (32 * males) + 1 / (32 * females) if males > 0 and females > 0 else None


def size_over_generations(sizes: Sequence[float]) -> float | None:
    """Harmonic mean of the sizes of several generations: the smallest weighs most. None for none; 0 if one is 0.

    >>> round(size_over_generations([10, 100, 50, 80, 20, 500]), 4)
    30.8483
    """
    if not sizes:
        return None
    return len(sizes) / sum(1 / size for size in sizes) if min(sizes) > 0 else 0.0


def individual_increase(inbreeding: float, generations: float) -> float | None:
    """Increase of F for each generation of a bird: 1 - (1 - F)^(1 / (t - 1)); None unless t is over 1.

    Gutierrez et al. 2009, Genet. Sel. Evol. 41:51 (from memory). generations: equivalent complete ones.

    >>> round(individual_increase(0.375, 3), 7)
    0.2094306
    """
    return 1 - (1 - inbreeding) ** (1 / (generations - 1)) if generations > 1 else None


def rate_from_pedigree(birds: Iterable[tuple[float, float]]) -> float | None:
    """Mean individual increase of birds as (F, equivalent generations); None where no pedigree is deep enough."""
    found = [rate for bird in birds if (rate := individual_increase(*bird)) is not None]
    return sum(found) / len(found) if found else None
