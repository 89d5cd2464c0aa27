"""Pictures, each under the SHA-256 of its bytes, in the database so that one backup holds them too."""

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass

from broodline.errors import NotFound
from broodline.store.database import reading, writing


@dataclass(frozen=True, slots=True)
class Picture:
    """The bytes of a picture and what they are: image/jpeg, image/png or image/webp."""

    type: str
    content: bytes


class Photos:
    """Pictures behind one connection."""

    def __init__(self, connection: sqlite3.Connection, now_ms: Callable[[], int]) -> None:
        self._connection = connection
        self._now_ms = now_ms

    def put(self, holding: str, sha256: str, picture: Picture, brought_by: str | None) -> bool:
        """Keep a picture. False where it was kept before: nothing is written then."""
        if self.has(holding, sha256):
            return False
        with writing(self._connection):
            done = self._connection.execute(
                "INSERT OR IGNORE INTO photos VALUES (?, ?, ?, ?, ?, ?)",
                (holding, sha256, picture.type, picture.content, brought_by, self._now_ms()),
            )
        return done.rowcount == 1

    def has(self, holding: str, sha256: str) -> bool:
        """Whether a picture is kept."""
        with reading(self._connection):
            row = self._connection.execute(
                "SELECT 1 FROM photos WHERE holding = ? AND sha256 = ?", (holding, sha256)
            ).fetchone()
        return row is not None

    def get(self, holding: str, sha256: str) -> Picture:
        """A picture. Raises NotFound."""
        with reading(self._connection):
            row = self._connection.execute(
                "SELECT type, content FROM photos WHERE holding = ? AND sha256 = ?", (holding, sha256)
            ).fetchone()
        if row is None:
            raise NotFound(
                "This picture is not on the server.", remedy="The phone that took it sends it when it is next in reach."
            )
        return Picture(*row)
