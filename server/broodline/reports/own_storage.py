"""What keeping eggs beyond a week cost on this holding, beside the average of commercial flocks.

All seasons together: settings in which eggs of different age lay beside each other, setting and family held alike.
Shown only once there are enough such eggs, and always with its interval.
"""

from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from typing import Any

from broodline.book.standing import Standing
from broodline.reports.rates import hatched_of_set
from broodline.reports.season_adjusted import days_beyond_first_week, fitted
from broodline.reports.season_lots import MOST_EGGS_OF_A_LOT, set_on
from broodline.reports.unchanged import MOST_KEPT, Unchanged
from broodline.trade.hatch_model import Eggs
from broodline.trade.sources import source_of
from broodline.trade.storage import COMMERCIAL_PER_DAY, OWN_EGGS_NEEDED

Z_95 = 1.96


def own_storage_json(standing: Standing) -> dict[str, Any]:
    """{own: {points_per_day, low, high} or None, eggs_beyond, eggs_within, needed, commercial_per_day, source, words}.

    Over the settings of all seasons that are over. Points of hatch of set for each day beyond seven; a loss is below 0.
    """
    eggs = _telling(standing)
    beyond = sum(one.n for one in eggs if one.held[0] > 0)
    within = sum(one.n for one in eggs if one.held[0] == 0)
    own = _own(eggs) if min(beyond, within) >= OWN_EGGS_NEEDED else None
    return {
        "own": own,
        "eggs_beyond": beyond,
        "eggs_within": within,
        "needed": OWN_EGGS_NEEDED,
        "commercial_per_day": -COMMERCIAL_PER_DAY.value,
        "source": source_of(COMMERCIAL_PER_DAY.source).title,
        "words": _words(own, beyond, within),
    }


def _telling(standing: Standing) -> list[Eggs]:
    """Eggs of known age in settings that held several ages and hatched in part, with the days held alike."""
    found: list[Eggs] = []
    for setting in standing.settings.values():
        lots = [standing.lots[name] for name in setting.lots]
        if setting.runs or len({(lot.laid_from, lot.laid_to) for lot in lots}) < 2:
            continue
        eggs = _eggs_of(Unchanged(setting, lots), set_on(setting, standing.keeper.zone))
        several = len({one.held for one in eggs}) > 1
        if several and 0 < sum(one.hatched for one in eggs) < sum(one.n for one in eggs):
            found += eggs
    return sorted(found, key=lambda one: (one.setting, one.held, one.family, one.hatched, one.n))


@lru_cache(maxsize=MOST_KEPT)
def _eggs_of(those: Unchanged, on: date) -> tuple[Eggs, ...]:
    """What is known of the age and the hatch of lots that were set on a day; counts that do not fit are left out."""
    found = []
    for lot in those.lots:
        days, counts = days_beyond_first_week(lot, on), hatched_of_set(lot)
        if days is not None and counts is not None and lot.n <= MOST_EGGS_OF_A_LOT:
            found.append(Eggs(lot.family or "", those.setting.id, *counts, (days,)))
    return tuple(found)


def _own(eggs: Sequence[Eggs]) -> dict[str, float] | None:
    """The effect of a day, turned from log odds into points at the holding's own rate."""
    model = fitted(tuple(eggs))
    if model is None:
        return None
    share = sum(one.hatched for one in eggs) / sum(one.n for one in eggs)
    points = 100 * share * (1 - share)
    slope, error = model.held[0], model.errors[0]
    return {
        "points_per_day": points * slope,
        "low": points * (slope - Z_95 * error),
        "high": points * (slope + Z_95 * error),
    }


def _words(own: dict[str, float] | None, beyond: int, within: int) -> str:
    average = (
        f"Commercial flocks lose on average {COMMERCIAL_PER_DAY.value:g} points of hatch with each day of keeping "
        "beyond a week"
    )
    if own is None and min(beyond, within) >= OWN_EGGS_NEEDED:
        return f"{average}. The {beyond} eggs kept longer and {within} kept less here fit no such figure."
    if own is None:
        return (
            f"{average}. For a figure of your own it takes {OWN_EGGS_NEEDED} eggs kept over a week and "
            f"{OWN_EGGS_NEEDED} kept less in the same settings; so far there are {beyond} and {within}."
        )
    sure = own["high"] < 0
    return (
        f"{average}. Here {beyond} eggs kept longer, beside {within} kept less, "
        f"{'lost' if own['points_per_day'] < 0 else 'gained'} {abs(own['points_per_day']):.1f} points a day "
        f"(likely {own['low']:.1f} to {own['high']:.1f})" + ("." if sure else ", which may be chance.")
    )
