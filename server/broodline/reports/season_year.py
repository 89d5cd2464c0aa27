"""The season a day falls in: named by the year it starts in, starting in the keeper's month."""

from broodline.book.moments import instant
from broodline.book.standing import Standing
from broodline.trade.calendar import local_date


def season_year(date: str, starts_in_month: int) -> int:
    """The season a date YYYY-MM-DD falls in, named by the year it starts in.

    >>> season_year("2027-02-01", 7), season_year("2027-07-01", 7), season_year("2027-02-01", 1)
    (2026, 2027, 2027)
    """
    year, month = int(date[:4]), int(date[5:7])
    return year if month >= starts_in_month else year - 1


def season_of(standing: Standing, at_ms: int) -> int:
    """The season of a moment by the holding's calendar; January starts it unless the keeper chose another month."""
    return season_year(local_date(instant(at_ms), standing.keeper.zone), standing.keeper.season_starts or 1)
