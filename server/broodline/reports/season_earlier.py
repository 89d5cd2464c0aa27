"""The seasons before one, so that a season can be seen against them: all families together, and each by itself."""

from collections import defaultdict
from typing import Any

from broodline.book.standing import Setting, Standing
from broodline.reports.rates import Outcome, sum_of
from broodline.reports.season_lots import MOST_EGGS_OF_A_LOT, SeasonLot
from broodline.reports.season_outcome import group_json
from broodline.reports.season_year import season_of
from broodline.reports.unchanged import kept_lot_outcome

MOST_SEASONS = 5


def lots_before(standing: Standing, year: int, now_ms: int) -> dict[int, list[SeasonLot]]:
    """Season -> its lots in settings that are over, whose counts fit; the latest first, at most five seasons."""
    by_year: defaultdict[int, list[Setting]] = defaultdict(list)
    for setting in standing.settings.values():
        if not setting.runs and (found := season_of(standing, setting.set_at_ms)) < year:
            by_year[found].append(setting)
    seasons = {}
    for one in sorted(by_year, reverse=True)[:MOST_SEASONS]:
        lots = [
            SeasonLot(setting, standing.lots[name], kept_lot_outcome(standing.lots[name], setting, now_ms))
            for setting in by_year[one]
            for name in setting.lots
        ]
        if sound := [lot for lot in lots if lot.is_over and lot.lot.n <= MOST_EGGS_OF_A_LOT]:
            seasons[one] = sound
    return seasons


def earlier_seasons(before: dict[int, list[SeasonLot]], now_ms: int) -> list[dict[str, Any]]:
    """[{year, set, fertility, hatch_of_set, hatch_of_fertile, alive_7d, families}], the latest first.

    families: {family id: rate of hatch of set}. before: as `lots_before` gives them.
    """
    rows = []
    for year, lots in before.items():
        families: defaultdict[str, list[Outcome]] = defaultdict(list)
        for lot in lots:
            if lot.lot.family is not None:
                families[lot.lot.family].append(lot.outcome)
        rows.append(
            {
                "year": year,
                **group_json(lots, now_ms),
                "families": {
                    family: sum_of(outcome.hatch_of_set for outcome in families[family]).as_json()
                    for family in sorted(families)
                },
            }
        )
    return rows
