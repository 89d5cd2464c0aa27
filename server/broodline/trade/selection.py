"""What choosing breeders brings: intensity, response, and what a bird passes on.

R = i h2 sd (Falconer, Introduction to Quantitative Genetics, from memory). Traits on the scale of their own standard
deviation; compare a bird only with those of its own hatch and sex.

    >>> round(intensity(0.10), 4), round(intensity_of_best(1, 10), 4)
    (1.755, 1.5388)
    >>> round(response(heritability=0.4, sd=150, intensity_males=1.755, intensity_females=1.755), 1)
    105.3
"""

from math import inf

from scipy.integrate import quad
from scipy.special import betainc, ndtr
from scipy.stats import norm


def intensity(share: float) -> float:
    """How many standard deviations the best share of a very large group lies above its mean. 0 < share <= 1.

    Raises ValueError for any other share.
    """
    if not 0 < share <= 1:
        raise ValueError(f"{share} is no share to keep")
    return 0.0 if share == 1 else float(norm.pdf(norm.isf(share)) / share)


def intensity_of_best(kept: int, n: int) -> float:
    """As `intensity` for the best `kept` of n birds: the mean of the highest order statistics. 1 <= kept <= n.

    Lower than for a large group: of ten birds the best lies 1.54, not 1.76, above the mean. Raises ValueError.

    >>> intensity_of_best(4, 4)
    0.0
    """
    if not 1 <= kept <= n:
        raise ValueError(f"{kept} of {n} cannot be kept")
    if kept == n:
        return 0.0
    # A bird of value x is among the best `kept` where fewer than that of the n - 1 others lie above it.
    total, _ = quad(lambda x: x * norm.pdf(x) * betainc(n - kept, kept, ndtr(x)), -inf, inf)
    return float(n / kept * total)


def response(*, heritability: float, sd: float, intensity_males: float, intensity_females: float) -> float:
    """The change of the mean in one generation, in the trait's unit. Each sex passes on half."""
    return heritability * sd * (intensity_males + intensity_females) / 2


def breeding_value(own: float, contemporaries: float, heritability: float) -> float:
    """What a bird is likely to pass on twice over: its own value less that of its hatch and sex, drawn to nought.

    >>> breeding_value(1850, 1700, 0.4)
    60.0
    """
    return heritability * (own - contemporaries)
