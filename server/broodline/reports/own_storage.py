"""What keeping eggs beyond a week cost on this holding, beside the average of commercial flocks.

All seasons together: settings in which eggs of different age lay beside each other, setting and family held alike.
Shown only once there are enough such eggs, and always with its interval.
"""

from collections.abc import Sequence
from typing import Any

from broodline.book.standing import Setting, Standing
from broodline.reports.season_adjusted import days_beyond_first_week, fitted
from broodline.reports.season_lots import SeasonLot
from broodline.trade.hatch_model import Eggs
from broodline.trade.sources import source_of
from broodline.trade.storage import COMMERCIAL_PER_DAY, OWN_EGGS_NEEDED

Z_95 = 1.96


def settings_of_several_ages(standing: Standing) -> list[Setting]:
    """Settings of all seasons that can say what keeping costs: with eggs laid at different times, as far as known."""
    found = []
    for setting in standing.settings.values():
        lots = (standing.lots[name] for name in setting.lots)
        if len({(lot.laid_from, lot.laid_to) for lot in lots if lot.laid_from or lot.laid_to}) > 1:
            found.append(setting)
    return found


def own_storage_json(lots: Sequence[SeasonLot], zone: str) -> dict[str, Any]:
    """{own: {points_per_day, low, high} or None, eggs_beyond, eggs_within, needed, commercial_per_day, source, words}.

    lots: of settings that are over, of any season. Points of hatch of set for each day beyond seven; a loss is below 0.
    """
    eggs = _telling(lots, zone)
    beyond = sum(one.n for one in eggs if one.design[-1] > 0)
    within = sum(one.n for one in eggs if one.design[-1] == 0)
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


def _telling(lots: Sequence[SeasonLot], zone: str) -> list[Eggs]:
    """Eggs of known age in settings that held several ages and hatched in part; the last column is the days."""
    by_setting: dict[str, list[tuple[SeasonLot, float]]] = {}
    for lot in lots:
        days = days_beyond_first_week(lot, zone)
        if days is not None:
            by_setting.setdefault(lot.setting.id, []).append((lot, days))
    kept = {
        setting: own
        for setting, own in sorted(by_setting.items())
        if len({days for _, days in own}) > 1
        and 0 < sum(lot.outcome.hatch_of_set.k for lot, _ in own) < sum(lot.outcome.hatch_of_set.n for lot, _ in own)
    }
    eggs = [
        Eggs(
            lot.lot.family or "",
            lot.outcome.hatch_of_set.k,
            lot.outcome.hatch_of_set.n,
            (*(float(setting == other) for other in kept), days),
        )
        for setting, own in kept.items()
        for lot, days in own
    ]
    return sorted(eggs, key=lambda one: (one.design, one.family, one.hatched, one.n))


def _own(eggs: Sequence[Eggs]) -> dict[str, float] | None:
    """The effect of a day, turned from log odds into points at the holding's own rate."""
    model = fitted(tuple(eggs))
    if model is None:
        return None
    share = sum(one.hatched for one in eggs) / sum(one.n for one in eggs)
    points = 100 * share * (1 - share)
    slope, error = model.effects[-1], model.errors[-1]
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
