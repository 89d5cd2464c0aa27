"""Which birds to put together next season (shape: matings): the table of cocks and hens, and pens within limits."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

import numpy as np

from broodline.book.standing import Standing
from broodline.reports.asked_pairs import AskedPairs, asked_pairs, names_of
from broodline.reports.breeders import breeders_of, other_breeds
from broodline.reports.choosing import Keeping, choosing_report
from broodline.reports.flock_pedigree import FlockBird, flock_of
from broodline.reports.hatch_history import hatch_histories
from broodline.reports.living import rate_of
from broodline.reports.mating_moves import followed_by, plan_by_moves
from broodline.reports.mating_pens import is_told, mean_of, not_known_of, notes_on, pen_json, pens_today
from broodline.reports.mating_table import birds_json, mating_table
from broodline.reports.pens import pens_of
from broodline.reports.rotation_of import circle_of, rotation_json, sources_in
from broodline.reports.season_year import season_planned
from broodline.trade.calendar import local_date
from broodline.trade.kin import kin_of
from broodline.trade.mating import Limits, Matrix, Plan, compared, mean_known, plan_pens
from broodline.trade.pen_sizes import roomy_pen

LIMIT = 0.125
MOST_OF_ANYTHING = 1000
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Wishes:
    """What a keeper asks of the plan. None: as many pens as families with a cock, hens shared out evenly.

    limit: F that a mating should stay under. moves: each family's hens go to cocks of the family whose turn it is; None
    is so if it can be and neither numbers of pens or hens nor `apart` were asked for. apart: hens of one family only go
    to a pen, to whichever cock is least kin. under_limit: matings whose
    expected F is at or over the limit are ruled out. kept: of the young birds only those worth keeping (the choice of
    `choosing`). must: birds to be used. together, never: pairs to share a pen, and never to meet; birds by id or by
    what they are known by. breed: of which breed; None is that with most birds.
    """

    pens: int | None = None
    hens: int | None = None
    cocks: int = 1
    limit: float = LIMIT
    moves: bool | None = None
    apart: bool = False
    under_limit: bool = False
    kept: bool = False
    must: frozenset[str] = frozenset()
    together: frozenset[tuple[str, str]] = frozenset()
    never: frozenset[tuple[str, str]] = frozenset()
    breed: str | None = None


def wished(asked: Mapping[str, str | None]) -> Wishes | None:
    """Wishes from the words of a request; None where one cannot be read.

    pens, hens, cocks: whole numbers from 1 to 1000. limit: percent over 0, at most 50. apart, under_limit, kept: "1" is
    yes; moves: "1" or "0". must: birds, or pairs as cock:hen, between commas. never: pairs alike. breed: its name.

    >>> wished({"pens": "2"}).pens, wished({"pens": "two"})
    (2, None)
    """
    numbers: list[int | None] = []
    for name in ("pens", "hens", "cocks"):
        text = asked.get(name) or None
        if text is not None and not (text.isascii() and text.isdigit() and 1 <= int(text[:9]) <= MOST_OF_ANYTHING):
            return None
        numbers.append(None if text is None else int(text))
    try:
        limit = float(asked["limit"] or "") / 100 if asked.get("limit") else LIMIT
    except ValueError:
        return None
    must, together = names_of(asked.get("must") or "")
    alone, never = names_of(asked.get("never") or "")
    if alone or not 0 < limit <= 0.5:
        return None
    return Wishes(
        pens=numbers[0],
        hens=numbers[1],
        cocks=numbers[2] or 1,
        limit=limit,
        moves={"1": True, "0": False}.get(asked.get("moves") or ""),
        apart=asked.get("apart") == "1",
        under_limit=asked.get("under_limit") == "1",
        kept=asked.get("kept") == "1",
        must=must,
        together=together,
        never=never,
        breed=asked.get("breed") or None,
    )


def matings_report(standing: Standing, wishes: Wishes, now: datetime) -> dict[str, Any]:
    """Pens proposed from the living, sexed birds kept here, with what each mating brings. now: aware.

    season: that in which they are to breed, and whose moves of males are told.
    """
    today = local_date(now, standing.keeper.zone)
    flock = flock_of(standing, today)
    here = [bird for bird in flock.birds.values() if bird.where == "here" and bird.sex != "unknown"]
    breeds = _breeds(here)
    breed = wishes.breed or (breeds[0] if breeds else None)
    left_out = other_breeds([bird.kind for bird in here], breed, "bird")
    here = sorted((bird for bird in here if bird.kind == breed), key=lambda bird: (bird.label, bird.id))
    chosen = choosing_report(standing, Keeping(breed=breed), now)["birds"] if here else []
    going = {bird["bird"] for bird in chosen if not bird["keep"]}
    if wishes.kept:
        here = [bird for bird in here if bird.id not in going]
    cocks, hens = ([bird for bird in here if bird.sex == sex] for sex in ("male", "female"))
    asked = asked_pairs(wishes.never, wishes.together, wishes.must, cocks, hens)
    pens = pens_of(standing)
    circle, year = circle_of(standing, here), season_planned(today, standing.keeper.season_starts or 1)
    breeding = breeders_of(pens, here, today).birds
    answer: dict[str, Any] = {
        "season": year,
        "breed": breed,
        "breeds": breeds,
        "limit": wishes.limit,
        "pens": [],
        "mean_F": None,
        "compared_with": {"random": None, "worst": None, "today": None, "mixed": None},
        "not_known": {"plan": None, "today": None, "matings": None},
        "today": [],
        "birds": [],
        "table": [],
        "rotation": rotation_json(standing, circle, [one for one in here if one.id in breeding], year, None),
        "notes": left_out,
        "problems": [problem.as_json() for problem in (*flock.problems, *asked.problems)],
    }
    if not cocks or not hens:
        missing = "cock" if not cocks else "hen"
        return {**answer, "infeasible": {"relax": [f"There is no {missing} here: borrow one, or keep one back."]}}
    kin = kin_of(flock.pedigree)
    means = dict(zip((bird.id for bird in here), kin.mean_kinships([bird.id for bird in here]), strict=True))
    rows = mating_table(standing, flock, kin, cocks, hens, wishes.limit, asked.never)
    by_pair = {(row["sire"], row["dam"]): row for row in rows}
    standing_now = pens_today(pens, today, by_pair, cocks, hens)
    answer |= {
        "table": rows,
        "birds": birds_json(here, means, hatch_histories(standing, round(now.timestamp() * 1000))),
        "today": standing_now,
        "notes": [*left_out, *notes_on([], standing_now, rows, None)],
    }
    choice = _Choice(
        np.array([row["F"] for row in rows]).reshape(len(cocks), len(hens)),
        (_merits(cocks, means, going), _merits(hens, means, going)),
        _limits(wishes, asked, cocks, hens, rows),
        cocks,
        hens,
    )
    plan, mixed, why_not = _plan(choice, wishes, sources_in(circle, year))
    if not plan.pens:
        return {**answer, "infeasible": {"relax": list(plan.relax)}}
    known = np.array([is_told(row) for row in rows]).reshape(choice.table.shape)
    against = compared(choice.table, replace(choice.limits, families=None), known)
    proposed = [
        pen_json(
            {cocks[at].id: 1 / len(pen.cocks) for at in pen.cocks},
            {hens[at].id: 1 / len(pen.hens) for at in pen.hens},
            by_pair,
            flock.birds,
        )
        for pen in plan.pens
    ]
    used = {bird for pen in proposed for bird in (*pen["sires"], *pen["dams"])}
    followed = followed_by(standing, flock, proposed, sources_in(circle, year), why_not, today)
    return {
        **answer,
        "pens": proposed,
        "mean_F": mean_of(proposed),
        "proved": plan.proved,
        "compared_with": {
            "random": against.random,
            "worst": against.worst,
            "today": mean_of(standing_now),
            "mixed": mixed and mean_known(choice.table, known, mixed.pens),
        },
        "not_known": {
            "plan": not_known_of(proposed),
            "today": not_known_of(standing_now),
            "matings": {"n": int((~known).sum()), "of": known.size},
        },
        "rotation": rotation_json(standing, circle, [one for one in here if one.id in used], year, followed),
        "notes": [*left_out, *notes_on(proposed, standing_now, rows, _species(standing, hens))],
        "delta_f_pct": _pct(plan),
    }


@dataclass(frozen=True, slots=True)
class _Choice:
    """What is chosen from. table: F of each cock (down) with each hen. means: of the ones and the others, mean kinship,
    with more for young birds not worth keeping: of equal plans the least. limits: the keeper's, as they hold where
    nobody asks for the moves of males.
    """

    table: Matrix
    means: tuple[Matrix, Matrix]
    limits: Limits
    cocks: Sequence[FlockBird]
    hens: Sequence[FlockBird]


def _plan(choice: _Choice, wishes: Wishes, sources: Mapping[str, str]) -> tuple[Plan, Plan | None, str | None]:
    """The plan; beside one that follows the moves, that of all families mixed; and why a plan does not follow them."""
    free = plan_pens(choice.table, choice.limits, choice.means)
    by_itself = not (wishes.pens or wishes.hens or wishes.apart)
    if not sources or wishes.moves is False or (wishes.moves is None and not by_itself):
        return free, None, None
    sexes, asked = (choice.cocks, choice.hens), (wishes.pens, wishes.hens)
    plan = plan_by_moves(choice.table, choice.limits, sexes, sources, choice.means, asked=asked)
    if plan.pens:
        return plan, free if free.pens else None, None
    if wishes.moves:
        return replace(plan, relax=(*plan.relax, "Do not ask for pens that follow the moves of males.")), None, None
    return free, None, plan.relax[0]


def _merits(birds: Sequence[FlockBird], means: Mapping[str, float], going: set[str]) -> Matrix:
    """Mean kinship, and one more (beyond any) for young birds that are not worth keeping."""
    return np.array([means[one.id] + (one.id in going) for one in birds])


def _species(standing: Standing, birds: Sequence[FlockBird]) -> str | None:
    """That of their family; None where none has one."""
    families = (standing.families.get(one.family or "") for one in birds)
    return next((family.species for family in families if family is not None), None)


def _breeds(birds: Sequence[FlockBird]) -> list[str]:
    """That with most birds first."""
    kinds = [bird.kind for bird in birds]
    return sorted(set(kinds), key=lambda kind: (-kinds.count(kind), kind))


def _limits(
    wishes: Wishes,
    asked: AskedPairs,
    cocks: Sequence[FlockBird],
    hens: Sequence[FlockBird],
    rows: Sequence[Mapping[str, Any]],
) -> Limits:
    families = {bird.family for bird in cocks if bird.family is not None}
    kept = list(dict.fromkeys(hen.family for hen in hens))
    apart = [sum(hen.family == family for hen in hens) for family in kept] if wishes.apart else []
    pens = wishes.pens or max(1, min(len(families) or 1, len(hens), len(cocks) // wishes.cocks))
    return Limits(
        pens=pens,
        hens=wishes.hens or (roomy_pen(pens=pens, families=apart) if apart else -(-len(hens) // pens)),
        cocks=wishes.cocks,
        forbidden=frozenset(
            divmod(at, len(hens))
            for at, row in enumerate(rows)
            if row["ruled_out"] or (wishes.under_limit and row["F"] >= wishes.limit - _SAME)
        ),
        together=frozenset(
            divmod(at, len(hens)) for at, row in enumerate(rows) if (row["sire"], row["dam"]) in asked.together
        ),
        must_cocks=frozenset(at for at, cock in enumerate(cocks) if cock.id in asked.must),
        must_hens=frozenset(at for at, hen in enumerate(hens) if hen.id in asked.must),
        families=tuple(kept.index(hen.family) for hen in hens) if apart else None,
    )


def _pct(plan: Plan) -> float | None:
    rate = rate_of(sum(len(pen.cocks) for pen in plan.pens), sum(len(pen.hens) for pen in plan.pens))
    return None if rate is None else 100 * rate
