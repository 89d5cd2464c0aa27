"""How fast a closed flock becomes inbred: effective size and the rate for each generation.

>>> effective_size(25, 25), round(100 * inbreeding_rate(50), 2)
(50.0, 1.0)
>>> round(100 * rate_within_families(10, 50), 2)
1.0
"""


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
