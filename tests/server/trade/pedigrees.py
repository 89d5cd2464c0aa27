"""Published pedigrees as facts, and small ones drawn at random. Sire first, dam second, 0 unknown."""

from collections.abc import Mapping
from random import Random

from broodline.trade.pedigree import Pedigree, Recorded, independent, pedigree_of
from tests.server.oracles.kin_by_hand import Candidates

Written = Mapping[str, tuple[str, str]]

# Mrode, Linear Models for the Prediction of Animal Breeding Values, ch. 2.
MRODE: Written = {"3": ("1", "2"), "4": ("1", "0"), "5": ("4", "3"), "6": ("5", "2")}
# K. Christensen, University of Copenhagen, Population genetics, 4.5.
COPENHAGEN: Written = {
    "2": ("1", "0"), "3": ("1", "0"), "4": ("1", "0"), "5": ("3", "2"), "6": ("3", "4"), "7": ("5", "6"),
}  # fmt: skip
# A practice sheet for the table of covariances (coursehero.com/file/6329928), read off its table.
COVARIANCES: Written = {
    "R": ("Z", "T"), "A": ("R", "T"), "B": ("R", "T"), "D": ("A", "B"), "S": ("R", "D"), "X": ("S", "D"),
    "ZX": ("Z", "X"), "ZD": ("Z", "D"), "XS": ("X", "S"),
}  # fmt: skip
# Wray 1990 and Fernando & Grossman 1990, as kept in the R package nadiv.
WRAY: Written = {
    "3": ("2", "1"), "4": ("2", "1"), "5": ("3", "4"), "6": ("2", "4"), "7": ("5", "6"), "8": ("5", "7"),
}  # fmt: skip
FERNANDO: Written = {
    "3": ("1", "0"), "4": ("1", "2"), "5": ("3", "4"), "6": ("1", "4"), "7": ("5", "6"), "8": ("5", "6"),
}  # fmt: skip
# Roan Gauntlet, Wright 1922, Am. Nat. 56:330 (from memory).
ROAN_GAUNTLET: Written = {
    "RDG": ("GDG", "Mim"), "GDG": ("CoE", "0"), "Mim": ("CoE", "Mis"), "Mis": ("LR", "0"),
    "PR": ("CoE", "Car"), "Car": ("LR", "0"), "RG": ("RDG", "PR"),
}  # fmt: skip


def sure(written: Written) -> Pedigree:
    """A pedigree with sure parents."""
    return uncertain(
        {
            bird: ({sire: 1.0} if sire != "0" else {}, {dam: 1.0} if dam != "0" else {}, None)
            for bird, (sire, dam) in written.items()
        }
    )


def uncertain(candidates: Candidates) -> Pedigree:
    """A pedigree with candidate parents that are independent of each other."""
    return pedigree_of(
        Recorded(bird, pairs=independent(sires, dams), clutch=clutch)
        for bird, (sires, dams, clutch) in candidates.items()
    )


def drawn(chance: Random, birds: int, uncertain_birds: int) -> Candidates:
    """A pedigree of birds "0", "1", ... with up to so many birds of several candidates; now and then a clutch."""
    found: dict[str, tuple[dict[str, float], dict[str, float], str | None]] = {}
    doubtful = set(chance.sample(range(3, birds), uncertain_birds)) if birds > 3 else set()
    for bird in range(birds):
        older = [str(name) for name in range(bird)]
        if bird < 3:
            found[str(bird)] = ({}, {}, None)
        elif bird - 1 in doubtful and bird in doubtful and chance.random() < 0.7:
            sires, dams, clutch = found[str(bird - 1)]
            clutch = clutch or f"clutch {bird}"
            found[str(bird - 1)] = (sires, dams, clutch)
            found[str(bird)] = (sires, dams, clutch)
        else:
            sides = [_shares(chance, older, bird in doubtful) for _ in range(2)]
            found[str(bird)] = (sides[0], sides[1], None)
    return found


def _shares(chance: Random, older: list[str], doubtful: bool) -> dict[str, float]:
    if not doubtful:
        return {chance.choice(older): 1.0} if chance.random() < 0.85 else {}
    names = chance.sample(older, 2)
    return {names[0]: 0.5, names[1]: chance.choice([0.25, 0.5])}
