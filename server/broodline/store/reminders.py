"""Where each device is reminded, of what, and what it was already sent, so that nothing is sent twice."""

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass

from broodline.store.database import reading, writing

REMEMBERED_MS = 60 * 24 * 3600 * 1000  # long after a reminder could be sent again

_COLUMNS = (
    "s.device, d.name, s.endpoint, s.p256dh, s.auth, s.origin, s.wishes, s.since_ms, s.ended_ms,"
    " s.told_ms, s.told_well, s.outcome"
)


@dataclass(frozen=True, slots=True)
class Subscription:
    """A device's address at its browser's push service. Times in milliseconds since 1970, UTC.

    p256dh, auth: the browser's public key and secret. origin: how this phone writes the server. wishes: JSON text.
    ended_ms: when the push service said it is no more. told_ms, told_well, outcome: the last message, whether it was
    taken, and what became of it in words.
    """

    device: str
    name: str
    endpoint: str
    p256dh: bytes
    auth: bytes
    origin: str
    wishes: str
    since_ms: int
    ended_ms: int | None
    told_ms: int | None
    told_well: int | None
    outcome: str | None


class Reminders:
    """Subscriptions and sent reminders behind one connection."""

    def __init__(self, connection: sqlite3.Connection, now_ms: Callable[[], int]) -> None:
        self._connection = connection
        self._now_ms = now_ms

    def subscribe(self, device: str, endpoint: str, p256dh: bytes, auth: bytes, origin: str, wishes: str) -> None:
        """Write down where a device is reminded; in the place of what it said before. A browser that was paired
        again has one address under two devices: only the newer is reminded."""
        now_ms = self._now_ms()
        with writing(self._connection):
            self._connection.execute("DELETE FROM subscriptions WHERE endpoint = ? AND device <> ?", (endpoint, device))
            self._connection.execute(
                "INSERT INTO subscriptions VALUES (?, ?, ?, ?, ?, ?, ?, ?, NULL, NULL, NULL, NULL)"
                " ON CONFLICT (device) DO UPDATE SET"
                " told_well = iif(endpoint = excluded.endpoint, told_well, NULL),"
                " outcome = iif(endpoint = excluded.endpoint, outcome, NULL), endpoint = excluded.endpoint,"
                " p256dh = excluded.p256dh, auth = excluded.auth, origin = excluded.origin,"
                " wishes = excluded.wishes, seen_ms = excluded.seen_ms, ended_ms = NULL",
                (device, endpoint, p256dh, auth, origin, wishes, now_ms, now_ms),
            )

    def inherit(self, device: str, endpoint: str) -> None:
        """Let a browser that was paired again go on as it was: what another device asked for and was sent at this
        address becomes this one's, unless it has asked for something itself."""
        with writing(self._connection):
            row = self._connection.execute(
                "SELECT device FROM subscriptions WHERE endpoint = ? AND device <> ?"
                " AND NOT EXISTS (SELECT 1 FROM subscriptions WHERE device = ?)",
                (endpoint, device, device),
            ).fetchone()
            if row is not None:
                self._connection.execute("UPDATE subscriptions SET device = ? WHERE device = ?", (device, *row))
                self._connection.execute("UPDATE OR IGNORE reminders SET device = ? WHERE device = ?", (device, *row))

    def unsubscribe(self, device: str) -> None:
        """No more reminders for this device. One that has none stays as it is."""
        with writing(self._connection):
            self._connection.execute("DELETE FROM subscriptions WHERE device = ?", (device,))

    def of(self, device: str) -> Subscription | None:
        """Where one device is reminded."""
        with reading(self._connection):
            row = self._connection.execute(
                f"SELECT {_COLUMNS} FROM subscriptions s JOIN devices d ON d.id = s.device WHERE s.device = ?",
                (device,),
            ).fetchone()
        return Subscription(*row) if row else None

    def to_remind(self) -> list[Subscription]:
        """All that can be reminded: of devices still paired, at addresses that have not ended."""
        with reading(self._connection):
            rows = self._connection.execute(
                f"SELECT {_COLUMNS} FROM subscriptions s JOIN devices d ON d.id = s.device"
                " WHERE s.ended_ms IS NULL AND d.revoked_ms IS NULL ORDER BY d.created_ms, d.id"
            ).fetchall()
        return [Subscription(*row) for row in rows]

    def settled(self, device: str) -> set[str]:
        """Keys of reminders that are sent, given up, or not to be tried again yet."""
        with reading(self._connection):
            rows = self._connection.execute(
                "SELECT key FROM reminders WHERE device = ? AND (done OR next_ms > ?)", (device, self._now_ms())
            ).fetchall()
        return {row[0] for row in rows}

    def tries(self, device: str, key: str) -> int:
        """How often a reminder was tried."""
        with reading(self._connection):
            row = self._connection.execute(
                "SELECT tries FROM reminders WHERE device = ? AND key = ?", (device, key)
            ).fetchone()
        return row[0] if row else 0

    def note(self, device: str, key: str, outcome: str, *, done: bool, wait_ms: int = 0) -> None:
        """Write down what became of a reminder. wait_ms: until the next try. Old ones are forgotten."""
        now_ms = self._now_ms()
        with writing(self._connection):
            self._connection.execute("DELETE FROM reminders WHERE next_ms < ?", (now_ms - REMEMBERED_MS,))
            self._connection.execute(
                "INSERT INTO reminders VALUES (?, ?, ?, 1, ?, ?) ON CONFLICT (device, key) DO UPDATE SET"
                " outcome = excluded.outcome, tries = tries + 1, done = excluded.done, next_ms = excluded.next_ms",
                (device, key, outcome, int(done), now_ms + wait_ms),
            )

    def told(self, subscription: Subscription, outcome: str, *, well: bool, ended: bool) -> None:
        """Write down what a message to a device came to. ended: forget its address, keep its wishes. An address that
        the device has replaced meanwhile is not touched."""
        now_ms = self._now_ms()
        with writing(self._connection):
            self._connection.execute(
                "UPDATE subscriptions SET told_ms = ?, told_well = ?, outcome = ? WHERE device = ? AND endpoint = ?",
                (now_ms, int(well), outcome, subscription.device, subscription.endpoint),
            )
            if ended:
                self._connection.execute(
                    "UPDATE subscriptions SET ended_ms = ?, endpoint = '', p256dh = x'', auth = x''"
                    " WHERE device = ? AND endpoint = ?",
                    (now_ms, subscription.device, subscription.endpoint),
                )
