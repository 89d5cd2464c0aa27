"""The known truth: what each family's eggs do, and the simulation of every single egg from it.

Chance comes in one stream for each lot, named after it, so that a lot added later changes no other lot.
Only `random()` is drawn, whose numbers are the same in every version of Python.
"""

import random
from dataclasses import dataclass, field
from statistics import NormalDist

HATCHES = "hatches"
INFERTILE = "infertile"

# Shares of the embryos that die, by when they die. Invented; early and late peaks as in any incubator.
DEATHS = {
    "dead_early": 0.42,
    "dead_mid": 0.10,
    "dead_late": 0.20,
    "dead_internal_pip": 0.18,
    "dead_external_pip": 0.10,
}
EARLY_LOOKS_CLEAR = 0.15  # died so early that the candle shows nothing: only opening tells it from an infertile egg
EARLY_MISSED_AT_FIRST = 0.10  # a faint blood ring, taken for live on day 7 and found on day 14
CHICK_DIES_IN_FIRST_WEEK = 0.08
CAUSES = {"weak": 0.6, "chilled": 0.25, "legs": 0.15}
PIP_TO_OUT_H = 14.0
LATEST_SD = 3.5  # no chick is later than this, so that every hatch ends before it is opened


@dataclass(frozen=True, slots=True)
class FamilyTruth:
    """What is really so of a family, shares of 1; hatch hours since setting."""

    key: str
    name: str
    species: str
    breed: str
    sign: str
    shell: str
    fertility: float
    hatch_of_fertile: float
    hatch_h: float
    hatch_sd_h: float
    egg_g: float

    @property
    def hatch_of_set(self) -> float:
        return self.fertility * self.hatch_of_fertile


CHICKEN, DUCK = "Marsh Speckle", "Brook Grey"
FAMILIES = {
    truth.key: truth
    for truth in (
        FamilyTruth("rowan", "Rowan", "chicken", CHICKEN, "R", "tinted", 0.92, 0.82, 500.0, 6.0, 56.0),
        FamilyTruth("hazel", "Hazel", "chicken", CHICKEN, "H", "tinted", 0.86, 0.78, 501.0, 6.0, 54.5),
        FamilyTruth("alder", "Alder", "chicken", CHICKEN, "A", "tinted", 0.88, 0.84, 499.0, 6.0, 57.5),
        FamilyTruth("birch", "Birch", "chicken", CHICKEN, "B", "tinted", 0.55, 0.76, 502.0, 6.0, 55.0),
        FamilyTruth("sedge", "Sedge", "duck", DUCK, "S", "white", 0.84, 0.70, 668.0, 9.0, 72.0),
    )
}


@dataclass(slots=True)
class Egg:
    """One egg: its fate is fixed when it is laid; `stage` is what the keeper has written so far."""

    fate: str
    looks_clear: bool = False
    missed_at_first: bool = False
    hatch_h: float | None = None
    dies_on_day: int | None = None
    cause: str | None = None
    stage: str = "set"

    def candled(self, day: int) -> str:
        """What the candle shows on a day of incubation: live, or the stage the egg is moved to."""
        if self.fate == INFERTILE or self.looks_clear:
            return "clear"
        if self.fate == "dead_early" and not self.missed_at_first:
            return "blood_ring"
        if day >= 14 and self.fate in ("dead_early", "dead_mid"):
            return "quitter"
        return "live"

    def pips_by(self, hours: float) -> bool:
        return self.hatch_h is not None and self.hatch_h - PIP_TO_OUT_H <= hours


@dataclass(slots=True)
class Chance:
    """A stream of chance with a name."""

    name: str
    stream: random.Random = field(init=False)

    def __post_init__(self) -> None:
        self.stream = random.Random(self.name)

    def happens(self, share: float) -> bool:
        return self.stream.random() < share

    def pick(self, shares: dict[str, float]) -> str:
        left = self.stream.random() * sum(shares.values())
        for name, share in shares.items():
            left -= share
            if left < 0:
                return name
        return name

    def normal(self, mean: float, sd: float) -> float:
        """Rounded to a thousandth, which no mathematics library disagrees about."""
        share = min(max(self.stream.random(), 1e-9), 1 - 1e-9)
        return round(NormalDist(mean, sd).inv_cdf(share), 3)


def lay(truth: FamilyTruth, n: int, chance: Chance) -> list[Egg]:
    """n eggs of a family, each with its fate."""
    return [_egg(truth, chance) for _ in range(n)]


def _egg(truth: FamilyTruth, chance: Chance) -> Egg:
    # Every egg draws the same numbers whatever becomes of it, so that a changed share moves few fates.
    fertile, hatches = chance.happens(truth.fertility), chance.happens(truth.hatch_of_fertile)
    death = chance.pick(DEATHS)
    looks_clear, missed = chance.happens(EARLY_LOOKS_CLEAR), chance.happens(EARLY_MISSED_AT_FIRST)
    latest_h = truth.hatch_h + LATEST_SD * truth.hatch_sd_h
    hatch_h = min(chance.normal(truth.hatch_h, truth.hatch_sd_h), latest_h)
    dies, age, cause = chance.happens(CHICK_DIES_IN_FIRST_WEEK), chance.stream.random(), chance.pick(CAUSES)
    if not fertile:
        return Egg(INFERTILE)
    if not hatches:
        early = death == "dead_early"
        return Egg(death, looks_clear=early and looks_clear, missed_at_first=early and missed and not looks_clear)
    return Egg(HATCHES, hatch_h=hatch_h, dies_on_day=1 + int(age * 5) if dies else None, cause=cause if dies else None)
