"""A young bird's weight beside those of its own hatch and sex, drawn back to their mean as far as is known.

Birds of one setting and sex grew up alike, whichever their family: they alone are compared. Each by its last weighing,
among those weighed that day, each once. Of what it is above them only a part is passed on: the heritability, where one
was read.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from broodline.book.standing import Standing
from broodline.reports.growth import Weight, weights_of
from broodline.trade.heritability import heritability
from broodline.trade.selection import breeding_value
from broodline.trade.sources import Cell

LEAST = 3


@dataclass(frozen=True, slots=True)
class Beside:
    """mean_g, sd_g, n: of the group that day, the bird included; above_g: over the mean; z: in standard deviations.

    passed_on_g: of above_g, to be expected in chicks if its mate passes on as much; None where no heritability was
    read for the species and age. Groups of fewer than three say nothing: above_g and z are then None.
    """

    hatch: str
    on: str
    age_days: int | None
    mass_g: float
    n: int
    mean_g: float
    sd_g: float | None
    above_g: float | None
    z: float | None
    passed_on_g: float | None
    heritability: Cell | None


def beside_contemporaries(standing: Standing, species: str) -> Mapping[str, Beside]:
    """Bird -> its last weight beside its hatch and sex. Birds that were not weighed by themselves are left out."""
    groups: dict[tuple[str, str, str], list[Weight]] = {}
    last: dict[str, tuple[tuple[str, str, str], Weight]] = {}
    for weight in weights_of(standing):
        if not weight.lot:
            continue
        key = (_hatch(standing, weight.lot), weight.sex, weight.on)
        groups.setdefault(key, []).append(weight)
        if weight.bird is not None and (weight.bird not in last or last[weight.bird][1].on <= weight.on):
            last[weight.bird] = (key, weight)
    return {bird: _beside(key[0], groups[key], weight, species) for bird, (key, weight) in last.items()}


def _hatch(standing: Standing, lot: str) -> str:
    known = standing.lots.get(lot)
    return known.setting if known is not None and known.setting is not None else lot


def _beside(hatch: str, group: Sequence[Weight], own: Weight, species: str) -> Beside:
    masses = [one.mass_g for one in group]
    mean, sd = fmean(masses), stdev(masses) if len(masses) > 1 else None
    found = None if own.age_days is None else heritability(species, own.age_days)
    enough = len(masses) >= LEAST
    return Beside(
        hatch=hatch,
        on=own.on,
        age_days=own.age_days,
        mass_g=own.mass_g,
        n=len(masses),
        mean_g=mean,
        sd_g=sd,
        above_g=own.mass_g - mean if enough else None,
        z=(own.mass_g - mean) / sd if enough and sd else None,
        passed_on_g=breeding_value(own.mass_g, mean, found.value) if enough and found is not None else None,
        heritability=found,
    )
