"""Are losses of a kind more than published? Exact binomial test against a bound with its source, and likely causes.

>>> findings({"dead_early": 4}, examined=40, fertile=40)[0].code
'dead_early'
>>> findings({"dead_early": 1}, examined=40, fertile=40)
[]
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from scipy.stats import binom

from broodline.trade.sources import Cell, cell, read_table
from broodline.trade.species import SPECIES

_TABLE = read_table("breakout")
SIGNIFICANCE = cell(_TABLE["significance"]).value
CLEAR_NOTE = cell(_TABLE["notes"]["clear"])
NO_DIAGNOSIS_NOTE = cell(_TABLE["notes"]["no_diagnosis"])
_LETHAL = {trait: (frozenset(row["names"]), cell(row["share"])) for trait, row in _TABLE["lethal"].items()}


@dataclass(frozen=True, slots=True)
class Finding:
    """k of n eggs were lost this way. bound: the published share. p: the chance of so many or more at the bound.

    words: the finding in words. of: "fertile" or "examined". likely: causes published for it, never proof.
    classes: the stages counted.
    """

    code: str
    words: str
    k: int
    n: int
    of: str
    bound: Cell
    p: float
    likely: tuple[Cell, ...]
    classes: tuple[str, ...]


def findings(stages: Mapping[str, int], *, examined: int, fertile: int) -> list[Finding]:
    """What stands out among eggs by stage; n: how many were examined and fertile. Nothing stands out of no egg."""
    found = []
    for code, row in _TABLE["findings"].items():
        k = sum(max(0, stages.get(stage, 0)) for stage in row["classes"])
        n = {"examined": examined, "fertile": fertile}[row["of"]]
        bound = cell(row["bound"])
        if not 0 < k <= n:
            continue
        p = float(binom.sf(k - 1, n, bound.value))
        if p < SIGNIFICANCE:
            likely = tuple(cell(cause) for cause in row["likely"])
            found.append(Finding(code, row["words"], k, n, row["of"], bound, p, likely, tuple(row["classes"])))
    return found


def death_class(species: str, day: float) -> str:
    """Early, middle or late death by the day an embryo died; unknown species by thirds of 21 days.

    Internal and external pip are seen, not reckoned from the day.

    >>> [death_class("chicken", day) for day in (3, 7, 8, 14, 15)]
    ['dead_early', 'dead_early', 'dead_mid', 'dead_mid', 'dead_late']
    >>> [death_class("duck", day) for day in (9, 10, 19)]
    ['dead_early', 'dead_mid', 'dead_late']
    """
    if species == "chicken":
        early, middle = cell(_TABLE["classes"]["chicken"]).value
    else:
        parts = cell(_TABLE["classes"]["other"]).value
        period = SPECIES[species if species in SPECIES else "chicken"].period_days[0]
        early, middle = period / parts, 2 * period / parts
    return "dead_early" if day <= early else "dead_mid" if day <= middle else "dead_late"


def short_by(whole: float, parts: Iterable[float]) -> float:
    """By how much parts do not add up to their whole: positive where something is missing.

    >>> round(short_by(100, [81.60, 10.16, 1.27, 5.43, 1.30, 0.23]), 2)
    0.01
    """
    return whole - sum(parts)


@dataclass(frozen=True, slots=True)
class LethalPairing:
    """A trait both parents carry, of which some share of the fertile eggs dies. share: None where the keeper only says
    never to pair them. why: the keeper's words.
    """

    trait: str
    share: Cell | None
    why: str


def lethal_pairings(
    sires: Sequence[str], dams: Sequence[str], never_pair: Sequence[Sequence[str]] = ()
) -> list[LethalPairing]:
    """What cocks and hens of a mating carry that kills eggs where it meets. sires, dams: all they carry, as written.

    never_pair: the keeper's own list of [trait, trait, why].

    >>> [one.trait for one in lethal_pairings(["Creeper"], ["creeper", "blue"])]
    ['creeper']
    """
    males, females = {_plain(text) for text in sires}, {_plain(text) for text in dams}
    found = [
        LethalPairing(trait, share, "")
        for trait, (names, share) in _LETHAL.items()
        if names & males and names & females
    ]
    for one, other, why in never_pair:
        a, b = _plain(one), _plain(other)
        if (a in males and b in females) or (b in males and a in females):
            found.append(LethalPairing(one if a == b else f"{one} and {other}", None, why))
    return found


def _plain(text: str) -> str:
    """Lower case, without marks: "Ear-Tuft" is "ear tuft"."""
    return " ".join(re.findall(r"[^\W_]+", text.casefold()))
