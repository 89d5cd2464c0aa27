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


def season_planned(date: str, starts_in_month: int) -> int:
    """The season whose pens are put together on a date: this one in its first half, the next one in its second.

    Pens stand some weeks before the first eggs are set, in the last months before a season or its first ones. Plans
    and the moves of males must not change between: they change where the young of a season have yet to be chosen from.

    >>> season_planned("2026-12-30", 1), season_planned("2027-01-03", 1), season_planned("2027-07-01", 1)
    (2027, 2027, 2028)
    >>> season_planned("2027-01-01", 7), season_planned("2027-12-31", 7), season_planned("2028-01-01", 7)
    (2027, 2027, 2028)
    """
    months_in = (int(date[5:7]) - starts_in_month) % 12
    return season_year(date, starts_in_month) + (months_in >= 6)


def season_of(standing: Standing, at_ms: int) -> int:
    """The season of a moment by the holding's calendar; January starts it unless the keeper chose another month."""
    return season_year(local_date(instant(at_ms), standing.keeper.zone), standing.keeper.season_starts or 1)
