"""What the id of an entry tells of where it came from: rows of a keeper's table, not an act in the app.

An id's first 48 bits are milliseconds since 1970. Those that rows of a table get are of noon of the row's day, to the
millisecond; no phone's clock falls on it but once in 86 million times.
"""

from datetime import UTC, date, datetime, time

UNDATED = date(2000, 1, 1)
UNNAMED_MACHINE = date(2000, 1, 2)  # of the one machine of all past hatches whose rows name none
FOUNDED_BY_HATCHES = date(2000, 1, 3)  # of families that only rows of past hatches name
_DAY_MS = 86_400_000


def noon_ms(day: date) -> int:
    """Milliseconds since 1970 of noon, UTC.

    >>> noon_ms(UNNAMED_MACHINE)
    946814400000
    """
    return int(datetime.combine(day, time(12), UTC).timestamp()) * 1000


def is_imported(entry_id: str) -> bool:
    """Whether rows of a table founded it."""
    at = _ms_of(entry_id)
    return at is not None and at % _DAY_MS == _DAY_MS // 2


def is_unnamed_machine(place_id: str) -> bool:
    """Whether it stands for whatever machine hatched the eggs of rows that name none: nobody sets eggs in it."""
    return is_of(place_id, UNNAMED_MACHINE)


def is_of(entry_id: str, day: date) -> bool:
    """Whether rows of a table founded it, of that day."""
    return _ms_of(entry_id) == noon_ms(day)


def _ms_of(entry_id: str) -> int | None:
    try:
        return int(entry_id[:8] + entry_id[9:13], 16)
    except ValueError:
        return None
