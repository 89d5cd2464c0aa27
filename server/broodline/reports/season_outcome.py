"""What became of some of a season's lots together, whichever a report puts side by side.

Of chicks whose family nobody knows a lot is only told up to how many more it may have. A group that holds every lot
they may be of knows them: there they count.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from broodline.reports.egg_counts import count_beside
from broodline.reports.rates import Outcome, add_outcomes, rates_json
from broodline.reports.season_lots import SeasonLot
from broodline.reports.unchanged import kept_setting_outcome


def outcome_of(lots: Sequence[SeasonLot], now_ms: int) -> Outcome:
    """Outcomes of lots added up, a setting that is whole among them as one; those whose counts do not fit left out.

    open: of each egg or chick of unknown family once, however many of these lots it may be of.
    """
    if not any(lot.setting.among for lot in lots):
        return add_outcomes([lot.outcome for lot in lots])
    by_setting: dict[str, list[SeasonLot]] = {}
    for lot in lots:
        by_setting.setdefault(lot.setting.id, []).append(lot)
    return add_outcomes([part for own in by_setting.values() for part in _of_setting(own, now_ms)])


def group_json(lots: Sequence[SeasonLot], now_ms: int) -> dict[str, Any]:
    """{set, fertility, hatch_of_set, hatch_of_fertile, alive_7d} of lots together."""
    return {"set": sum(lot.lot.n for lot in lots), **rates_json(outcome_of(lots, now_ms))}


def _of_setting(own: Sequence[SeasonLot], now_ms: int) -> Sequence[Outcome]:
    setting = own[0].setting
    apart = [lot.outcome for lot in own if lot.outcome.sound]
    if not setting.among or len(own) == 1:
        return apart
    by_id = {lot.lot.id: lot.lot for lot in own if lot.outcome.sound}
    if by_id.keys() >= set(setting.lots):
        whole = kept_setting_outcome(setting, [by_id[name] for name in setting.lots], now_ms)
        if whole.sound:
            return [whole]
    beside = count_beside(move for move in setting.among if not by_id.keys().isdisjoint(move.among))
    summed = add_outcomes(apart)
    return [
        replace(
            summed,
            fertility=replace(summed.fertility, open=min(summed.fertility.open, beside.fertility)),
            hatch_of_set=replace(summed.hatch_of_set, open=min(summed.hatch_of_set.open, beside.hatch_of_set)),
            hatch_of_fertile=replace(
                summed.hatch_of_fertile, open=min(summed.hatch_of_fertile.open, beside.hatch_of_fertile)
            ),
            alive_7d=replace(summed.alive_7d, open=min(summed.alive_7d.open, beside.alive_7d)),
        )
    ]
