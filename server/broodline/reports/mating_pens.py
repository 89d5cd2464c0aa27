"""Pens with their figures from the table of matings: those proposed, and those that stand today to compare with."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from broodline.reports.flock_pedigree import FlockBird
from broodline.reports.pens import Pens
from broodline.trade.pen_sizes import usual_hens
from broodline.trade.sources import Cell, origin

Row = Mapping[str, Any]
Table = Mapping[tuple[str, str], Row]
_LEAST_TOLD = 0.005


def is_told(row: Row) -> bool:
    """Whether anything is known of a mating: forebears of both birds, or that they are kin. row: of `mating_table`."""
    return bool(row["known"] or row["high"] > 0)


def pen_json(
    sires: Mapping[str, float], dams: Mapping[str, float], table: Table, birds: Mapping[str, FlockBird]
) -> dict[str, Any]:
    """{family, sires, dams, shares, labels, mean_F, worst_F, p_over, p_over_error, known, not_known, cautions}.

    sires, dams: bird -> share, each at least one. family: that of all its hens, None where they are of several.

    mean_F, p_over: over the chicks of its matings of which something is known, each cock and hen by its share; None
    where nothing is known of any. not_known: hens of whose matings nothing is known. worst_F: the greatest of any.
    p_over_error: how far p_over may be off at most, since it was counted in draws; None where it is exact.
    """
    rows = [(table[sire, dam], p * q) for sire, p in sires.items() for dam, q in dams.items()]
    told = [(row, weight) for row, weight in rows if is_told(row)]
    whole = sum(weight for _, weight in told)
    error = sum((row.get("p_over_error") or 0.0) * weight for row, weight in told) / whole if told else 0.0
    families = {birds[dam].family for dam in dams}
    return {
        "family": families.pop() if len(families) == 1 else None,
        "sires": list(sires),
        "dams": list(dams),
        "shares": {**sires, **dams},
        "labels": {bird: birds[bird].label for bird in (*sires, *dams)},
        "mean_F": sum(row["F"] * weight for row, weight in told) / whole if told else None,
        "worst_F": max(row["high"] for row, _ in rows),
        "p_over": sum(row["p_over"] * weight for row, weight in told) / whole if told else None,
        "p_over_error": error or None,
        "known": all(row["known"] for row, _ in rows),
        "not_known": sum(not any(is_told(table[sire, dam]) for sire in sires) for dam in dams),
        "cautions": list(dict.fromkeys(words for row, _ in rows for words in (*row["why"], *row["cautions"]))),
    }


def pens_today(
    pens: Pens, today: str, table: Table, cocks: Sequence[FlockBird], hens: Sequence[FlockBird]
) -> list[dict[str, Any]]:
    """The pens of the table's birds as they stand today, each with its family and place.

    shares_said: the shares of its cocks and hens were written down, wherever it has several; else they count alike.
    """
    birds = {bird.id: bird for bird in (*cocks, *hens)}
    males, females = ({bird.id for bird in side} for side in (cocks, hens))
    found = []
    for stay in pens.stays:
        sires = {bird: share for bird, share in stay.sires.items() if bird in males and share > 0}
        dams = {bird: share for bird, share in stay.dams.items() if bird in females and share > 0}
        if stay.stands_on(today) and sires and dams:
            said = (stay.said or len(sires) == 1) and (stay.dams_said or len(dams) == 1)
            told = {"family": stay.family, "place": stay.place, "shares_said": said}
            found.append({**pen_json(sires, dams, table, birds), **told})
    return found


def mean_of(pens: Sequence[Mapping[str, Any]]) -> float | None:
    """Mean F over pens, each hen of whose matings something is known counting alike; None where there is none."""
    told = [(pen["mean_F"], len(pen["dams"]) - pen["not_known"]) for pen in pens if pen["mean_F"] is not None]
    hens = sum(n for _, n in told)
    return sum(mean * n for mean, n in told) / hens if hens else None


def not_known_of(pens: Sequence[Mapping[str, Any]]) -> dict[str, int] | None:
    """{n, of}: of how many hens nothing is known, of all in the pens; None for no pen."""
    return {"n": sum(pen["not_known"] for pen in pens), "of": sum(len(pen["dams"]) for pen in pens)} if pens else None


def mean_words(mean: float | None, not_known: Mapping[str, int] | None, what: str = "hens") -> str:
    """A mean with how many it leaves out. not_known: as `not_known_of` tells it.

    >>> mean_words(0.0625, {"n": 13, "of": 34}), mean_words(None, {"n": 4, "of": 4})
    ('6.2 % (13 of 34 hens: not known)', 'not known')
    """
    if mean is None:
        return "not known"
    left_out = f" ({not_known['n']} of {not_known['of']} {what}: not known)" if not_known and not_known["n"] else ""
    return f"{100 * mean:.1f} %{left_out}"


def notes_on(pens: Sequence[Row], today: Sequence[Row], table: Sequence[Row], species: str | None) -> Iterator[str]:
    """What the figures of the pens take for granted, and pens with more hens than a cock usually has, in words."""
    yield from _crowded(pens, usual_hens(species or ""))
    if pens:
        yield "In each pen of the plan every cock and every hen is taken to count alike."
    if not all(pen["shares_said"] for pen in today):
        yield "In today's pens no shares are written down for some: there, too, all are taken to count alike."
    draws = min((row["draws"] for row in table if row["draws"] is not None), default=None)
    if draws is not None:
        yield (
            f"Where the forebears may have come in too many ways to go through, the chance of the limit is counted in "
            f"{draws:,} draws of them."
        )


def _crowded(pens: Sequence[Row], usual: Mapping[str, Cell]) -> Iterator[str]:
    if not usual:
        return
    most = min(told.value[1] for told in usual.values())
    ratios = [(number, len(pen["dams"]) / len(pen["sires"])) for number, pen in enumerate(pens, 1)]
    many = [f"pen {number} has {hens:.0f}" for number, hens in ratios if hens > most]
    if many:
        told = ", ".join(f"{told.value[0]} to {told.value[1]} with {weight} breeds" for weight, told in usual.items())
        source = origin(next(iter(usual.values())))
        yield f"Hens for each cock: {', '.join(many)}. Usual are {told} ({source}): give fewer, or a second cock."


def pen_words(pen: Mapping[str, Any], limit: float) -> str:
    """What a pen's chicks are to be expected to be. pen: as `pen_json` tells it."""
    if pen["worst_F"] == 0 and not pen["known"]:
        return "no inbreeding that is known of; not all their forebears are written down"
    text = f"chicks' inbreeding {100 * pen['mean_F']:.1f} %, at most {100 * pen['worst_F']:.1f} %"
    if pen["p_over"] > 0:
        chance = f"{100 * pen['p_over']:.0f} %" if pen["p_over"] >= _LEAST_TOLD else "under 1 %"
        text += f"; {chance} chance of {100 * limit:.1f} % or more"
        if pen["p_over_error"]:
            text += f" (in draws, give or take {max(0.1, 100 * pen['p_over_error']):.1f})"
    return text if pen["known"] else text + " (not all their forebears are known)"
