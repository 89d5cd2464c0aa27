"""The whole book, or the eggs of one season, as sheets: what counts now, one thing a row, ids to join them by.

Corrections and what was taken back are in the JSON lines only.
"""

from collections.abc import Set

from broodline.book.moments import DAY_MS
from broodline.book.standing import Standing
from broodline.exchange.egg_sheets import egg_sheets
from broodline.exchange.flock_sheets import flock_sheets
from broodline.exchange.holding_sheets import holding_sheets
from broodline.exchange.room_sheets import room_sheets
from broodline.exchange.round_sheets import round_sheets
from broodline.exchange.sheet import Sheet

_OF_A_SEASON = frozenset(
    (
        *("settings", "batches", "looks", "moves", "counts", "eggs_weighed", "families", "places", "air"),
        *("rounds", "gauge_checks"),
    )
)
_LONGEST_MS = 70 * DAY_MS  # the longest of ours, emu, sit some 50 days; the last looks come after


def book_sheets(standing: Standing) -> list[Sheet]:
    """All sheets, also those without rows."""
    return _sheets(standing, None)


def season_sheets(standing: Standing, settings: Set[str]) -> list[Sheet]:
    """What belongs to these settings, with all families and places; of machines what was read and done from a setting
    to 70 days after."""
    return [sheet for sheet in _sheets(standing, settings) if sheet.name in _OF_A_SEASON]


def _sheets(standing: Standing, settings: Set[str] | None) -> list[Sheet]:
    begun = [one.set_at_ms for one in standing.settings.values() if one.id in (settings or ())]

    def within(at_ms: int) -> bool:
        return settings is None or any(first <= at_ms <= first + _LONGEST_MS for first in begun)

    return [
        *egg_sheets(standing, settings),
        *flock_sheets(standing),
        *room_sheets(standing, within),
        *round_sheets(standing, within),
        *holding_sheets(standing),
    ]
