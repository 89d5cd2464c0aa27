"""Days and times as the keeper's region writes them, for sentences and papers; tables of the command line keep ISO."""

import re
from datetime import date

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_DAY = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(?: ([0-9]{2}:[0-9]{2}))?")


def day_told(day: date | str, region: str | None) -> str:
    """A calendar day in words. day: a date, or YYYY-MM-DD; a text that is no such day is given back as it is.

    >>> day_told("2026-05-01", "uk"), day_told("2026-05-01", "us"), day_told("soon", None)
    ('1 May 2026', 'May 1, 2026', 'soon')
    """
    if isinstance(day, str):
        try:
            return day_told(date.fromisoformat(day), region)
        except ValueError:
            return day
    month = _MONTHS[day.month - 1]
    return f"{month} {day.day}, {day.year}" if region == "us" else f"{day.day} {month} {day.year}"


def month_told(month: str) -> str:
    """A month in words.

    >>> month_told("2026-05")
    'May 2026'
    """
    return f"{date.fromisoformat(f'{month}-01'):%B} {int(month[:4])}"


def told_alone(text: str, region: str | None) -> str:
    """A text that is nothing but a day, or a day and a time, in words; any other as it is.

    >>> told_alone("2026-05-01 07:30", "uk"), told_alone("Ring 2026-05-01", "uk")
    ('1 May 2026, 07:30', 'Ring 2026-05-01')
    """
    found = _DAY.fullmatch(text)
    if found is None:
        return text
    day = day_told(found[1], region)
    return f"{day}, {found[2]}" if found[2] else day
