"""Times as they stand in entries: text in, whole milliseconds since 1970 (UTC) inside.

Mirrored in pwa/src/book/moments.ts.
"""

import re
from datetime import UTC, date, datetime, timedelta

MINUTE_MS = 60_000
HOUR_MS = 60 * MINUTE_MS
DAY_MS = 24 * HOUR_MS
SKEW_THAT_MATTERS_MS = 120_000

_MOMENT = re.compile(
    r"([0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2})(?::([0-9]{2})(?:\.([0-9]{1,9}))?)?(Z|[+-][0-9]{2}:[0-9]{2})"
)
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_EPOCH = datetime(1970, 1, 1)  # noqa: DTZ001 (reckoned without a zone so that no year overflows)
_MILLISECOND = timedelta(milliseconds=1)
_EARLIEST_MS = (datetime(1, 1, 2) - _EPOCH) // _MILLISECOND  # noqa: DTZ001
_LATEST_MS = (datetime(9999, 12, 30) - _EPOCH) // _MILLISECOND  # noqa: DTZ001


def moment_ms(text: str) -> int:
    """Milliseconds since 1970-01-01T00:00Z of an ISO 8601 time with Z or an offset; finer digits are cut off.

    Raises ValueError where there is no such time.
    """
    found = _MOMENT.fullmatch(text)
    if found is None:
        raise ValueError("not a time with a zone, such as 2026-03-08T19:40:00Z")
    minute, seconds, fraction, offset = found.groups()
    whole = datetime.fromisoformat(f"{minute}:{seconds or '00'}")
    ms = (whole - _EPOCH) // _MILLISECOND + int((fraction or "0").ljust(3, "0")[:3])
    if offset == "Z":
        return ms
    hours, minutes = int(offset[1:3]), int(offset[4:6])
    if hours > 23 or minutes > 59:
        raise ValueError("no such offset")
    ahead = hours * HOUR_MS + minutes * MINUTE_MS
    return ms - ahead if offset[0] == "+" else ms + ahead


def day_of_text(text: str) -> date:
    """A calendar day from YYYY-MM-DD. Raises ValueError where there is no such day."""
    if _DAY.fullmatch(text) is None:
        raise ValueError("not a day such as 2026-03-08")
    return date.fromisoformat(text)


def instant(ms: int) -> datetime:
    """The UTC time of so many milliseconds since 1970; years beyond 1 to 9999 are held at their edge."""
    held = min(max(ms, _EARLIEST_MS), _LATEST_MS)
    return datetime(1970, 1, 1, tzinfo=UTC) + timedelta(milliseconds=held)


def happened_ms(at: str, skew_ms: int | None) -> int:
    """When an entry happened: the phone's clock, set right by its known skew where that is over two minutes.

    at: as an envelope has it, whole seconds or finer with Z (wire.py has looked). A skew that leads out of the calendar
    (years 1 to 9999) is held at its edge.
    """
    # What moment_ms would find, without its pattern: every entry of a long book comes by here.
    ms = (datetime.fromisoformat(at[:19]) - _EPOCH) // _MILLISECOND + int((at[20:-1] or "0").ljust(3, "0")[:3])
    if skew_ms is not None and abs(skew_ms) > SKEW_THAT_MATTERS_MS:
        return min(max(ms + skew_ms, _EARLIEST_MS), _LATEST_MS)
    return ms
