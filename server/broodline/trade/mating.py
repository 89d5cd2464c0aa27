"""Which hens go to which cock: the plan of pens whose chicks are least inbred, within a keeper's limits.

A linear programme over whole birds (scipy's milp): each hen in at most one pen, each pen with its cocks, least expected
F in sum; of equal plans, the birds that are least kin to the flock. With several cocks in a pen a search by exchange
goes beside it, and alone where the programme would come to no end. Both are limited by work, never by the clock: one
book has one plan on any machine. Where no plan fits, the limit to relax is named.

>>> table = np.array([[0.25, 0.0], [0.125, 0.25]])
>>> plan = plan_pens(table, Limits(pens=2, hens=1))
>>> plan.pens, plan.total
((Pen(cocks=(0,), hens=(1,)), Pen(cocks=(1,), hens=(0,))), 0.125)
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, milp

from broodline.trade.mating_rows import Rows
from broodline.trade.mating_search import Asked, search_pens
from broodline.trade.pen_sizes import pen_sizes, pens_shared

Matrix = NDArray[np.float64]
# Branches of a programme that are gone through; a table of so many meetings in pens is left to the search.
MOST_NODES, WORST_NODES = 4000, 400
MOST_MEETINGS = 200
_TIE, _GAP = 1e-4, 1e-6
_WORK_RAN_OUT = 1
_NO_TIME = "No plan was found within reasonable work: ask for fewer pens, or for one cock in a pen."


@dataclass(frozen=True, slots=True)
class Limits:
    """pens: how many. hens, cocks: in each pen. least_hens: a pen has at least so many, where hens do not run short.

    forbidden: (cock, hen) that never meet. together: (cock, hen) that share a pen. must_cocks, must_hens: used in any
    case. All by position in the table.
    families: each hen's family by number, where hens of one family only go to a pen and each family has one, if there
    are pens enough; None where they may mix.
    """

    pens: int
    hens: int
    cocks: int = 1
    least_hens: int | None = None
    forbidden: frozenset[tuple[int, int]] = frozenset()
    together: frozenset[tuple[int, int]] = frozenset()
    must_cocks: frozenset[int] = frozenset()
    must_hens: frozenset[int] = frozenset()
    families: tuple[int, ...] | None = None


@dataclass(frozen=True, slots=True)
class Pen:
    """Cocks and hens of a pen, by position."""

    cocks: tuple[int, ...]
    hens: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """pens: the plan; empty where none fits. total: expected F summed over hens. relax: the limits to relax, in words.

    proved: no plan is better; False where this is but the best that was found. In a pen of several cocks each
    counts alike.
    """

    pens: tuple[Pen, ...]
    total: float
    proved: bool = True
    relax: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Compared:
    """Mean F of hens: of mating at random, and of the worst plan of the same size; None where no mating is known."""

    random: float | None
    worst: float | None


def plan_pens(table: Matrix, limits: Limits, mean_kinship: tuple[Matrix, Matrix] | None = None) -> Plan:
    """The best plan. table: expected F of each cock (down) with each hen (across).

    mean_kinship: of the cocks and of the hens, to choose between plans of equal F. All pens are filled with `hens`
    hens where there are enough; else with as many as there are, at least `least_hens` each (as even as can be, where it
    is None). With the families apart a pen holds what its family has. Needs 1 cock and 1 hen.
    """
    found = _solve(table, limits, mean_kinship)
    return found if found is not None else Plan((), 0.0, relax=_to_relax(table, limits))


def compared(table: Matrix, limits: Limits, known: NDArray[np.bool_]) -> Compared:
    """Random and worst mating under some limits, as mean F over hens. A plan must fit them.

    known: of which matings (as in the table) something is known; the others are left out of both means.

    worst: only something to compare with, so in a large flock the worst that was found with less work.
    """
    worst = _solve(-table, limits, None, WORST_NODES)
    open_pairs = [table[pair] for pair in np.ndindex(table.shape) if known[pair] and pair not in limits.forbidden]
    if not open_pairs:
        return Compared(None, None)
    found = mean_known(table, known, worst.pens) if worst else None
    return Compared(float(np.mean(open_pairs)), float(max(open_pairs)) if found is None else found)


def mean_known(table: Matrix, known: NDArray[np.bool_], pens: Sequence[Pen]) -> float | None:
    """Mean F over the hens of whose matings something is known, each counting alike; None where there are none."""
    total, count = 0.0, 0
    for pen in pens:
        told = known[np.ix_(pen.cocks, pen.hens)]
        hens = int(told.any(axis=0).sum())
        if hens:
            total += float(table[np.ix_(pen.cocks, pen.hens)][told].mean()) * hens
            count += hens
    return total / count if count else None


def mean_f(table: Matrix, pen: Pen) -> float:
    """Expected F of a pen's chicks, each cock and hen alike."""
    return float(table[np.ix_(pen.cocks, pen.hens)].mean())


def _solve(
    table: Matrix, limits: Limits, mean_kinship: tuple[Matrix, Matrix] | None, nodes: int = MOST_NODES
) -> Plan | None:
    """Cocks are put into pens as groups where a pen has several; a pen is known by its first cock."""
    cocks, hens = table.shape
    families = None if limits.families is None else list(Counter(limits.families).values())
    sizes = pen_sizes(pens=limits.pens, hens=limits.hens, families=families, birds=hens)
    least = sizes.least if limits.least_hens is None else limits.least_hens
    if limits.pens * limits.cocks > cocks or limits.pens > hens or least * limits.pens > hens:
        return None
    sized = replace(limits, least_hens=least)
    searched = _searched(table, sized, mean_kinship) if limits.cocks > 1 else None
    if searched is not None and limits.pens * table.size > MOST_MEETINGS:
        return searched
    found = _programme(table, sized, sizes.wanted, mean_kinship, nodes)
    return searched if searched is not None and _is_worse(found, searched) else found


def _is_worse(found: Plan | None, searched: Plan) -> bool:
    """Whether a programme that was cut short has less to offer than the search."""
    return found is None or not found.pens or (not found.proved and found.total > searched.total)


def _searched(table: Matrix, limits: Limits, mean_kinship: tuple[Matrix, Matrix] | None) -> Plan | None:
    hens_of = Counter(limits.families or ())
    shared = pens_shared(pens=limits.pens, hens=limits.hens, families=list(hens_of.values())) if hens_of else ()
    asked = Asked(
        pens=limits.pens,
        hens=limits.hens,
        least=limits.least_hens or 1,
        cocks=limits.cocks,
        forbidden=limits.forbidden,
        together=limits.together,
        must_cocks=limits.must_cocks,
        must_hens=limits.must_hens,
        families=limits.families,
        pens_of=tuple(family for family, of in zip(hens_of, shared, strict=True) for _ in range(of)),
    )
    merits = None if mean_kinship is None else (_TIE * mean_kinship[0], _TIE * mean_kinship[1])
    found = search_pens(table, asked, merits)
    return None if found is None else _plan_of(table, [Pen(cocks, hens) for cocks, hens in found], proved=False)


def _programme(
    table: Matrix, limits: Limits, wanted: int, mean_kinship: tuple[Matrix, Matrix] | None, nodes: int
) -> Plan | None:
    """Unknowns: hen h to pen p (x), cock c in pen p (y), and their meeting z >= x + y - 1, which bears the cost.

    With one cock a pen, a pen is a cock: x is then hen to cock, y whether the cock is used, and no z is needed.
    """
    cocks, hens = table.shape
    single = limits.cocks == 1
    pens = cocks if single else limits.pens
    x0, y0 = 0, pens * hens
    z0 = y0 + (pens if single else pens * cocks)
    f0 = z0 + (0 if single else pens * cocks * hens)
    families = sorted(set(limits.families or ()))
    columns = f0 + pens * len(families)
    rows, cost = Rows(columns), np.zeros(columns)
    upper = np.ones(columns)
    of_cocks, of_hens = mean_kinship or (np.zeros(cocks), np.zeros(hens))
    must_cocks = limits.must_cocks | {cock for cock, _ in limits.together}
    must_hens = limits.must_hens | {hen for _, hen in limits.together}
    for hen in range(hens):
        must = 1 if hen in must_hens else 0
        rows.add(must, 1, *((x0 + pen * hens + hen, 1.0) for pen in range(pens)))
    rows.add(wanted, wanted, *((column, 1.0) for column in range(x0, y0)))
    for pen in range(pens):
        x = [x0 + pen * hens + hen for hen in range(hens)]
        cost[x] += _TIE * of_hens
        if limits.families is not None:
            own = {family: f0 + pen * len(families) + at for at, family in enumerate(families)}
            rows.add(-np.inf, 1, *((column, 1.0) for column in own.values()))
            for column, family in zip(x, limits.families, strict=True):
                rows.add(-np.inf, 0, (column, 1.0), (own[family], -1.0))
            for family, column in own.items():
                of_it = [(one, 1.0) for one, of in zip(x, limits.families, strict=True) if of == family]
                rows.add(0, np.inf, *of_it, (column, -1.0))
        if single:
            used = y0 + pen
            cost[x] += table[pen]
            cost[used] += _TIE * of_cocks[pen]
            upper[[x[hen] for cock, hen in limits.forbidden if cock == pen]] = 0
            upper[[x[hen] for cock, hen in limits.together if cock != pen]] = 0
            rows.add(0, np.inf, *((column, 1.0) for column in x), (used, -float(limits.least_hens or 1)))
            rows.add(-np.inf, 0, *((column, 1.0) for column in x), (used, -float(limits.hens)))
            for column in x:  # says nothing new of whole birds, but lets the programme see the end much sooner
                rows.add(-np.inf, 0, (column, 1.0), (used, -1.0))
        else:
            y = [y0 + pen * cocks + cock for cock in range(cocks)]
            cost[y] += _TIE * of_cocks
            rows.add(limits.cocks, limits.cocks, *((column, 1.0) for column in y))
            rows.add(float(limits.least_hens or 1), limits.hens, *((column, 1.0) for column in x))
            for cock, hen in limits.together:
                rows.add(0, 0, (x[hen], 1.0), (y[cock], -1.0))
            for cock, hen in np.ndindex(cocks, hens):
                z = z0 + (pen * cocks + cock) * hens + hen
                cost[z] += table[cock, hen] / limits.cocks
                if (cock, hen) in limits.forbidden:
                    rows.add(-np.inf, 1, (x[hen], 1.0), (y[cock], 1.0))
                rows.add(-np.inf, 1, (x[hen], 1.0), (y[cock], 1.0), (z, -1.0))
                # The worst plan turns the cost round; a meeting must then not be claimed that is none.
                rows.add(0, np.inf, (x[hen], 1.0), (z, -1.0))
                rows.add(0, np.inf, (y[cock], 1.0), (z, -1.0))
    if len(families) <= limits.pens:
        for at in range(len(families)):
            rows.add(1, np.inf, *((f0 + pen * len(families) + at, 1.0) for pen in range(pens)))
    if single:
        rows.add(limits.pens, limits.pens, *((y0 + cock, 1.0) for cock in range(cocks)))
    for cock in range(cocks):
        held = [y0 + cock] if single else [y0 + pen * cocks + cock for pen in range(pens)]
        rows.add(1 if cock in must_cocks else 0, 1, *((column, 1.0) for column in held))
    # Once the cocks are chosen, sharing out the hens is a flow, whose best corner is in whole birds by itself.
    whole = np.ones(columns)
    whole[x0:y0] = 0 if single else 1
    answer = milp(
        cost,
        integrality=whole,
        bounds=Bounds(0, upper),
        constraints=rows.constraint(),
        options={"node_limit": nodes, "mip_rel_gap": _GAP},
    )
    if answer.x is None:
        return Plan((), 0.0, proved=False, relax=(_NO_TIME,)) if answer.status == _WORK_RAN_OUT else None
    chosen = answer.x > 0.5
    return replace(_read(table, chosen, pens, y0, single=single), proved=answer.status == 0)


def _read(table: Matrix, chosen: NDArray[np.bool_], pens: int, y0: int, *, single: bool) -> Plan:
    cocks, hens = table.shape
    found = []
    for pen in range(pens):
        in_pen = tuple(int(hen) for hen in np.flatnonzero(chosen[pen * hens : (pen + 1) * hens]))
        own = (pen,) if single else tuple(map(int, np.flatnonzero(chosen[y0 + pen * cocks : y0 + (pen + 1) * cocks])))
        if in_pen:
            found.append(Pen(own, in_pen))
    return _plan_of(table, found, proved=True)


def _plan_of(table: Matrix, pens: Sequence[Pen], *, proved: bool) -> Plan:
    total = float(sum(mean_f(table, pen) * len(pen.hens) for pen in pens))
    return Plan(tuple(sorted(pens, key=lambda pen: pen.cocks)), total, proved)


def _to_relax(table: Matrix, limits: Limits) -> tuple[str, ...]:
    """The limits of which each, relaxed alone, gives a plan; where one alone does not do, all that bind together.

    Any plan will do here, so that none is better than another: that is told many times sooner than the best.
    """
    cocks, hens = table.shape
    alike = np.zeros_like(table)
    if limits.pens * limits.cocks > cocks:
        return (f"{limits.pens} pens of {limits.cocks} need {limits.pens * limits.cocks} cocks; there are {cocks}.",)
    if limits.pens > hens:
        return (f"{limits.pens} pens need {limits.pens} hens; there are {hens}.",)
    tries: Sequence[tuple[str, Limits]] = (
        ("Allow some of the matings that are ruled out.", replace(limits, forbidden=frozenset())),
        ("Do not insist on all of those pairs.", replace(limits, together=frozenset())),
        ("Let hens of several families share a pen.", replace(limits, families=None)),
        ("Let more hens go to a pen.", replace(limits, hens=hens, least_hens=1)),
        ("Do not insist on all of those hens.", replace(limits, must_hens=frozenset())),
        ("Do not insist on all of those cocks.", replace(limits, must_cocks=frozenset())),
        ("Make one pen less.", replace(limits, pens=limits.pens - 1)),
        ("Let a pen have fewer hens.", replace(limits, least_hens=1)),
    )
    found = tuple(
        words for words, looser in tries if looser != limits and looser.pens and _solve(alike, looser, None) is not None
    )
    return found or ("Several limits stand against each other: allow ruled-out matings and more hens in a pen.",)
