"""Which birds to put together next season (shape: matings): the table of cocks and hens, and pens within limits."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import numpy as np

from broodline.book.standing import Standing
from broodline.reports.flock_pedigree import Flock, FlockBird, flock_of
from broodline.reports.living import SEED, rate_of
from broodline.reports.rotation_of import rotation_json
from broodline.trade.calendar import local_date
from broodline.trade.inbreeding_spread import spreads
from broodline.trade.kinship import Relationships, relationships
from broodline.trade.mating import Limits, Pen, Plan, compared, mean_f, plan_pens
from broodline.trade.pedigree import Pedigree

LIMIT = 0.125
MOST_OF_ANYTHING = 1000


@dataclass(frozen=True, slots=True)
class Wishes:
    """What a keeper asks of the plan. None: as many pens as families with a cock, hens shared out evenly.

    limit: F that a mating should stay under. apart: hens of one family only go to a pen.
    must: birds to be used. breed: of which breed; None is that with most birds.
    """

    pens: int | None = None
    hens: int | None = None
    cocks: int = 1
    limit: float = LIMIT
    apart: bool = False
    must: frozenset[str] = frozenset()
    breed: str | None = None


def wished(pens: str | None, hens: str | None, cocks: str | None) -> Wishes | None:
    """Wishes from the words of a request; None where one is no whole number from 1 to 1000.

    >>> wished("2", None, None).pens, wished("two", None, None)
    (2, None)
    """
    found: list[int | None] = []
    for text in (pens, hens, cocks):
        if text is not None and not (text.isascii() and text.isdigit() and 1 <= int(text[:9]) <= MOST_OF_ANYTHING):
            return None
        found.append(None if text is None else int(text))
    return Wishes(pens=found[0], hens=found[1], cocks=found[2] or 1)


def matings_report(standing: Standing, wishes: Wishes, now: datetime) -> dict[str, Any]:
    """Pens proposed from the living, sexed birds kept here, with what each mating brings. now: aware."""
    flock = flock_of(standing, local_date(now, standing.keeper.zone))
    here = [bird for bird in flock.birds.values() if bird.where == "here" and bird.sex != "unknown"]
    breed = wishes.breed or _largest(here)
    here = sorted((bird for bird in here if bird.kind == breed), key=lambda bird: (bird.label, bird.id))
    cocks, hens = ([bird for bird in here if bird.sex == sex] for sex in ("male", "female"))
    answer: dict[str, Any] = {
        "breed": breed,
        "limit": wishes.limit,
        "pens": [],
        "mean_F": None,
        "compared_with": {"random": None, "worst": None},
        "table": [],
        "rotation": rotation_json(standing, here, now.year + 1),
        "problems": [problem.as_json() for problem in flock.problems],
    }
    if not cocks or not hens:
        missing = "cock" if not cocks else "hen"
        return {**answer, "infeasible": {"relax": [f"There is no {missing} here: borrow one, or keep one back."]}}
    kin = relationships(flock.pedigree)
    table = kin.kinships([bird.id for bird in cocks], [bird.id for bird in hens])
    limits = _limits(standing, wishes, cocks, hens)
    means = kin.mean_kinships([bird.id for bird in here])
    by_bird = dict(zip((bird.id for bird in here), means, strict=True))
    plan = plan_pens(
        table, limits, (np.array([by_bird[one.id] for one in cocks]), np.array([by_bird[one.id] for one in hens]))
    )
    answer["table"] = _table_json(flock.pedigree, cocks, hens, kin, limits, wishes)
    if not plan.pens:
        return {**answer, "infeasible": {"relax": list(plan.relax)}}
    against = compared(table, plan, limits)
    n = sum(len(pen.hens) for pen in plan.pens)
    return {
        **answer,
        "pens": [_pen_json(pen, cocks, hens, table, flock, wishes.limit) for pen in plan.pens],
        "mean_F": plan.total / n,
        "proved": plan.proved,
        "compared_with": {"random": against.random, "worst": against.worst},
        "delta_f_pct": _pct(plan),
    }


def _largest(birds: Sequence[FlockBird]) -> str | None:
    kinds = [bird.kind for bird in birds]
    return min(set(kinds), key=lambda kind: (-kinds.count(kind), kind)) if kinds else None


def _limits(standing: Standing, wishes: Wishes, cocks: Sequence[FlockBird], hens: Sequence[FlockBird]) -> Limits:
    families = {bird.family for bird in cocks if bird.family is not None}
    kept = list(dict.fromkeys(hen.family for hen in hens))
    pens = wishes.pens or max(1, min(len(families) or 1, len(hens), len(cocks) // wishes.cocks))
    return Limits(
        pens=pens,
        hens=wishes.hens or -(-len(hens) // pens),
        cocks=wishes.cocks,
        forbidden=frozenset(
            (at, across)
            for at, cock in enumerate(cocks)
            for across, hen in enumerate(hens)
            if _never(standing, cock, hen)
        ),
        must_cocks=frozenset(at for at, cock in enumerate(cocks) if cock.id in wishes.must),
        must_hens=frozenset(at for at, hen in enumerate(hens) if hen.id in wishes.must),
        families=tuple(kept.index(hen.family) for hen in hens) if wishes.apart else None,
    )


def _never(standing: Standing, cock: FlockBird, hen: FlockBird) -> bool:
    """Whether the keeper said never to pair what the two carry."""
    for one, other, _ in standing.keeper.never_pair or ():
        if (_carries(cock, one) and _carries(hen, other)) or (_carries(cock, other) and _carries(hen, one)):
            return True
    return False


def _carries(bird: FlockBird, what: str) -> bool:
    return what.casefold().strip() in {text.casefold().strip() for text in bird.carries}


def _table_json(
    pedigree: Pedigree,
    cocks: Sequence[FlockBird],
    hens: Sequence[FlockBird],
    kin: Relationships,
    limits: Limits,
    wishes: Wishes,
) -> list[dict[str, Any]]:
    matings = [(cock.id, hen.id) for cock in cocks for hen in hens]
    found = spreads(pedigree, matings, wishes.limit, seed=SEED, draws=300)
    return [
        {
            "sire": sire,
            "dam": dam,
            "F": kin.kinship(sire, dam),
            "low": spread.low,
            "high": spread.high,
            "p_over": spread.over,
            "known": min(pedigree.completeness[sire], pedigree.completeness[dam]) > 0,
            "ruled_out": divmod(at, len(hens)) in limits.forbidden,
        }
        for at, ((sire, dam), spread) in enumerate(zip(matings, found, strict=True))
    ]


def _pen_json(
    pen: Pen, cocks: Sequence[FlockBird], hens: Sequence[FlockBird], table: Any, flock: Flock, limit: float
) -> dict[str, Any]:
    sires, dams = [cocks[at].id for at in pen.cocks], [hens[at].id for at in pen.hens]
    found = spreads(flock.pedigree, [(sire, dam) for sire in sires for dam in dams], limit, seed=SEED)
    return {
        "sires": sires,
        "dams": dams,
        "labels": {bird: flock.birds[bird].label for bird in (*sires, *dams)},
        "mean_F": mean_f(table, pen),
        "worst_F": max(spread.high for spread in found),
        "p_over": sum(spread.over for spread in found) / len(found),
        "known": all(flock.pedigree.completeness[bird] > 0 for bird in (*sires, *dams)),
    }


def _pct(plan: Plan) -> float | None:
    rate = rate_of(sum(len(pen.cocks) for pen in plan.pens), sum(len(pen.hens) for pen in plan.pens))
    return None if rate is None else 100 * rate
