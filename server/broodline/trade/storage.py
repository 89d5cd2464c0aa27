"""What keeping eggs before setting costs: the average of commercial broiler flocks, to be shown as just that.

Mirrored in pwa/src/trade/storage.ts over tests/vectors/storage.json.

>>> [round(storage_points(days), 1) for days in (7, 10, 14)]
[1.4, 2.9, 4.9]
>>> storage_points(15) is None
True
"""

from broodline.trade.sources import cell, read_table

_TABLE = read_table("storage")
_FIRST_WEEK = cell(_TABLE["per_day_first_week"]).value
_SECOND_WEEK = cell(_TABLE["per_day_second_week"]).value
FIRST_WEEK_DAYS = 7
READ_UP_TO_DAYS = cell(_TABLE["read_up_to"]).value
COMMERCIAL_PER_DAY = cell(_TABLE["per_day_second_week"])
OWN_EGGS_NEEDED = int(cell(_TABLE["own_eggs_needed"]).value)


def storage_points(days: float) -> float | None:
    """Points of hatch of set lost after so many days of storage; None for less than none or beyond 14 days.

    Yassin et al. 2008, Poult. Sci. 87:2408: 0.2 points a day in the first week, 0.5 in the second.
    """
    if not 0 <= days <= READ_UP_TO_DAYS:
        return None
    return float(_FIRST_WEEK * min(days, FIRST_WEEK_DAYS) + _SECOND_WEEK * max(0.0, days - FIRST_WEEK_DAYS))
