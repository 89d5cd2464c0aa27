"""How a season went: families side by side, what may be said about them, and where eggs were lost.

A season is named by the year it starts in, starts in the keeper's month, and holds the settings whose eggs were set in
it, by the holding's calendar. Settings that still run are only in the funnel and in the eggs set. Nothing depends on
the order of entries. The text of the verdict is in verdict.py.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from broodline.book.own_words import OwnWords, own_words
from broodline.book.problems import Problem
from broodline.book.standing import Lot, Setting, Standing
from broodline.reports.own_storage import own_storage_json
from broodline.reports.pattern import closing_json
from broodline.reports.problems_about import problems_about, settled_where
from broodline.reports.rates import Outcome, rates_json
from broodline.reports.season_adjusted import adjusted_comparison
from broodline.reports.season_against import against_earlier
from broodline.reports.season_chicks import chick_losses, scale_of
from broodline.reports.season_compared import Comparison, compare_by_species, overall_json, pairs_of, verdict_by_species
from broodline.reports.season_earlier import earlier_seasons, lots_before
from broodline.reports.season_groups import by_egg_age, by_month, by_origin, by_place, funnel
from broodline.reports.season_hatches import hatches_left_out, season_hatches
from broodline.reports.season_laying import laying_by_family
from broodline.reports.season_lots import MOST_EGGS_OF_A_LOT, SeasonLot, middle_age_days, set_on
from broodline.reports.season_outcome import outcome_of
from broodline.reports.season_titles import labels, season_titles
from broodline.reports.season_year import season_of
from broodline.reports.unchanged import kept_lot_outcome
from broodline.reports.verdict import Compared


@dataclass(frozen=True, slots=True)
class _Family:
    id: str
    name: str
    species: str
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


def season_report(standing: Standing, year: int, now: datetime) -> dict[str, Any]:
    """The report of the season that starts in `year` (shape: season). now: aware; it dates the chicks' first week."""
    now_ms = round(now.timestamp() * 1000)
    zone = standing.keeper.zone
    own = own_words(standing.keeper)
    settings = _settings_of(standing, year)
    problems = list(problems_about(standing, settings))
    lots = _lots_of(standing, settings, now_ms, problems)
    done = [lot for lot in lots if lot.is_over]
    families = _families(standing, lots, now_ms)
    comparisons = compare_by_species(
        [(family.species, _compared(family, zone)) for family in families if family.outcome.hatch_of_set.n > 0]
    )
    names = {family.id: family.name for family in families}
    unknown = [
        _of_unknown_family([lot for lot in done if _species(standing, lot) == one.species], one, now_ms)
        for one in comparisons
    ]
    adjusted = [
        adjusted_comparison([lot for lot in done if _species(standing, lot) == one.species], names, zone, own)
        for one in comparisons
    ]
    laying = laying_by_family(standing, year)
    before = lots_before(standing, year, now_ms)
    known = {family: one.name for family, one in standing.families.items()}
    species = {family: one.species for family, one in standing.families.items()}
    species |= {family.id: family.species for family in families}
    report: dict[str, Any] = {
        "year": year,
        "settings": len(settings),
        "families": [{**_family_json(family, comparisons), "laying": laying.get(family.id)} for family in families],
        "overall_test": overall_json(comparisons, own),
        "pairs": [pair for one in comparisons for pair in pairs_of(one)],
        "funnel": funnel(standing, settings, lots, now_ms),
        "hatches": season_hatches(standing, settings),
        "hatches_left_out": hatches_left_out(standing, settings, own),
        "chick_losses": chick_losses(standing, _sound(settings, lots), now_ms),
        "earlier": earlier_seasons(before, now_ms),
        "against": against_earlier({one.id: one.lots for one in families}, before, species, known, own, now_ms),
        "unset": _unset(standing, lots, before, own),
        "by_egg_age": by_egg_age(done, zone, now_ms),
        "by_place": by_place(done, standing, now_ms),
        "by_month": by_month(done, zone, now_ms),
        "by_origin": by_origin(done, now_ms),
        "adjusted": adjusted[0].as_json() if adjusted and adjusted[0] is not None else None,
        "storage": own_storage_json(standing),
        "verdict": verdict_by_species(settings, comparisons, adjusted, unknown, standing.keeper),
        "problems": [{**problem.as_json(), **settled_where(standing, problem)} for problem in problems],
    }
    report["chick_scale"] = scale_of(row["lost"]["high"] for row in report["chick_losses"])
    named = labels(report["families"])
    report["families"] = [{**one, "label": named[one["family"]]} for one in report["families"]]
    return {**report, "titles": season_titles(report, comparisons, species, own)}


def _settings_of(standing: Standing, year: int) -> list[Setting]:
    found = [setting for setting in standing.settings.values() if season_of(standing, setting.set_at_ms) == year]
    return sorted(found, key=lambda setting: (setting.set_at_ms, setting.id))


def _lots_of(standing: Standing, settings: Sequence[Setting], now_ms: int, problems: list[Problem]) -> list[SeasonLot]:
    """All lots of the season; those far beyond any incubator are told and left out."""
    found = []
    for setting in settings:
        lots = [standing.lots[name] for name in setting.lots]
        problems.extend(counts_of_lots(setting, lots))
        for lot in lots:
            if lot.n <= MOST_EGGS_OF_A_LOT:
                found.append(SeasonLot(setting, lot, kept_lot_outcome(lot, setting, now_ms)))
    return found


def _sound(settings: Sequence[Setting], lots: Sequence[SeasonLot]) -> list[Setting]:
    """Those in which every lot's counts fit."""
    fits = Counter(lot.setting.id for lot in lots if lot.outcome.sound)
    return [setting for setting in settings if fits[setting.id] == len(setting.lots)]


def counts_of_lots(setting: Setting, lots: Sequence[Lot]) -> Iterator[Problem]:
    """Lots of a setting with more eggs than anyone sets."""
    for lot in lots:
        if lot.n > MOST_EGGS_OF_A_LOT:
            yield Problem(
                "too_many_eggs",
                setting.id,
                f"{lot.n} eggs of one family are more than anyone sets; they are left out of the season.",
                "Correct the number of eggs in the setting.",
            )


def _families(standing: Standing, lots: Sequence[SeasonLot], now_ms: int) -> list[_Family]:
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
                _species(standing, own[0]),
                sum(lot.lot.n for lot in own),
                sum(lot.lot.n for lot in own if lot.setting.runs),
                done,
                outcome_of(done, now_ms),
            )
        )
    return sorted(found, key=lambda family: (family.name, family.id))


def _unset(
    standing: Standing, lots: Sequence[SeasonLot], before: Mapping[int, Sequence[SeasonLot]], own: OwnWords
) -> str:
    """Families with eggs in a season before and none set in this one, in words; nothing where there is none."""
    here = {lot.lot.family for lot in lots}
    then = {lot.lot.family or "" for some in before.values() for lot in some} - here
    names = sorted(standing.families[one].name for one in then if one in standing.families)
    return f"No eggs set in this season, but in one before: {', '.join(names)}." if names and lots else ""


def _species(standing: Standing, lot: SeasonLot) -> str:
    """Of the family; where nobody knows it, of the setting."""
    known = standing.families.get(lot.lot.family or "")
    return lot.setting.species if known is None else known.species


def _family_json(family: _Family, comparisons: Sequence[Comparison]) -> dict[str, Any]:
    """running: eggs of the family in settings that are not over; they are in `set` and in no rate, death or closing."""
    own = next((one for one in comparisons if one.species == family.species), Comparison("", (), None, None, ()))
    return {
        "family": family.id,
        "name": family.name,
        "species": family.species,
        "set": family.eggs_set,
        "running": family.running,
        **rates_json(family.outcome),
        **own.figures(family.id),
        "deaths": dict(family.outcome.deaths),
        "closing": closing_json(sum(lot.lot.n for lot in family.lots), family.stages),
    }


def _of_unknown_family(done: Sequence[SeasonLot], one: Comparison, now_ms: int) -> int:
    """Chicks that hatched of lots of a species, of which no family counts them as its own."""
    rate = outcome_of(done, now_ms).hatch_of_set
    return max(0, rate.k - sum(family.k for family in one.compared)) + rate.open


def _compared(family: _Family, zone: str) -> Compared:
    rate = family.outcome.hatch_of_set
    settings = tuple({lot.setting.id: lot.setting for lot in family.lots}.values())
    ages = [(lot.lot.n, middle_age_days(lot.lot, set_on(lot.setting, zone))) for lot in family.lots]
    known = [(n, age) for n, age in ages if age is not None]
    eggs = sum(n for n, _ in known)
    age_days = sum(n * age for n, age in known) / eggs if len(known) == len(ages) else None
    bought_in = sum(lot.lot.n for lot in family.lots if lot.lot.bought_in) / sum(lot.lot.n for lot in family.lots)
    return Compared(family.id, family.name, rate.k, rate.n, settings, age_days, bought_in, rate.open)
