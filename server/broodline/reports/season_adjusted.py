"""A season's families with setting and egg age held alike, by the hatch model; or why that cannot be done.

A season needs at least two settings that are over. Settings of which every egg hatched, or none, say nothing of their
families and are left out. Families that never lay beside the others, over however many settings, cannot be compared.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any

import numpy as np
from scipy.special import expit
from scipy.stats import chi2

from broodline.book.own_words import OwnWords
from broodline.book.standing import Lot
from broodline.reports.chance import in_words
from broodline.reports.season_lots import SeasonLot, middle_age_days, set_on
from broodline.trade.hatch_model import Eggs, HatchModel, fit_hatch_model
from broodline.trade.storage import FIRST_WEEK_DAYS

SEPARATES_BELOW = 0.05
Z_95 = 1.96


@dataclass(frozen=True, slots=True)
class _Row:
    family: str
    setting: str
    hatched: int
    n: int
    days_beyond: float | None


@dataclass(frozen=True, slots=True)
class Adjusted:
    """The comparison. families: {family, rate, low, high}, None where it could not be made; words say so."""

    settings: int
    families: tuple[Mapping[str, Any], ...]
    p: float | None
    sd: float | None
    held_alike: tuple[str, ...]
    words: str

    def as_json(self) -> dict[str, Any]:
        """held_alike: "setting", "egg age". sd: of the families, on the log-odds scale. p: that it is 0."""
        return {
            "settings": self.settings,
            "held_alike": list(self.held_alike),
            "families": [dict(one) for one in self.families],
            "sd": self.sd,
            "p": self.p,
            "words": self.words,
        }


def adjusted_comparison(
    lots: Sequence[SeasonLot], names: Mapping[str, str], zone: str, own: OwnWords
) -> Adjusted | None:
    """Compare families over the lots of settings that are over. None for fewer than two settings or families."""
    rows = _rows(lots, zone)
    if len({row.setting for row in rows}) < 2 or len({row.family for row in rows}) < 2:
        return None
    told = _telling(rows)
    settings = len({row.setting for row in told})
    groups = _beside_each_other(told)
    if len(groups) != 1 or len({row.family for row in told}) < 2:
        return _refused(settings, _apart_words(groups, names, own))
    held, model, eggs = _fit(told)
    if model is None:
        return _refused(settings, f"These counts are too few to hold the {own.settings} alike.")
    share = _shares(model, eggs)
    families = tuple(
        {
            "family": name,
            "name": names[name],
            "rate": share(one.effect),
            "low": share(one.effect - Z_95 * one.sd),
            "high": share(one.effect + Z_95 * one.sd),
        }
        for name, one in sorted(model.families.items(), key=lambda pair: (names[pair[0]], pair[0]))
    )
    p = 1.0 if model.sd == 0 else float(chi2.sf(2 * (model.log_likelihood - model.flat), 1)) / 2
    words = _compared_words(families, p, model.sd, held, own) + _age_words(told, held, own)
    return Adjusted(settings, families, p, model.sd, held, words)


def days_beyond_first_week(lot: Lot, on: date) -> float | None:
    """Days the eggs set on a day were kept beyond seven, half way from first to last laid; None: unknown."""
    age = middle_age_days(lot, on)
    return None if age is None else max(0.0, age - FIRST_WEEK_DAYS)


@lru_cache(maxsize=64)
def fitted(eggs: tuple[Eggs, ...]) -> HatchModel | None:
    """The hatch model of these eggs; the same eggs are fitted once."""
    return fit_hatch_model(eggs)


def _rows(lots: Sequence[SeasonLot], zone: str) -> list[_Row]:
    return sorted(
        (
            _Row(
                lot.lot.family or "",
                lot.setting.id,
                lot.outcome.hatch_of_set.k,
                lot.outcome.hatch_of_set.n,
                days_beyond_first_week(lot.lot, set_on(lot.setting, zone)),
            )
            for lot in lots
        ),
        key=lambda row: (row.setting, row.family, row.hatched, row.n, row.days_beyond or 0.0),
    )


def _telling(rows: Sequence[_Row]) -> list[_Row]:
    """The rows of settings of which some eggs hatched and some did not."""
    hatched: dict[str, int] = {}
    eggs: dict[str, int] = {}
    for row in rows:
        hatched[row.setting] = hatched.get(row.setting, 0) + row.hatched
        eggs[row.setting] = eggs.get(row.setting, 0) + row.n
    return [row for row in rows if 0 < hatched[row.setting] < eggs[row.setting]]


def _beside_each_other(rows: Sequence[_Row]) -> list[set[str]]:
    """Families in groups: within a group each lay beside another, setting by setting."""
    groups: list[set[str]] = []
    for setting in sorted({row.setting for row in rows}):
        here = {row.family for row in rows if row.setting == setting}
        groups, touched = [one for one in groups if not one & here], [one for one in groups if one & here]
        groups.append(here.union(*touched))
    return groups


def _fit(rows: Sequence[_Row]) -> tuple[tuple[str, ...], HatchModel | None, list[Eggs]]:
    """With setting and egg age held alike where the counts can tell the two apart, else with the setting alone."""
    ages = [row.days_beyond for row in rows]
    for with_age in (True, False):
        if with_age and None in ages:
            continue
        eggs = [
            Eggs(row.family, row.setting, row.hatched, row.n, (row.days_beyond or 0.0,) if with_age else ())
            for row in rows
        ]
        model = fitted(tuple(eggs))
        if model is not None:
            return ("setting", "egg age") if with_age else ("setting",), model, eggs
    return (), None, []


def _shares(model: HatchModel, eggs: Sequence[Eggs]) -> Callable[[float], float]:
    """Says the share that would have hatched had all these eggs been of a family with a given effect."""
    weights = np.array([one.n for one in eggs]) / sum(one.n for one in eggs)
    lines = np.array([model.line(one) for one in eggs])
    return lambda effect: float(weights @ expit(lines + effect))


def _refused(settings: int, words: str) -> Adjusted:
    return Adjusted(settings, (), None, None, (), words)


def _apart_words(groups: Sequence[set[str]], names: Mapping[str, str], own: OwnWords) -> str:
    told = [", ".join(sorted(names[family] for family in group)) for group in groups]
    if len(told) < 2:
        return (
            f"Too few {own.settings} had both chicks and eggs that did not hatch for holding the {own.settings} alike."
        )
    return (
        f"{'; '.join(sorted(told))}: never in one {own.setting} together, so what is the {own.family}'s and what is "
        f"the {own.setting}'s cannot be told."
    )


def _compared_words(
    families: Sequence[Mapping[str, Any]], p: float, sd: float, held: Sequence[str], own: OwnWords
) -> str:
    alike = " and ".join(own.setting if one == "setting" else one for one in held)
    if sd == 0 or p > SEPARATES_BELOW:
        return f"With {alike} held alike these eggs do not separate the {own.families}."
    ranked = sorted(families, key=lambda one: (-one["rate"], one["name"], one["family"]))
    told = ", ".join(f"{one['name']} {100 * one['rate']:.0f} %" for one in ranked)
    return (
        f"With {alike} held alike the {own.families} still differ; chance alone would set them so far apart in "
        f"{in_words(p)} such seasons. Of all eggs set would hatch: {told}."
    )


def _age_words(rows: Sequence[_Row], held: Sequence[str], own: OwnWords) -> str:
    """What stood in the way of holding the age of the eggs alike, if it matters."""
    known = {row.days_beyond for row in rows}
    if "egg age" in held or known == {0.0}:
        return ""
    if None in known:
        return " The age of some eggs is not known, so it could not be held alike."
    return f" Egg age and {own.setting} went together, so what is the one's and what the other's cannot be told."
