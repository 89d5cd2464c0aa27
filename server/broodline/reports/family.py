"""All birds of the book with their inbreeding and how kin they are to the living (shape: family)."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.reports.breeders import breeding_words
from broodline.reports.flock_pedigree import Flock, FlockBird, flock_of
from broodline.reports.living import LEAST_SIZE, MOST_RATE, SEED, Living, living_of
from broodline.reports.pens import pens_of
from broodline.trade.calendar import local_date
from broodline.trade.inbreeding_spread import Spread, bird_spreads
from broodline.trade.kin import Kin, kin_of

LIMIT = 0.125


def family_report(standing: Standing, now: datetime) -> dict[str, Any]:
    """F of each bird with its range, its pedigree's depth and mean kinship; Ne, delta F and founders of the breed.

    F is None where nothing is known of a bird's forebears: that is "unknown", not "not inbred". With several breeds the
    figures of the flock are those of the breed with most living birds; Ne counts those that breed. now: aware; birds
    that left by then are gone.
    """
    today = local_date(now, standing.keeper.zone)
    flock = flock_of(standing, today)
    kin = kin_of(flock.pedigree)
    living = living_of(flock, kin, pens_of(standing), today)
    means = {bird: mean for one in living for bird, mean in one.by_bird.items()}
    birds = sorted(flock.birds.values(), key=lambda bird: (bird.label, bird.id))
    names = [bird.id for bird in birds]
    ranges = dict(zip(birds, bird_spreads(flock.pedigree, names, LIMIT, kin, seed=SEED), strict=True))
    first = living[0] if living else None
    return {
        "birds": [_bird_json(bird, flock, kin, ranges[bird], means.get(bird.id)) for bird in birds],
        "kind": first and first.kind,
        "ne": first.size if first and first.size else None,
        "delta_f_pct": None if first is None or first.rate is None else 100 * first.rate,
        "founders": {
            "fe": first.founders.fe if first and first.founders else None,
            "fg": first.founders.fg if first and first.founders else None,
        },
        "warnings": list(_warnings(flock, living)),
        "problems": [problem.as_json() for problem in flock.problems],
    }


def _bird_json(bird: FlockBird, flock: Flock, kin: Kin, spread: Spread, mean: float | None) -> dict[str, Any]:
    completeness = flock.pedigree.completeness[bird.id]
    known = flock.tells_of(bird.id)
    return {
        "bird": bird.id,
        "label": bird.label,
        "sex": bird.sex,
        "family": bird.family,
        "where": bird.where,
        "F": kin.inbreeding(bird.id) if known else None,
        "F_low": spread.low if known else None,
        "F_high": spread.high if known else None,
        "over_limit": spread.over if known else None,
        "completeness": completeness,
        "mean_kinship": mean,
        "parents": [
            {"sire": pair.sire, "dam": pair.dam, "chance": pair.chance} for pair in bird.parents.pairs if any(pair[:2])
        ],
        "notes": list(bird.parents.notes),
    }


def _warnings(flock: Flock, living: Sequence[Living]) -> Iterator[str]:
    unknown = [bird for bird in flock.birds.values() if not flock.tells_of(bird.id)]
    if unknown:
        yield (
            f"Nothing is written of the parents of {len(unknown)} of {len(flock.birds)} birds: "
            "each counts as unrelated to all others, and its own inbreeding is unknown."
        )
    if len(living) > 1:
        others = ", ".join(one.kind for one in living[1:])
        yield f"The figures for the flock are those of {living[0].kind}; {others} stand apart."
    for one in living[:1]:
        if one.rate is None:
            yield f"{one.kind}: without a cock and a hen there is no next generation to reckon."
        elif one.size < LEAST_SIZE:
            yield (
                f"{one.kind}: {breeding_words(one.breeders, one.size)} Inbreeding rises by {100 * one.rate:.1f} % a "
                f"generation. FAO advises to stay below {100 * MOST_RATE:.0f} %; a small holding reaches that only "
                "together with others."
            )
