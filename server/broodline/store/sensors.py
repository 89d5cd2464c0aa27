"""Thermometers that may write the air of one place. Their tokens are kept only as SHA-256."""

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from broodline.errors import NotFound
from broodline.store.database import reading, writing
from broodline.store.devices import fingerprint

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
    """The reading of a place that was last kept. beyond: whether it lay outside the band; None where none is known."""

    at_ms: int
    beyond: bool | None


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
                "INSERT INTO sensors VALUES (?, ?, ?, ?, ?, NULL, NULL, NULL, NULL, NULL)",
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

    def last_kept(self, place: str) -> Kept | None:
        """What was last kept of a place, by whichever thermometer."""
        with reading(self._connection):
            row = self._connection.execute(
                "SELECT kept_at_ms, kept_beyond FROM sensors WHERE place = ? AND kept_at_ms IS NOT NULL"
                " ORDER BY kept_ms DESC LIMIT 1",
                (place,),
            ).fetchone()
        return None if row is None else Kept(row[0], None if row[1] is None else bool(row[1]))

    def heard(self, sensor: Sensor, kept: Kept | None = None) -> None:
        """Note that it spoke, and what of it was kept."""
        now_ms = self._now_ms()
        with writing(self._connection):
            self._connection.execute("UPDATE sensors SET heard_ms = ? WHERE id = ?", (now_ms, sensor.id))
            if kept is not None:
                beyond = None if kept.beyond is None else int(kept.beyond)
                self._connection.execute(
                    "UPDATE sensors SET kept_ms = ?, kept_at_ms = ?, kept_beyond = ? WHERE id = ?",
                    (now_ms, kept.at_ms, beyond, sensor.id),
                )
