"""Weights of birds, compared within their hatch and sex only: evenness by day, a growth curve, and ranks.

A bird weighed by itself belongs to the lot its `bird` entry names with certainty, and to that entry's sex; weights of
a lot without a bird carry the sex written with them. Weights beyond sense, or dated before the
hatch, are Problems and left out of the sums.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from statistics import fmean
from typing import Any, cast

from broodline.book.birds import bird_id, birds_of, lot_of
from broodline.book.bodies_flock import Weighed
from broodline.book.flock_checks import check_flock, is_sensible
from broodline.book.hatch_ages import age_on, is_before_hatch, is_unhatched
from broodline.book.hatch_day import noon_ms
from broodline.book.problems import in_order
from broodline.book.standing import Standing
from broodline.trade.calendar import local_date
from broodline.trade.growth import Fit, even_from_cv, even_limits, evenness, fit_growth
from broodline.trade.sources import cell, origin, read_table

_TABLE = read_table("growth")
Group = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Weight:
    """One bird on the scales. lot, sex: its group; lot "" where nobody wrote it. bird: its identity, or None.

    age_days: None where nobody wrote when the lot hatched.
    """

    lot: str
    sex: str
    on: str
    age_days: int | None
    mass_g: float
    bird: str | None


def growth_report(standing: Standing, now: datetime) -> dict[str, Any]:
    """All weights of birds (contract of reports: growth). now: aware; later weights count, they only rank no bird.

    {on, groups, birds, goals, problems}. groups: one for each lot, sex and day.
    """
    weights = weights_of(standing)
    by_group: dict[Group, list[Weight]] = defaultdict(list)
    for weight in weights:
        by_group[weight.lot, weight.sex].append(weight)
    today = local_date(now, standing.keeper.zone)
    return {
        "on": today,
        "groups": [
            written for (lot, sex), own in sorted(by_group.items()) for written in _group_json(standing, lot, sex, own)
        ],
        "birds": _birds_json(standing, weights, today),
        "goals": [
            {"pct": goal.value, "words": goal.unit, "source": origin(goal)} for goal in map(cell, _TABLE["even_goals"])
        ],
        "problems": [one.as_json() for one in in_order(list(check_flock(standing)))],
    }


def weights_of(standing: Standing) -> list[Weight]:
    """Every sensible weight in the book that is not dated before the hatch, in order of entries; of a bird that was
    weighed more than once on a day the last one alone. Mirrored in pwa/src/book/weights.ts."""
    every = list(_sensible(standing))
    last = {(one.on, one.bird): number for number, one in enumerate(every)}
    return [one for number, one in enumerate(every) if one.bird is None or last[one.on, one.bird] == number]


def _sensible(standing: Standing) -> Iterator[Weight]:
    birds = birds_of(standing, None)
    for head in standing.heads.get("weighed", ()):
        body = cast(Weighed, head.body)
        for one in body.birds or ():
            name = None if one.bird is None else bird_id(standing, one.bird)
            known = birds.get(name or "")
            bird = None if known is None else known.body
            lot = body.lot or lot_of(bird) or ""
            sex = bird.sex if bird is not None and bird.sex != "unknown" else body.sex or "unknown"
            of = standing.lots.get(lot)
            age = age_on(standing, of, body.on)
            is_early = is_before_hatch(standing, of, noon_ms(body.on)) or is_unhatched(standing, bird, body.on)
            if is_sensible(one.mass_g, age) and not is_early:
                yield Weight(lot, sex, body.on, age, one.mass_g, name)


def _group_json(standing: Standing, lot: str, sex: str, own: list[Weight]) -> Iterator[dict[str, Any]]:
    """One for each day weighed; the curve, of all days, stands with each."""
    known = standing.lots.get(lot)
    family = None if known is None else standing.families.get(known.family or "")
    curve = fit_growth([(one.age_days, one.mass_g) for one in own if one.age_days is not None])
    for on in sorted({one.on for one in own}):
        there = [one for one in own if one.on == on]
        even = evenness([one.mass_g for one in there])
        yield {
            "lot": lot or None,
            "family": None if known is None else known.family,
            "family_name": family.name if family is not None else None,
            "sex": sex,
            "on": on,
            "age_days": there[0].age_days,
            "n": even.n,
            "mean_g": even.mean_g,
            "sd_g": even.sd_g,
            "cv_pct": even.cv_pct,
            "within_10_pct": even.within_pct,
            "within_10_expected_pct": even_from_cv(even.cv_pct) if even.cv_pct else None,
            "fit": _fit_json(curve) if isinstance(curve, Fit) else None,
            **({} if isinstance(curve, Fit) else {"refused": curve.words}),
        }


def _fit_json(fit: Fit) -> dict[str, Any]:
    return {
        "model": fit.model,
        "parameters": dict(fit.parameters),
        "inflection_day": fit.inflection_day,
        "inflection_g": fit.inflection_g,
        "fastest_g_a_day": fit.fastest_g_a_day,
    }


def _birds_json(standing: Standing, weights: list[Weight], today: str) -> list[dict[str, Any]]:
    """Birds known by themselves at their last weighing, ranked within that day's group, the heaviest first.

    slow: still here, and lighter than the band around its group's mean in which birds count as even.
    """
    birds = birds_of(standing, today)
    groups: dict[tuple[str, str, str], list[float]] = defaultdict(list)
    last: dict[str, Weight] = {}
    for weight in weights:
        groups[weight.lot, weight.sex, weight.on].append(weight.mass_g)
        if weight.bird in birds and (weight.bird not in last or weight.on >= last[weight.bird].on):
            last[weight.bird] = weight
    told = []
    for bird, weight in last.items():
        group = groups[weight.lot, weight.sex, weight.on]
        mean_g = fmean(group)
        told.append(
            {
                "bird": bird,
                "label": birds[bird].label,
                "where": birds[bird].where,
                "mass_g": weight.mass_g,
                "of_mean_pct": 100 * weight.mass_g / mean_g,
                "slow": birds[bird].where == "here" and weight.mass_g < even_limits(mean_g)[0],
                "rank": 1 + sum(mass_g > weight.mass_g for mass_g in group),
                "group": {"lot": weight.lot or None, "sex": weight.sex, "on": weight.on, "n": len(group)},
            }
        )
    return sorted(told, key=lambda one: (str(one["group"]), one["rank"], one["bird"]))
