"""The whole book, or the eggs of one season, as sheets: what counts now, one thing a row, ids to join them by.

Corrections and what was taken back are in the JSON lines only.
"""

from collections.abc import Set

from broodline.book.standing import Standing
from broodline.exchange.egg_sheets import egg_sheets
from broodline.exchange.flock_sheets import flock_sheets
from broodline.exchange.room_sheets import room_sheets
from broodline.exchange.sheet import Sheet

_OF_A_SEASON = frozenset(
    ("settings", "batches", "looks", "moves", "counts", "eggs_weighed", "families", "places", "air")
)


def book_sheets(standing: Standing) -> list[Sheet]:
    """All sheets, also those without rows."""
    return _sheets(standing, None)


def season_sheets(standing: Standing, settings: Set[str]) -> list[Sheet]:
    """What belongs to these settings, with all families and places."""
    return [sheet for sheet in _sheets(standing, settings) if sheet.name in _OF_A_SEASON]


def _sheets(standing: Standing, settings: Set[str] | None) -> list[Sheet]:
    return [*egg_sheets(standing, settings), *flock_sheets(standing), *room_sheets(standing, settings)]
