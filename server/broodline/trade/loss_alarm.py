"""When losses of chicks are more than their age explains: one bad day, or a slow rise.

Expected deaths come from the caller, by age. Deaths of one cause at once (a power cut, a fox) are no chance and are
left out by the caller. Days in order.

    >>> round(chance_of_so_many(3, 60, 0.003), 4), alarming_deaths(60, 0.003, at_most=0.0027)
    (0.0008, 3)
    >>> [level for level in cusum([0, 2, 2, 3], [0.5] * 4, reference=2.0, alarm_at=3)]
    [Level(sum=0.0, alarm=False), Level(sum=1.0, alarm=False), Level(sum=2.0, alarm=False), Level(sum=4.0, alarm=True)]
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

from scipy.stats import binom


@dataclass(frozen=True, slots=True)
class Level:
    """The running sum of a day, and whether it has reached the alarm."""

    sum: float
    alarm: bool


def chance_of_so_many(died: int, n: int, share: float) -> float:
    """The chance that so many or more of n chicks die in a day on which that share is expected to. Exact."""
    return float(binom.sf(died - 1, n, share))


def alarming_deaths(n: int, share: float, *, at_most: float) -> int:
    """The least number of deaths of n in a day whose chance is at most so small; n + 1 where even all are no alarm."""
    return next((died for died in range(1, n + 1) if chance_of_so_many(died, n, share) <= at_most), n + 1)


def reference_for(rise: float) -> float:
    """The reference, in expected deaths, that finds a rise to `rise` times the expected soonest (Lucas 1985). rise > 1.

    >>> round(0.5 * reference_for(3), 5), round(1.0 * reference_for(2), 4)
    (0.91024, 1.4427)
    """
    return (rise - 1) / log(rise)


def cusum(died: Sequence[int], expected: Sequence[float], *, reference: float, alarm_at: float) -> list[Level]:
    """Poisson CUSUM by day: sum = max(0, sum + died - reference x expected), alarm at or above `alarm_at`.

    Lucas 1985, Technometrics 27:129-144. Programs that alarm only above the limit give longer runs.
    """
    levels = []
    total = 0.0
    for dead, due in zip(died, expected, strict=True):
        total = max(0.0, total + dead - reference * due)
        levels.append(Level(total, total >= alarm_at))
    return levels
