"""The living birds of each breed: how kin they are, what they keep of their founders, how fast the line narrows."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from broodline.reports.breeders import Breeders, breeders_of
from broodline.reports.flock_pedigree import Flock, FlockBird
from broodline.reports.pens import Pens
from broodline.trade.contributions import least_kin_shares
from broodline.trade.effective_size import effective_size, inbreeding_rate, rate_from_pedigree, rate_within_families
from broodline.trade.founders import Founders, founders_of
from broodline.trade.kin import Kin

# FAO advises to stay below 1 % a generation, better below half of it; Ne 50 is its mark for concern (JNCC, WUR).
MOST_RATE, BEST_RATE, LEAST_SIZE = 0.01, 0.005, 50
SEED = 20_260_301
FEW_DESCENDANTS = 2


@dataclass(frozen=True, slots=True)
class Living:
    """Living birds of one breed, lent ones among them. size, rate: Ne and delta F from those of them that breed.

    own_rate: mean individual increase of F of birds with a pedigree deep enough, else None. within: delta F if each
    cock left one son and each hen one daughter. mean_kinship: of all with all, each with itself too; least_kinship: if
    each bred by the share that keeps most.
    """

    kind: str
    birds: tuple[FlockBird, ...]
    cocks: int
    hens: int
    breeders: Breeders
    size: float
    rate: float | None
    own_rate: float | None
    within: float | None
    mean_kinship: float
    by_bird: dict[str, float]
    least_kinship: float
    founders: Founders | None


def living_of(flock: Flock, kin: Kin, pens: Pens, today: str) -> list[Living]:
    """Each breed with a living bird, the one with most birds first. today: a local day."""
    alive = [bird for bird in flock.birds.values() if bird.where != "gone"]
    kinds = Counter(bird.kind for bird in alive)
    order = sorted(kinds, key=lambda kind: (-kinds[kind], kind))
    found = []
    for kind in order:
        birds = [bird for bird in alive if bird.kind == kind]
        found.append(_living(kind, birds, breeders_of(pens, birds, today), flock, kin))
    return found


def rate_of(cocks: int, hens: int) -> float | None:
    """Delta F of so many breeders mated at random."""
    return inbreeding_rate(effective_size(cocks, hens))


def _living(kind: str, birds: Sequence[FlockBird], breeders: Breeders, flock: Flock, kin: Kin) -> Living:
    names = [bird.id for bird in birds]
    cocks, hens = (sum(bird.sex == sex for bird in birds) for sex in ("male", "female"))
    means = kin.mean_kinships(names)
    return Living(
        kind=kind,
        birds=tuple(birds),
        cocks=cocks,
        hens=hens,
        breeders=breeders,
        size=effective_size(breeders.cocks, breeders.hens),
        rate=rate_of(breeders.cocks, breeders.hens),
        own_rate=rate_from_pedigree((kin.inbreeding(name), flock.pedigree.completeness[name]) for name in names),
        within=rate_within_families(breeders.cocks, breeders.hens) if breeders.hens >= breeders.cocks else None,
        mean_kinship=float(means.mean()),
        by_bird=dict(zip(names, map(float, means), strict=True)),
        least_kinship=least_kin_shares(kin.kinships(names, names))[1],
        founders=founders_of(flock.pedigree, names, seed=SEED, drops=2000),
    )
