"""Pens that follow the year's moves of males: each holds the hens of one family and cocks of that whose turn it is.

Where that family has no cock here, cocks of any other family may take his place; what then differs is said.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from broodline.book.standing import Standing
from broodline.reports.flock_pedigree import Flock, FlockBird
from broodline.reports.rotation_of import Followed
from broodline.trade.mating import Limits, Matrix, Pen, Plan, plan_pens
from broodline.trade.pen_sizes import roomy_pen

Kinships = tuple[Matrix, Matrix]


def plan_by_moves(
    table: Matrix,
    limits: Limits,
    birds: tuple[Sequence[FlockBird], Sequence[FlockBird]],
    sources: Mapping[str, str],
    mean_kinship: Kinships,
    *,
    asked: tuple[int | None, int | None],
) -> Plan:
    """The least inbred of the plans that follow the moves. birds: cocks (down) and hens (across) of the table.

    sources: family -> the family whose cocks serve it. Hens of none of these families are left out. asked: how many
    pens, and hens in each, where the keeper said so; else one pen a family, and room for all its hens.
    """
    cocks, hens = birds
    of_hens = [(at, hen.family) for at, hen in enumerate(hens) if hen.family is not None and hen.family in sources]
    sizes = Counter(family for _, family in of_hens)
    if not sizes:
        return Plan((), 0.0, relax=("No hen here is written to a family.",))
    number = {family: n for n, family in enumerate(sizes)}
    pens = asked[0] or len(sizes)
    across = [at for at, _ in of_hens]
    back = {at: n for n, at in enumerate(across)}
    named = limits.must_hens | {hen for _, hen in limits.together}
    if stray := [hens[at].label for at in sorted(named) if at not in back]:
        is_are = "is" if len(stray) == 1 else "are"
        return Plan(
            (), 0.0, relax=(f"{' and '.join(stray)} {is_are} of no family that takes part in the moves of males.",)
        )
    serving = {family: _serving(cocks, sources[family], family) for family in sizes}
    forbidden = {(cock, back[hen]) for cock, hen in limits.forbidden if hen in back}
    forbidden |= {
        (cock, n) for n, (_, family) in enumerate(of_hens) for cock in range(len(cocks)) if cock not in serving[family]
    }
    together = {(cock, back[hen]) for cock, hen in limits.together if hen in back}
    narrowed = replace(
        limits,
        pens=pens,
        hens=asked[1] or roomy_pen(pens=pens, families=list(sizes.values())),
        forbidden=frozenset(forbidden),
        together=frozenset(together),
        must_hens=frozenset(back[hen] for hen in limits.must_hens if hen in back),
        families=tuple(number[family] for _, family in of_hens),
    )
    plan = plan_pens(table[:, across], narrowed, (mean_kinship[0], mean_kinship[1][across]))
    return replace(plan, pens=tuple(Pen(pen.cocks, tuple(across[hen] for hen in pen.hens)) for pen in plan.pens))


def followed_by(
    standing: Standing,
    flock: Flock,
    pens: Sequence[Mapping[str, Any]],
    sources: Mapping[str, str],
    why_not: str | None,
    today: str,
) -> Followed | None:
    """Whether pens follow the moves, which bird moves, and where one of another family takes an absent one's place.

    pens: as `pen_json` tells them. why_not: why no plan follows them. today: date. None where there are no moves.
    """
    if not sources:
        return None
    moving: dict[str, list[FlockBird]] = {}
    with_cocks = {bird.family for bird in flock.birds.values() if bird.sex == "male" and bird.where == "here"}
    for pen in pens:
        homes, givers = ({flock.birds[bird].family for bird in pen[side]} for side in ("dams", "sires"))
        home, giver = next(iter(homes)), next(iter(givers))
        if len(homes) > 1 or home is None or home not in sources:
            return Followed(False, {}, why_not, mixed=any(_mixed(flock, pen) for pen in pens))
        stands_in = sources[home] in with_cocks or len(givers) > 1 or giver is None or giver not in standing.families
        if givers != {sources[home]} and stands_in:
            return Followed(False, {}, why_not, mixed=any(_mixed(flock, pen) for pen in pens))
        moving.setdefault(home, []).extend(flock.birds[cock] for cock in pen["sires"])
    return Followed(True, {home: _move(standing, home, sources[home], birds, today) for home, birds in moving.items()})


def _move(standing: Standing, home: str, source: str, birds: Sequence[FlockBird], today: str) -> str:
    """Which birds go to the hens of a family, in words."""
    there = standing.families[home].name
    words = []
    for family in dict.fromkeys(bird.family or "" for bird in birds):
        own = [bird for bird in birds if bird.family == family]
        year_ago = str(int(today[:4]) - 1) + today[4:]
        # Under a year a male is a cockerel, after that a cock: the trade's terms.
        kind = "cockerel" if all((bird.hatched_on or "") > year_ago for bird in own) else "cock"
        names, goes = " and ".join(bird.label for bird in own), "goes" if len(own) == 1 else "go"
        plural = "" if len(own) == 1 else "s"
        words.append(f"{standing.families[family].name}'s {kind}{plural} {names} {goes} to {there}")
    told = ", ".join(words)
    absent = all(bird.family != source for bird in birds)
    return f"{standing.families[source].name} has no cock here to give: {told} this year." if absent else f"{told}."


def _mixed(flock: Flock, pen: Mapping[str, Any]) -> bool:
    return len({flock.birds[hen].family for hen in pen["dams"]}) > 1


def _serving(cocks: Sequence[FlockBird], source: str, home: str) -> set[int]:
    """The cocks whose turn it is; where there are none, those of any other family."""
    of_source = {at for at, cock in enumerate(cocks) if cock.family == source}
    return of_source or {at for at, cock in enumerate(cocks) if cock.family is not None and cock.family != home}
