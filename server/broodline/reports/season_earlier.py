"""The seasons before one, so that a season can be seen against them: all families together, and each by itself."""

from collections import defaultdict
from typing import Any

from broodline.book.standing import Setting, Standing
from broodline.reports.rates import Outcome, add_outcomes, rates_json, sum_of
from broodline.reports.season_lots import SeasonLot
from broodline.reports.season_year import season_of
from broodline.reports.unchanged import kept_lot_outcome

MOST_SEASONS = 5


def earlier_seasons(standing: Standing, year: int, now_ms: int) -> list[dict[str, Any]]:
    """[{year, set, fertility, hatch_of_set, hatch_of_fertile, alive_7d, families}], the latest first, at most five.

    families: {family id: rate of hatch of set}. Settings that are over and whose counts fit; a season without any is
    left out.
    """
    by_year: defaultdict[int, list[Setting]] = defaultdict(list)
    for setting in standing.settings.values():
        if not setting.runs and (found := season_of(standing, setting.set_at_ms)) < year:
            by_year[found].append(setting)
    rows = []
    for one in sorted(by_year, reverse=True)[:MOST_SEASONS]:
        lots = [
            SeasonLot(setting, standing.lots[name], kept_lot_outcome(standing.lots[name], setting, now_ms))
            for setting in by_year[one]
            for name in setting.lots
        ]
        sound = [lot for lot in lots if lot.is_over]
        if sound:
            families: defaultdict[str, list[Outcome]] = defaultdict(list)
            for lot in sound:
                if lot.lot.family is not None:
                    families[lot.lot.family].append(lot.outcome)
            together = add_outcomes([lot.outcome for lot in sound])
            rows.append(
                {
                    "year": one,
                    "set": sum(lot.lot.n for lot in sound),
                    **rates_json(together),
                    "families": {
                        family: sum_of(outcome.hatch_of_set for outcome in families[family]).as_json()
                        for family in sorted(families)
                    },
                }
            )
    return rows
