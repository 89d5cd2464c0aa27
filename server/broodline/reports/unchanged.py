"""What was worked out of lots and settings that are over, kept between reports.

The fold hands out the very same lot and setting until an entry concerns them, and neither ever changes. So what follows
from them alone is worked out once; the earlier seasons of a long book are most of it.
"""

from collections.abc import Iterable, Sequence
from functools import lru_cache

from broodline.book.standing import Lot, Move, Setting
from broodline.reports.first_week import WEEK_MS
from broodline.reports.rates import Outcome, lot_outcome, setting_outcome

MOST_KEPT = 20_000


class Unchanged:
    """A setting and lots of it, alike only to the very same ones. Whoever keeps it keeps them: no id comes again."""

    __slots__ = ("_hash", "lots", "setting")

    def __init__(self, setting: Setting, lots: Iterable[Lot]) -> None:
        self.setting = setting
        self.lots = tuple(lots)
        self._hash = hash((id(setting), *map(id, self.lots)))

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, Unchanged)
            and self.setting is other.setting
            and len(self.lots) == len(other.lots)
            and all(one is another for one, another in zip(self.lots, other.lots, strict=True))
        )


def kept_lot_outcome(lot: Lot, setting: Setting, now_ms: int) -> Outcome:
    """As `lot_outcome`, worked out once where the setting is over and every chick's first week too."""
    if not setting.runs:
        over_ms, outcome = _lot_in_the_end(Unchanged(setting, (lot,)))
        if now_ms >= over_ms:
            return outcome
    return lot_outcome(lot, setting, now_ms)


def kept_setting_outcome(setting: Setting, lots: Sequence[Lot], now_ms: int) -> Outcome:
    """As `setting_outcome`, worked out once where the setting is over and every chick's first week too."""
    if not setting.runs:
        over_ms, outcome = _setting_in_the_end(Unchanged(setting, lots))
        if now_ms >= over_ms:
            return outcome
    return setting_outcome(setting, lots, now_ms)


@lru_cache(maxsize=MOST_KEPT)
def _lot_in_the_end(one: Unchanged) -> tuple[int, Outcome]:
    """(from when it holds, the outcome)."""
    over_ms = _weeks_over(one.lots[0].moves)
    return over_ms, lot_outcome(one.lots[0], one.setting, over_ms)


@lru_cache(maxsize=MOST_KEPT)
def _setting_in_the_end(one: Unchanged) -> tuple[int, Outcome]:
    over_ms = _weeks_over([*one.setting.among, *(move for lot in one.lots for move in lot.moves)])
    return over_ms, setting_outcome(one.setting, one.lots, over_ms)


def _weeks_over(moves: Iterable[Move]) -> int:
    """When the first week of every chick these moves tell of is over."""
    return max((move.at_ms for move in moves), default=0) + WEEK_MS
