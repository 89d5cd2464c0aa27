"""The living birds of each breed: how kin they are, what they keep of their founders, how fast the line narrows."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from broodline.reports.flock_pedigree import Flock, FlockBird
from broodline.trade.contributions import least_kin_shares
from broodline.trade.effective_size import effective_size, inbreeding_rate, rate_from_pedigree, rate_within_families
from broodline.trade.founders import Founders, founders_of
from broodline.trade.kinship import Relationships

# FAO advises to stay below 1 % a generation, better below half of it; Ne 50 is its mark for concern (JNCC, WUR).
MOST_RATE, BEST_RATE, LEAST_SIZE = 0.01, 0.005, 50
SEED = 20_260_301
FEW_DESCENDANTS = 2


@dataclass(frozen=True, slots=True)
class Living:
    """Living birds of one breed, lent ones among them. size, rate: Ne and delta F from the numbers of the two sexes.

    own_rate: mean individual increase of F of birds with a pedigree deep enough, else None. within: delta F if each
    cock left one son and each hen one daughter. mean_kinship: of all with all, each with itself too; least_kinship: if
    each bred by the share that keeps most.
    """

    kind: str
    birds: tuple[FlockBird, ...]
    cocks: int
    hens: int
    size: float
    rate: float | None
    own_rate: float | None
    within: float | None
    mean_kinship: float
    by_bird: dict[str, float]
    least_kinship: float
    founders: Founders | None


def living_of(flock: Flock, kin: Relationships) -> list[Living]:
    """Each breed with a living bird, the one with most birds first."""
    alive = [bird for bird in flock.birds.values() if bird.where != "gone"]
    kinds = Counter(bird.kind for bird in alive)
    order = sorted(kinds, key=lambda kind: (-kinds[kind], kind))
    return [_living(kind, [bird for bird in alive if bird.kind == kind], flock, kin) for kind in order]


def rate_of(cocks: int, hens: int) -> float | None:
    """Delta F of so many breeders mated at random."""
    return inbreeding_rate(effective_size(cocks, hens))


def _living(kind: str, birds: Sequence[FlockBird], flock: Flock, kin: Relationships) -> Living:
    names = [bird.id for bird in birds]
    cocks, hens = (sum(bird.sex == sex for bird in birds) for sex in ("male", "female"))
    means = kin.mean_kinships(names)
    return Living(
        kind=kind,
        birds=tuple(birds),
        cocks=cocks,
        hens=hens,
        size=effective_size(cocks, hens),
        rate=rate_of(cocks, hens),
        own_rate=rate_from_pedigree((kin.inbreeding(name), flock.pedigree.completeness[name]) for name in names),
        within=rate_within_families(cocks, hens) if hens >= cocks else None,
        mean_kinship=float(means.mean()),
        by_bird=dict(zip(names, map(float, means), strict=True)),
        least_kinship=least_kin_shares(kin.kinships(names, names))[1],
        founders=founders_of(flock.pedigree, names, seed=SEED, drops=2000),
    )
