"""Who the parents of a brood can be, said while its chicks are chosen: each that is kept brings these with it."""

from typing import Any

from broodline.book.birds import birds_of
from broodline.book.problems import Problem
from broodline.book.standing import Lot, Standing
from broodline.reports.parents_of import parents_of_lot
from broodline.reports.pens import pens_of


def parents_json(standing: Standing, lot: Lot) -> dict[str, Any]:
    """Candidate pairs with their chances (sum one), the likeliest first, and what is not known, in words.

    Pens that do not add up are told by the report of families, not here.
    """
    told_elsewhere: list[Problem] = []
    found = parents_of_lot(standing, lot, pens_of(standing), told_elsewhere)
    birds = birds_of(standing, None)

    def label(bird: str | None) -> str | None:
        return birds[bird].label if bird in birds else None

    pairs = sorted(found.pairs, key=lambda pair: (-pair.chance, pair.sire or "", pair.dam or ""))
    return {
        "pairs": [
            {
                "sire": pair.sire,
                "dam": pair.dam,
                "sire_label": label(pair.sire),
                "dam_label": label(pair.dam),
                "chance": pair.chance,
            }
            for pair in pairs
            if pair.sire or pair.dam
        ],
        "notes": list(found.notes),
    }
