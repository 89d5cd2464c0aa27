"""Rolling matings, bird by bird: a pedigree of single draws, whose F is worked out by the program's checked walk."""

from random import Random

from broodline.trade.sure_inbreeding import sure_inbreeding


def rolled(seed: int, hens: int, years: int) -> list[float]:
    """Mean F of each year's pullets, with one cock and one cockerel; hens: as many old as young, an even number."""
    chance = Random(seed)
    parents: list[tuple[int, int]] = []

    def born(sire: int, dam: int) -> int:
        parents.append((sire, dam))
        return len(parents) - 1

    cock, cockerel = born(-1, -1), born(-1, -1)
    old, young = ([born(-1, -1) for _ in range(hens)] for _ in range(2))
    told = []
    for _ in range(years):
        son = born(cockerel, chance.choice(old))
        pullets = [born(cock, chance.choice(young)) for _ in range(hens // 2)]
        pullets += [born(cockerel, chance.choice(old)) for _ in range(hens // 2)]
        cock, cockerel, old, young = cockerel, son, young, pullets
        told.append(pullets)
    inbreeding = sure_inbreeding(parents)
    return [sum(inbreeding[bird] for bird in pullets) / hens for pullets in told]
