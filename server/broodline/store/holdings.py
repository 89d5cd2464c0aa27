"""The holding a data folder belongs to: its random id, its epoch, and whether it is the demo's."""

import re
import sqlite3
from collections.abc import Callable
from dataclasses import dataclass

from broodline.errors import BookDamaged
from broodline.store.database import reading, writing

DEMO_PREFIX = "demo-"

_ID = re.compile(r"[0-9A-Za-z][0-9A-Za-z._-]{0,99}")


@dataclass(frozen=True, slots=True)
class Holding:
    """seeded_on: the day a demo's entries were dated by, as YYYY-MM-DD."""

    id: str
    demo: bool
    seeded_on: str | None


class Holdings:
    """The one holding of this file. Its id is made with the file and changes only while the book is empty."""

    def __init__(
        self,
        connection: sqlite3.Connection,
        now_ms: Callable[[], int],
        random_bytes: Callable[[int], bytes],
    ) -> None:
        self._connection = connection
        self._now_ms = now_ms
        self._random_bytes = random_bytes

    def found(self, *, demo: bool) -> Holding:
        """The holding, made now if the file has none yet. A file that has one keeps what it is."""
        if (held := self._held()) is not None:
            return held
        holding_id = (DEMO_PREFIX if demo else "") + self._random_bytes(16).hex()
        with writing(self._connection):
            if self._held() is None:  # another process may have been first
                self._connection.execute(
                    "INSERT INTO holdings VALUES (?, ?, ?, NULL, ?)",
                    (holding_id, self._random_bytes(8).hex(), int(demo), self._now_ms()),
                )
        return self.current()

    def current(self) -> Holding:
        """The holding as the file has it now. Raises BookDamaged where there is none."""
        with reading(self._connection):
            held = self._held()
        if held is None:
            raise BookDamaged("The book's file names no holding.")
        return held

    def take_over(self, offered: str) -> Holding:
        """Become the holding a phone remembers, if this book is empty; otherwise stay what it is.

        That is how a server whose folder was lost gets its book back from the phones. A demo stays a demo, and
        never becomes part of a real book. A new history begins with it: a phone that was paired before hears so
        with its next cursor, and asks whose book this is now before it sends what it holds.
        """
        if _ID.fullmatch(offered) and not offered.startswith(DEMO_PREFIX):
            with writing(self._connection):
                self._connection.execute(
                    "UPDATE holdings SET id = ?, epoch = ? WHERE demo = 0 AND id <> ?"
                    " AND NOT EXISTS (SELECT 1 FROM log WHERE holding = holdings.id)",
                    (offered, self._random_bytes(8).hex(), offered),
                )
        return self.current()

    def turn_epoch(self) -> None:
        """Begin a new history, as after a restore: every cursor given out before asks for a reset."""
        with writing(self._connection):
            self._connection.execute("UPDATE holdings SET epoch = ?", (self._random_bytes(8).hex(),))

    def note_seeded(self, day: str) -> None:
        """Remember the day the demo's entries were dated by."""
        with writing(self._connection):
            self._connection.execute("UPDATE holdings SET seeded_on = ? WHERE demo = 1", (day,))

    def _held(self) -> Holding | None:
        row = self._connection.execute("SELECT id, demo, seeded_on FROM holdings").fetchone()
        return Holding(row[0], bool(row[1]), row[2]) if row else None
