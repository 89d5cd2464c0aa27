"""A lot of a season with its setting, what became of it, and how old its eggs were when they were set."""

from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from broodline.book.moments import instant
from broodline.book.standing import Lot, Setting
from broodline.reports.rates import Outcome
from broodline.trade.calendar import local_date

MOST_EGGS_OF_A_LOT = 10_000


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
    return _age_days(lot.lot.laid_from or lot.lot.laid_to, set_on(lot.setting, zone))


def middle_age_days(lot: Lot, on: date) -> float | None:
    """Age in days of a lot's eggs on a day, half way between the first and the last laid; None as above."""
    oldest = _age_days(lot.laid_from or lot.laid_to, on)
    youngest = _age_days(lot.laid_to or lot.laid_from, on)
    return None if oldest is None or youngest is None else (oldest + youngest) / 2


def set_on(setting: Setting, zone: str) -> date:
    """The day of setting by the holding's calendar."""
    return _day_of(setting.set_at_ms, zone)


@lru_cache(maxsize=20_000)
def _day_of(at_ms: int, zone: str) -> date:
    return date.fromisoformat(local_date(instant(at_ms), zone))


def _age_days(laid: str | None, on: date) -> int | None:
    if laid is None:
        return None
    age = (on - date.fromisoformat(laid)).days
    return age if age >= 0 else None
