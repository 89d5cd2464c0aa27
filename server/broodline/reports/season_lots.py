"""A lot of a season with its setting, what became of it, and how old its eggs were when they were set."""

from dataclasses import dataclass
from datetime import date

from broodline.book.moments import instant
from broodline.book.standing import Lot, Setting
from broodline.reports.rates import Outcome
from broodline.trade.calendar import local_date


@dataclass(frozen=True, slots=True)
class SeasonLot:
    """setting: the one it was set in. outcome: its rates, not sound where its counts do not fit."""

    setting: Setting
    lot: Lot
    outcome: Outcome

    @property
    def is_over(self) -> bool:
        """Whether its eggs count in comparisons: the setting no longer runs and the counts fit."""
        return not self.setting.runs and self.outcome.sound


def egg_age_days(lot: SeasonLot, zone: str) -> int | None:
    """Age in days of the oldest egg on the day of setting; None where no day of laying is known, or it lies later."""
    return _age_days(lot, lot.lot.laid_from or lot.lot.laid_to, zone)


def middle_age_days(lot: SeasonLot, zone: str) -> float | None:
    """Age in days of the eggs on the day of setting, half way between the first and the last laid; None as above."""
    oldest = egg_age_days(lot, zone)
    youngest = _age_days(lot, lot.lot.laid_to or lot.lot.laid_from, zone)
    return None if oldest is None or youngest is None else (oldest + youngest) / 2


def _age_days(lot: SeasonLot, laid: str | None, zone: str) -> int | None:
    if laid is None:
        return None
    set_on = date.fromisoformat(local_date(instant(lot.setting.set_at_ms), zone))
    age = (set_on - date.fromisoformat(laid)).days
    return age if age >= 0 else None
