"""The calendar feeds: a secret address for each device that asked for one. Kept only as SHA-256."""

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass

from broodline.store.database import reading, writing
from broodline.store.devices import fingerprint

READ_EVERY_MS = 10 * 60 * 1000  # how often "last read" is worth a write


@dataclass(frozen=True, slots=True)
class CalendarFeed:
    """A device's feed. Times are milliseconds since 1970, UTC; read_ms: None until a calendar has read it."""

    device: str
    made_ms: int
    read_ms: int | None


class Calendars:
    """Feeds behind one connection."""

    def __init__(self, connection: sqlite3.Connection, now_ms: Callable[[], int]) -> None:
        self._connection = connection
        self._now_ms = now_ms

    def make(self, device: str, token: str) -> CalendarFeed:
        """Give a device a feed; an address it had before leads nowhere from now on."""
        now_ms = self._now_ms()
        with writing(self._connection):
            self._connection.execute(
                "INSERT OR REPLACE INTO calendars VALUES (?, ?, ?, NULL)", (device, fingerprint(token), now_ms)
            )
        return CalendarFeed(device, now_ms, None)

    def end(self, device: str) -> None:
        """No more feed for this device. One that has none stays as it is."""
        with writing(self._connection):
            self._connection.execute("DELETE FROM calendars WHERE device = ?", (device,))

    def of(self, device: str) -> CalendarFeed | None:
        """The feed of a device."""
        with reading(self._connection):
            row = self._connection.execute(
                "SELECT device, made_ms, read_ms FROM calendars WHERE device = ?", (device,)
            ).fetchone()
        return CalendarFeed(*row) if row else None

    def by_token(self, token: str) -> CalendarFeed | None:
        """The feed at this address, unless its device's pairing was revoked."""
        with reading(self._connection):
            row = self._connection.execute(
                "SELECT c.device, c.made_ms, c.read_ms FROM calendars c JOIN devices d ON d.id = c.device"
                " WHERE c.token_sha256 = ? AND d.revoked_ms IS NULL",
                (fingerprint(token),),
            ).fetchone()
        return CalendarFeed(*row) if row else None

    def is_read_lately(self, feed: CalendarFeed) -> bool:
        """Whether writing "last read" again is not worth it yet."""
        return feed.read_ms is not None and self._now_ms() - feed.read_ms < READ_EVERY_MS

    def read(self, feed: CalendarFeed) -> None:
        """Note that a calendar read it."""
        with writing(self._connection):
            self._connection.execute("UPDATE calendars SET read_ms = ? WHERE device = ?", (self._now_ms(), feed.device))
