"""A lot of a season with its setting and what became of it."""

from dataclasses import dataclass

from broodline.book.standing import Lot, Setting
from broodline.reports.rates import Outcome


@dataclass(frozen=True, slots=True)
class SeasonLot:
    """setting: the one it was set in. outcome: its rates, not sound where its counts do not fit."""

    setting: Setting
    lot: Lot
    outcome: Outcome
