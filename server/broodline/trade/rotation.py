"""Moving males among families: which family's cocks serve which, and what inbreeding is to be expected of it.

Hens stay in their mother's family; each year's cocks come from another family. Jumps say how many families on they
come from, year by year in turn. The recursion is exact for cocks and hens drawn at random within families that start
unrelated; it agrees with Kimura and Crow 1963 (Genet. Res. 4:399) for circles of pairs and with the cyclical systems of
Theor. Appl. Genet. 1987, 73:506.

>>> [round(100 * f, 2) for f in forecast(families=3, cocks=1, hens=4, jumps=(1,), generations=6)]
[0.0, 0.0, 3.91, 7.57, 10.94, 14.2]
>>> usual_jumps(4), usual_jumps(8)
((1, 2), (1, 2, 4))
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Matrix = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Kin:
    """within and among families: mean kinship of two different birds (square); own: mean F of each family's birds."""

    among: Matrix
    own: Matrix


def usual_jumps(families: int) -> tuple[int, ...]:
    """The jumps with the lowest early inbreeding, year by year in turn; 1 family has none. families: at least 1.

    Two swap; three go round; four jump 1, 2; eight jump 1, 2, 4; the others 1, 2, ... up to one less than there are.
    """
    return {1: (0,), 4: (1, 2), 8: (1, 2, 4)}.get(families, tuple(range(1, families)))


def serving(families: int, jump: int) -> list[int]:
    """For each family, the family its cocks come from."""
    return [(family - jump) % families for family in range(families)]


def forecast(
    *, families: int, cocks: int, hens: int, jumps: Sequence[int], generations: int, start: Kin | None = None
) -> list[float]:
    """Mean F of all families from generation 1 on. cocks, hens: in each family. start: of the birds there are now.

    Without `start` the families begin unrelated, so that the first generation has F 0.
    """
    kin = start or Kin(np.zeros((families, families)), np.zeros(families))
    curve = []
    for generation in range(generations):
        kin = next_generation(kin, serving(families, jumps[generation % len(jumps)]), cocks, hens)
        curve.append(float(kin.own.mean()))
    return curve


def pooled_forecast(*, cocks: int, hens: int, generations: int) -> list[float]:
    """Mean F where all birds are mated at random as one flock of so many cocks and hens."""
    return forecast(families=1, cocks=cocks, hens=hens, jumps=(0,), generations=generations)


def next_generation(kin: Kin, sources: Sequence[int], cocks: int, hens: int) -> Kin:
    """Kinship after each family k was bred from the cocks of family sources[k] and its own hens."""
    source = np.array(sources)
    among, own = kin.among, kin.own
    sires = among[np.ix_(source, source)].copy()
    dams = among.copy()
    for family, other in np.ndindex(among.shape):
        if source[family] == source[other]:
            home = int(source[family])
            sires[family, other] = _two_draws(float(own[home]), float(among[home, home]), cocks)
        if family == other:
            dams[family, family] = _two_draws(float(own[family]), float(among[family, family]), hens)
    across = among[source, :]
    return Kin((sires + across + across.T + dams) / 4, across.diagonal().copy())


def instruction(names: Sequence[str], jump: int) -> list[str]:
    """A year's moves in words, one for each family; names in the order of the circle.

    >>> instruction(["Rowan", "Hazel"], 1)
    ["Hazel's cockerels go to Rowan.", "Rowan's cockerels go to Hazel."]
    """
    sources = serving(len(names), jump)
    return [
        f"{names[source]}'s cockerels stay with {name}'s hens."
        if name == names[source]
        else f"{names[source]}'s cockerels go to {name}."
        for name, source in zip(names, sources, strict=True)
    ]


def _two_draws(own: float, between: float, birds: int) -> float:
    """Kinship of two parents drawn from so many: the same bird, or two different ones."""
    return float((0.5 * (1 + own) + (birds - 1) * between) / birds)
