"""How a season went: families side by side, what may be said about them, and where eggs were lost.

A season is named by the year it starts in, starts in the keeper's month, and holds the settings whose eggs were set in
it, by the holding's calendar. Settings that still run are only in the funnel and in the eggs set. Nothing depends on
the order of entries. The text of the verdict is in verdict.py.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import combinations
from typing import Any

from broodline.book.own_words import own_words
from broodline.book.problems import Problem
from broodline.book.standing import Lot, Setting, Standing
from broodline.reports.own_storage import own_storage_json
from broodline.reports.pattern import closing_json
from broodline.reports.problems_about import problems_about
from broodline.reports.rates import Outcome, add_outcomes, rates_json
from broodline.reports.season_adjusted import adjusted_comparison
from broodline.reports.season_chicks import chick_losses
from broodline.reports.season_earlier import earlier_seasons
from broodline.reports.season_groups import by_egg_age, by_month, by_origin, by_place, funnel
from broodline.reports.season_hatches import season_hatches
from broodline.reports.season_laying import laying_by_family
from broodline.reports.season_lots import MOST_EGGS_OF_A_LOT, SeasonLot, middle_age_days, set_on
from broodline.reports.season_year import season_of
from broodline.reports.unchanged import kept_lot_outcome
from broodline.reports.verdict import Compared, overall_verdict, verdict_text
from broodline.trade.comparisons import holm, overall_test, pair_test
from broodline.trade.proportions import difference_newcombe
from broodline.trade.shrinkage import Shrinkage, best_probability, shrink


@dataclass(frozen=True, slots=True)
class _Family:
    id: str
    name: str
    eggs_set: int
    running: int
    lots: tuple[SeasonLot, ...]
    outcome: Outcome

    @property
    def stages(self) -> dict[str, int]:
        """Where the eggs of settings that are over went."""
        found: Counter[str] = Counter()
        for lot in self.lots:
            found.update(lot.lot.stages)
        return dict(sorted(found.items()))


@dataclass(frozen=True, slots=True)
class _Comparison:
    """Families with eggs in settings that are over; shrinkage and chances in the same order."""

    compared: tuple[Compared, ...]
    p: float | None
    shrinkage: Shrinkage | None
    chances: tuple[float, ...]

    @property
    def spread(self) -> bool:
        return self.shrinkage is not None and self.shrinkage.alpha is not None


def season_report(standing: Standing, year: int, now: datetime) -> dict[str, Any]:
    """The report of the season that starts in `year` (shape: season). now: aware; it dates the chicks' first week."""
    now_ms = round(now.timestamp() * 1000)
    zone = standing.keeper.zone
    own = own_words(standing.keeper)
    settings = _settings_of(standing, year)
    problems = list(problems_about(standing, settings))
    lots = _lots_of(standing, settings, now_ms, problems)
    done = [lot for lot in lots if lot.is_over]
    families = _families(standing, lots)
    found = _compare([_compared(family, zone) for family in families if family.outcome.hatch_of_set.n > 0])
    pairs = _pairs(found.compared)
    adjusted = adjusted_comparison(done, {family.id: family.name for family in families}, zone, own)
    laying = laying_by_family(standing, year)
    return {
        "year": year,
        "settings": len(settings),
        "families": [{**_family_json(family, found), "laying": laying.get(family.id)} for family in families],
        "overall_test": {"p": found.p, "verdict": overall_verdict(found.p, found.spread, own)},
        "pairs": pairs,
        "funnel": funnel(standing, settings, lots, now_ms),
        "hatches": season_hatches(standing, settings),
        "chick_losses": chick_losses(standing, _sound(settings, lots), now_ms),
        "earlier": earlier_seasons(standing, year, now_ms),
        "by_egg_age": by_egg_age(done, zone),
        "by_place": by_place(done, standing),
        "by_month": by_month(done, zone),
        "by_origin": by_origin(done),
        "adjusted": None if adjusted is None else adjusted.as_json(),
        "storage": own_storage_json(standing),
        "verdict": verdict_text(
            settings,
            found.compared,
            found.p,
            found.spread,
            found.chances,
            pairs,
            zone,
            own,
            None if adjusted is None else adjusted.words,
        ),
        "problems": [problem.as_json() for problem in problems],
    }


def _settings_of(standing: Standing, year: int) -> list[Setting]:
    found = [setting for setting in standing.settings.values() if season_of(standing, setting.set_at_ms) == year]
    return sorted(found, key=lambda setting: (setting.set_at_ms, setting.id))


def _lots_of(standing: Standing, settings: Sequence[Setting], now_ms: int, problems: list[Problem]) -> list[SeasonLot]:
    """All lots of the season; those far beyond any incubator are told and left out."""
    found = []
    for setting in settings:
        for lot in (standing.lots[name] for name in setting.lots):
            if lot.n > MOST_EGGS_OF_A_LOT:
                problems.append(_too_many(setting, lot))
            else:
                found.append(SeasonLot(setting, lot, kept_lot_outcome(lot, setting, now_ms)))
    return found


def _sound(settings: Sequence[Setting], lots: Sequence[SeasonLot]) -> list[Setting]:
    """Those in which every lot's counts fit."""
    fits = Counter(lot.setting.id for lot in lots if lot.outcome.sound)
    return [setting for setting in settings if fits[setting.id] == len(setting.lots)]


def _too_many(setting: Setting, lot: Lot) -> Problem:
    return Problem(
        "too_many_eggs",
        setting.id,
        f"{lot.n} eggs of one family are more than anyone sets; they are left out of the season.",
        "Correct the number of eggs in the setting.",
    )


def _families(standing: Standing, lots: Sequence[SeasonLot]) -> list[_Family]:
    members: dict[str, list[SeasonLot]] = {}
    for lot in lots:
        members.setdefault(lot.lot.family or "", []).append(lot)
    found = []
    for family, own in members.items():
        known = standing.families.get(family)
        done = tuple(lot for lot in own if lot.is_over)
        found.append(
            _Family(
                family,
                known.name if known is not None else "unknown family",
                sum(lot.lot.n for lot in own),
                sum(lot.lot.n for lot in own if lot.setting.runs),
                done,
                add_outcomes([lot.outcome for lot in done]),
            )
        )
    return sorted(found, key=lambda family: (family.name, family.id))


def _compare(compared: Sequence[Compared]) -> _Comparison:
    counts = [(one.k, one.n) for one in compared]
    shrinkage = shrink(counts)
    chances: list[float] = []
    if shrinkage is not None and len(counts) > 1:
        chances = best_probability(counts, shrinkage.alpha, shrinkage.beta)
    return _Comparison(tuple(compared), overall_test(counts), shrinkage, tuple(chances))


def _family_json(family: _Family, found: _Comparison) -> dict[str, Any]:
    """running: eggs of the family in settings that are not over; they are in `set` and in no rate, death or closing."""
    place = next((place for place, one in enumerate(found.compared) if one.id == family.id), None)
    shrunk = None if place is None or found.shrinkage is None else found.shrinkage.families[place]
    return {
        "family": family.id,
        "name": family.name,
        "set": family.eggs_set,
        "running": family.running,
        **rates_json(family.outcome),
        "shrunk": {name: None if shrunk is None else getattr(shrunk, name) for name in ("rate", "low", "high")},
        "best_probability": found.chances[place] if place is not None and found.chances else None,
        "deaths": dict(family.outcome.deaths),
        "closing": closing_json(sum(lot.lot.n for lot in family.lots), family.stages),
    }


def _compared(family: _Family, zone: str) -> Compared:
    rate = family.outcome.hatch_of_set
    settings = tuple({lot.setting.id: lot.setting for lot in family.lots}.values())
    ages = [(lot.lot.n, middle_age_days(lot.lot, set_on(lot.setting, zone))) for lot in family.lots]
    known = [(n, age) for n, age in ages if age is not None]
    eggs = sum(n for n, _ in known)
    age_days = sum(n * age for n, age in known) / eggs if len(known) == len(ages) else None
    bought_in = sum(lot.lot.n for lot in family.lots if lot.lot.bought_in) / sum(lot.lot.n for lot in family.lots)
    return Compared(family.id, family.name, rate.k, rate.n, settings, age_days, bought_in)


def _pairs(compared: Sequence[Compared]) -> list[dict[str, Any]]:
    """Every two families: difference of hatch of set with Newcombe's interval, p by Boschloo adjusted by Holm."""
    both = list(combinations(compared, 2))
    adjusted = holm([pair_test(a.k, a.n, b.k, b.n) for a, b in both])
    rows = []
    for (a, b), p in zip(both, adjusted, strict=True):
        apart = difference_newcombe(a.k, a.n, b.k, b.n)
        rows.append(
            {
                "a": a.id,
                "b": b.id,
                "difference": apart.difference,
                "low": apart.low,
                "high": apart.high,
                "p_holm": p,
            }
        )
    return rows
