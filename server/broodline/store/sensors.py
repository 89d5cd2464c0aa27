"""Thermometers that may write the air of one place. Their tokens are kept only as SHA-256."""

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from broodline.errors import NotFound
from broodline.store.database import reading, writing
from broodline.store.devices import fingerprint

COMPARED_MS = 8 * 24 * 3600 * 1000  # longer than a thermometer may bring readings late (sync/sensors.py)

_COLUMNS = "id, place, name, created_ms, heard_ms, revoked_ms"


@dataclass(frozen=True, slots=True)
class Sensor:
    """place: the only one it writes of. Times in milliseconds since 1970, UTC; heard_ms: None before its first word."""

    id: str
    place: str
    name: str
    created_ms: int
    heard_ms: int | None
    revoked_ms: int | None

    @property
    def device(self) -> str:
        """Who its entries are by."""
        return f"sensor:{self.id}"


@dataclass(frozen=True, slots=True)
class Kept:
    """A reading that was kept of a place. band: where it lay (reports/air_alarm.py); None where no band is known."""

    at_ms: int
    band: str | None


class Sensors:
    """Thermometers behind one connection."""

    def __init__(self, connection: sqlite3.Connection, now_ms: Callable[[], int]) -> None:
        self._connection = connection
        self._now_ms = now_ms

    def add(self, sensor_id: str, place: str, name: str, token: str) -> Sensor:
        """Write a new one down."""
        now_ms = self._now_ms()
        with writing(self._connection):
            self._connection.execute(
                "INSERT INTO sensors (id, place, name, token_sha256, created_ms) VALUES (?, ?, ?, ?, ?)",
                (sensor_id, place, name, fingerprint(token), now_ms),
            )
        return Sensor(sensor_id, place, name, now_ms, None, None)

    def all(self) -> list[Sensor]:
        """Every one, revoked ones included, the oldest first."""
        with reading(self._connection):
            rows = self._connection.execute(f"SELECT {_COLUMNS} FROM sensors ORDER BY created_ms, id").fetchall()
        return [Sensor(*row) for row in rows]

    def by_token(self, token: str) -> Sensor | None:
        """The one that holds this token, unless it was revoked."""
        with reading(self._connection):
            row = self._connection.execute(
                f"SELECT {_COLUMNS} FROM sensors WHERE token_sha256 = ? AND revoked_ms IS NULL", (fingerprint(token),)
            ).fetchone()
        return Sensor(*row) if row else None

    def revoke(self, sensor_id: str) -> Sensor:
        """Take its word no longer; the time of the first revocation stays. Raises NotFound."""
        with writing(self._connection):
            row: tuple[Any, ...] | None = self._connection.execute(
                f"UPDATE sensors SET revoked_ms = coalesce(revoked_ms, ?) WHERE id = ? RETURNING {_COLUMNS}",
                (self._now_ms(), sensor_id),
            ).fetchone()
        if row is None:
            raise NotFound(f"No thermometer has the id {sensor_id}.", remedy="`broodline sensors list` lists them.")
        return Sensor(*row)

    def nearest_kept(self, place: str, at_ms: int) -> Kept | None:
        """What was kept of a place nearest to a moment, by whichever thermometer; of two as near the earlier."""
        with reading(self._connection):
            row = self._connection.execute(
                "SELECT at_ms, band FROM kept_readings WHERE place = ? ORDER BY abs(at_ms - ?), at_ms LIMIT 1",
                (place, at_ms),
            ).fetchone()
        return None if row is None else Kept(*row)

    def heard(self, sensor: Sensor) -> None:
        """Note that it spoke."""
        with writing(self._connection):
            self._connection.execute("UPDATE sensors SET heard_ms = ? WHERE id = ?", (self._now_ms(), sensor.id))

    def keep(self, place: str, kept: Kept) -> None:
        """Note a reading that went into the book. Those older than any that can still come are forgotten."""
        with writing(self._connection):
            self._connection.execute("DELETE FROM kept_readings WHERE at_ms < ?", (self._now_ms() - COMPARED_MS,))
            self._connection.execute(
                "INSERT OR REPLACE INTO kept_readings (place, at_ms, band) VALUES (?, ?, ?)",
                (place, kept.at_ms, kept.band),
            )
