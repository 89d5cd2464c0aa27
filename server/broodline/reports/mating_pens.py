"""Pens with their figures from the table of matings: those proposed, and those that stand today to compare with."""

from collections.abc import Mapping, Sequence
from typing import Any

from broodline.reports.flock_pedigree import FlockBird
from broodline.reports.pens import Pens

Row = Mapping[str, Any]
Table = Mapping[tuple[str, str], Row]
_LEAST_TOLD = 0.005


def pen_json(
    sires: Mapping[str, float], dams: Mapping[str, float], table: Table, birds: Mapping[str, FlockBird]
) -> dict[str, Any]:
    """{sires, dams, labels, mean_F, worst_F, p_over, known, cautions}. sires, dams: bird -> share, each at least one.

    mean_F, p_over: over all chicks of the pen, each cock and hen by its share. worst_F: the greatest of any mating.
    """
    rows = [(table[sire, dam], p * q) for sire, p in sires.items() for dam, q in dams.items()]
    whole = sum(weight for _, weight in rows)
    return {
        "sires": list(sires),
        "dams": list(dams),
        "labels": {bird: birds[bird].label for bird in (*sires, *dams)},
        "mean_F": sum(row["F"] * weight for row, weight in rows) / whole,
        "worst_F": max(row["high"] for row, _ in rows),
        "p_over": sum(row["p_over"] * weight for row, weight in rows) / whole,
        "known": all(row["known"] for row, _ in rows),
        "cautions": list(dict.fromkeys(words for row, _ in rows for words in (*row["why"], *row["cautions"]))),
    }


def pens_today(
    pens: Pens, today: str, table: Table, cocks: Sequence[FlockBird], hens: Sequence[FlockBird]
) -> list[dict[str, Any]]:
    """The pens of the table's birds as they stand today, each with its family and place."""
    birds = {bird.id: bird for bird in (*cocks, *hens)}
    males, females = ({bird.id for bird in side} for side in (cocks, hens))
    found = []
    for stay in pens.stays:
        sires = {bird: share for bird, share in stay.sires.items() if bird in males and share > 0}
        dams = {bird: share for bird, share in stay.dams.items() if bird in females and share > 0}
        if stay.stands_on(today) and sires and dams:
            found.append({"family": stay.family, "place": stay.place, **pen_json(sires, dams, table, birds)})
    return found


def mean_of(pens: Sequence[Mapping[str, Any]]) -> float | None:
    """Mean F over pens, each hen counting alike; None for no pen."""
    hens = sum(len(pen["dams"]) for pen in pens)
    return sum(pen["mean_F"] * len(pen["dams"]) for pen in pens) / hens if hens else None


def pen_words(pen: Mapping[str, Any], limit: float) -> str:
    """What a pen's chicks are to be expected to be. pen: as `pen_json` tells it."""
    if pen["worst_F"] == 0 and not pen["known"]:
        return "no inbreeding that is known of; not all their forebears are written down"
    text = f"chicks' inbreeding {100 * pen['mean_F']:.1f} %, at most {100 * pen['worst_F']:.1f} %"
    if pen["p_over"] > 0:
        chance = f"{100 * pen['p_over']:.0f} %" if pen["p_over"] >= _LEAST_TOLD else "under 1 %"
        text += f"; {chance} chance of {100 * limit:.1f} % or more"
    return text if pen["known"] else text + " (not all their forebears are known)"
