"""Fertility and hatch rates of lots and settings, with what they rest on.

A lot whose counts do not fit (a stage below zero, more hatched than set) keeps its k and n, but gets no rate and is
left out of sums over settings.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from broodline.book.stages import STAGES
from broodline.book.standing import Lot, Setting
from broodline.book.tied import tied_groups
from broodline.reports.egg_counts import Beside, EggCounts, count_among, count_beside, count_lot, is_judged
from broodline.reports.first_week import alive_at_seven_days
from broodline.trade.proportions import Rate, rate_of

_OPENED = frozenset(stage for stage in STAGES if stage == "infertile" or stage.startswith("dead_"))
_DEATHS: Mapping[str, tuple[str, ...]] = {
    "early": ("blood_ring", "dead_early"),
    "mid": ("dead_mid",),
    "late": ("dead_late",),
    "internal_pip": ("dead_internal_pip",),
    "external_pip": ("dead_external_pip",),
    "unopened": ("quitter", "unhatched"),
}


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of the eggs of a lot or a setting. deaths: how many in each class. sound: the counts fit."""

    fertility: Rate
    hatch_of_set: Rate
    hatch_of_fertile: Rate
    alive_7d: Rate
    deaths: Mapping[str, int]
    sound: bool


def lot_outcome(lot: Lot, setting: Setting, now_ms: int) -> Outcome:
    """The rates of one lot. now_ms: milliseconds since 1970; only the chicks' first seven days ask for it."""
    beside = count_beside(move for move in setting.among if lot.id in move.among)
    basis = basis_of(lot.stages) if is_judged(lot) else None
    alive = alive_at_seven_days(lot.moves, now_ms)
    return _outcome(count_lot(lot), alive, lot.stages, basis, beside, setting.runs)


def hatched_of_set(lot: Lot) -> tuple[int, int] | None:
    """(hatched, set) of a lot whose outcome is sound, else None; for where nothing else of it is asked for."""
    counts = count_lot(lot)
    shares = (
        (counts.fertile, counts.examined),
        (counts.hatched, counts.eggs),
        (counts.hatched_of_fertile, counts.fertile),
    )
    fits = min(lot.stages.values(), default=0) >= 0 and all(0 <= k <= n for k, n in shares)
    return (counts.hatched, counts.eggs) if fits else None


def setting_outcome(setting: Setting, lots: Sequence[Lot], now_ms: int) -> Outcome:
    """The rates of a whole setting: its lots added up, and what was moved among several of them."""
    counts = sum((count_lot(lot) for lot in lots), count_among(lots, setting.among))
    judged = {lot.id for lot in lots if is_judged(lot)}
    basis = _one_basis(basis_of(lot.stages) for lot in lots if count_lot(lot).examined)
    waiting = count_beside(move for move in setting.among if not judged.issuperset(move.among))
    beside = replace(waiting, hatch_of_set=0, alive_7d=0)
    parts = [alive_at_seven_days(one.moves, now_ms) for one in tied_groups(lots, setting.among)]
    alive = (sum(k for k, _ in parts), sum(n for _, n in parts))
    return _outcome(counts, alive, setting.stages, basis, beside, setting.runs)


def rates_json(outcome: Outcome) -> dict[str, Any]:
    """The four rates as reports write them; the two on examined always say their basis."""
    return {
        "fertility": {**outcome.fertility.as_json(), "basis": outcome.fertility.basis},
        "hatch_of_set": outcome.hatch_of_set.as_json(),
        "hatch_of_fertile": {**outcome.hatch_of_fertile.as_json(), "basis": outcome.hatch_of_fertile.basis},
        "alive_7d": outcome.alive_7d.as_json(),
    }


def add_outcomes(outcomes: Sequence[Outcome]) -> Outcome:
    """Outcomes of several lots added up, those whose counts do not fit left out."""
    kept = [outcome for outcome in outcomes if outcome.sound]
    return Outcome(
        sum_of(outcome.fertility for outcome in kept),
        sum_of(outcome.hatch_of_set for outcome in kept),
        sum_of(outcome.hatch_of_fertile for outcome in kept),
        sum_of(outcome.alive_7d for outcome in kept),
        {name: sum(outcome.deaths[name] for outcome in kept) for name in _DEATHS},
        sound=True,
    )


def sum_of(rates: Iterable[Rate]) -> Rate:
    """Rates added up, k to k and n to n. Those without a rate (nothing examined, counts that do not fit) stay out."""
    kept = [rate for rate in rates if rate.rate is not None]
    return rate_of(
        sum(rate.k for rate in kept),
        sum(rate.n for rate in kept),
        basis=_one_basis(rate.basis for rate in kept),
        open_=sum(rate.open for rate in kept),
        so_far=any(rate.so_far for rate in kept),
    )


def basis_of(stages: Mapping[str, int]) -> str:
    """ "opened" where eggs were opened and no clear waits for it, else "candled"."""
    opened = any(stages.get(stage, 0) > 0 for stage in _OPENED)
    return "opened" if opened and stages.get("clear", 0) <= 0 else "candled"


def _one_basis(bases: Iterable[str | None]) -> str | None:
    named = set(bases) - {None}
    return "mixed" if len(named) > 1 else next(iter(named), None)


def _outcome(
    counts: EggCounts,
    alive: tuple[int, int],
    stages: Mapping[str, int],
    basis: str | None,
    beside: Beside,
    runs: bool,
) -> Outcome:
    whole = min(stages.values(), default=0) >= 0
    on = basis if counts.examined else None

    def rate(k: int, n: int, open_: int, basis: str | None = None) -> Rate:
        return rate_of(k, n, sound=whole, basis=basis if n else None, open_=open_, so_far=runs)

    rates = (
        rate(counts.fertile, counts.examined, beside.fertility, on),
        rate(counts.hatched, counts.eggs, beside.hatch_of_set),
        rate(counts.hatched_of_fertile, counts.fertile, beside.hatch_of_fertile, on),
        rate(*alive, beside.alive_7d),
    )
    deaths = {name: sum(stages.get(stage, 0) for stage in group) for name, group in _DEATHS.items()}
    return Outcome(*rates, deaths, whole and all(one.rate is not None for one in rates if one.k or one.n))
