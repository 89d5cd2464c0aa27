"""The devices that are paired with the book, and the one-time codes that pair them.

Tokens and codes are kept only as SHA-256: a stolen backup opens nothing.
"""

import hashlib
import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal, get_args

from broodline.errors import NotFound, WrongCode
from broodline.store.database import reading, writing

Role = Literal["keeper", "helper", "reader"]
ROLES: tuple[Role, ...] = get_args(Role)

WRONG_IN_ALL = 20  # wrong codes typed while a code is open, from any address; then it opens nothing any more
SEEN_EVERY_MS = 10 * 60 * 1000  # how often "last seen" is worth a write

_COLUMNS = "id, holding, name, role, created_ms, last_seen_ms, revoked_ms"


@dataclass(frozen=True, slots=True)
class Device:
    """A phone or computer that was paired. Times are milliseconds since 1970, UTC."""

    id: str
    holding: str
    name: str
    role: Role
    created_ms: int
    last_seen_ms: int
    revoked_ms: int | None


class Devices:
    """Devices and codes behind one connection."""

    def __init__(self, connection: sqlite3.Connection, now_ms: Callable[[], int]) -> None:
        self._connection = connection
        self._now_ms = now_ms

    def add(self, holding: str, device_id: str, name: str, role: Role, token: str) -> Device:
        """Write a new device down."""
        now_ms = self._now_ms()
        with writing(self._connection):
            self._connection.execute(
                "INSERT INTO devices VALUES (?, ?, ?, ?, ?, ?, ?, NULL)",
                (device_id, holding, name, role, fingerprint(token), now_ms, now_ms),
            )
        return Device(device_id, holding, name, role, now_ms, now_ms, None)

    def by_token(self, token: str) -> Device | None:
        """The device that holds this token, unless its pairing was revoked."""
        with reading(self._connection):
            row = self._connection.execute(
                f"SELECT {_COLUMNS} FROM devices WHERE token_sha256 = ? AND revoked_ms IS NULL",
                (fingerprint(token),),
            ).fetchone()
        return Device(*row) if row else None

    def all(self) -> list[Device]:
        """Every device, revoked ones included, the oldest first."""
        with reading(self._connection):
            rows = self._connection.execute(f"SELECT {_COLUMNS} FROM devices ORDER BY created_ms, id")
            return [Device(*row) for row in rows.fetchall()]

    def rename(self, device_id: str, name: str) -> Device:
        """Call a device otherwise. Raises NotFound."""
        with writing(self._connection):
            row = self._connection.execute(
                f"UPDATE devices SET name = ? WHERE id = ? RETURNING {_COLUMNS}", (name, device_id)
            ).fetchone()
        return _found(row, device_id)

    def revoke(self, device_id: str, *, lost: bool = False) -> Device:
        """End a pairing, and the codes it asked for that were not used yet; the time of the first revocation stays.
        lost: whoever has the device may also have read another's code on it: all open codes end. Raises NotFound."""
        with writing(self._connection):
            self._connection.execute("DELETE FROM codes WHERE ? OR invited_by = ?", (lost, device_id))
            row = self._connection.execute(
                f"UPDATE devices SET revoked_ms = coalesce(revoked_ms, ?) WHERE id = ? RETURNING {_COLUMNS}",
                (self._now_ms(), device_id),
            ).fetchone()
        return _found(row, device_id)

    def seen(self, device: Device) -> None:
        """Note that the device was here."""
        with writing(self._connection):
            self._connection.execute("UPDATE devices SET last_seen_ms = ? WHERE id = ?", (self._now_ms(), device.id))

    def is_seen_lately(self, device: Device) -> bool:
        """Whether writing "last seen" again is not worth it yet."""
        return self._now_ms() - device.last_seen_ms < SEEN_EVERY_MS

    def invite(self, holding: str, code: str, role: Role, lasts_ms: int, inviter: str | None = None) -> int:
        """Keep a one-time code; codes that ran out are forgotten. inviter: the device that asked for it. Returns the
        moment it runs out."""
        now_ms = self._now_ms()
        with writing(self._connection):
            self._connection.execute("DELETE FROM codes WHERE expires_ms <= ?", (now_ms,))
            self._connection.execute(
                "INSERT INTO codes (code_sha256, holding, role, expires_ms, invited_by) VALUES (?, ?, ?, ?, ?)",
                (fingerprint(code), holding, role, now_ms + lasts_ms, inviter),
            )
        return now_ms + lasts_ms

    def redeem(self, code: str) -> Role:
        """Use a code up and say which role it gives. A wrong one counts against each that is open. Raises WrongCode;
        a code works once."""
        with writing(self._connection):
            row = self._connection.execute(
                "DELETE FROM codes WHERE code_sha256 = ? RETURNING role, expires_ms", (fingerprint(code),)
            ).fetchone()
            if row is None:
                self._connection.execute("UPDATE codes SET wrong_tries = wrong_tries + 1")
                self._connection.execute("DELETE FROM codes WHERE wrong_tries >= ?", (WRONG_IN_ALL,))
        if row is None or row[1] <= self._now_ms():
            raise WrongCode("This code is wrong, was used before, ran out, or ended as too many wrong ones were typed.")
        role: Role = row[0]
        return role


def _found(row: tuple[Any, ...] | None, device_id: str) -> Device:
    if row is None:
        raise NotFound(f"No device has the id {device_id}.", remedy="`broodline devices` lists them.")
    return Device(*row)


def fingerprint(secret: str) -> str:
    """What is kept of a token or a code: SHA-256, in hex."""
    return hashlib.sha256(secret.encode("utf-8")).hexdigest()
