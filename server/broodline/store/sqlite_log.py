"""The log in SQLite."""

import sqlite3
from collections.abc import Callable, Sequence
from pathlib import Path

from broodline.book.wire import Entry
from broodline.errors import NotFound
from broodline.store.database import reading, writing
from broodline.store.faults import typed_faults
from broodline.store.log import (
    CHAIN_START,
    MOST_ROWS,
    Head,
    Page,
    Placed,
    foreign_cursor,
    next_link,
    parse_cursor,
)

_IDS_AT_ONCE = 200


class SqliteLog:
    """A log behind one connection. Others may write the same file: nothing about the file is remembered here.

    NOT INDEXED, where rows are wanted by position: SQLite would else find the holding by the index of ids and sort
    all of its rows, at every push and every page.
    """

    def __init__(self, connection: sqlite3.Connection, now_ms: Callable[[], int]) -> None:
        self._connection = connection
        self._now_ms = now_ms

    def append(self, holding: str, entries: Sequence[Entry], brought_by: str | None) -> list[Placed]:
        """See Log.append."""
        with writing(self._connection):
            self._epoch(holding)
            # Known ids are looked up first, so that a batch sent twice uses up no positions.
            known = self._known(holding, entries)
            position, chain = self._last_used(), self._last_chain(holding)
            received_ms = self._now_ms()
            rows: list[tuple[object, ...]] = []
            clashed: list[tuple[object, ...]] = []
            placed: list[Placed] = []
            for entry in entries:
                sha256 = entry.sha256
                verdict = _against(known, entry.id, sha256)
                if verdict is None:
                    position += 1
                    chain = next_link(chain, entry.id, sha256)
                    known[entry.id] = (sha256, position)
                    rows.append((position, holding, entry.id, entry.canonical, sha256, chain, brought_by, received_ms))
                    verdict = Placed(entry.id, "stored", position)
                elif verdict.status == "clash":
                    clashed.append((holding, entry.id, entry.canonical, sha256, brought_by, received_ms))
                placed.append(verdict)
            self._connection.executemany("INSERT INTO log VALUES (?, ?, ?, ?, ?, ?, ?, ?)", rows)
            self._connection.executemany("INSERT OR IGNORE INTO clashes VALUES (?, ?, ?, ?, ?, ?)", clashed)
        return placed

    def weigh(self, holding: str, entries: Sequence[Entry]) -> list[Placed]:
        """See Log.weigh."""
        with reading(self._connection):
            self._epoch(holding)
            known: dict[str, tuple[str, int | None]] = dict(self._known(holding, entries))
        placed: list[Placed] = []
        for entry in entries:
            sha256 = entry.sha256
            verdict = _against(known, entry.id, sha256)
            if verdict is None:
                known[entry.id] = (sha256, None)
                verdict = Placed(entry.id, "stored", None)
            placed.append(verdict)
        return placed

    def read(self, holding: str, cursor: str | None, limit: int) -> Page:
        """See Log.read."""
        limit = max(1, min(limit, MOST_ROWS))
        with reading(self._connection):
            epoch = self._epoch(holding)
            place = Head(epoch, 0, CHAIN_START) if cursor is None else parse_cursor(cursor)
            if place.epoch != epoch or self._chain_at(holding, place.position) != place.chain:
                raise foreign_cursor()
            rows = self._connection.execute(
                "SELECT position, document, chain FROM log NOT INDEXED WHERE position > ? AND holding = ?"
                " ORDER BY position LIMIT ?",
                (place.position, holding, limit + 1),
            ).fetchall()
        page = rows[:limit]
        end = Head(epoch, page[-1][0], page[-1][2]) if page else place
        return Page([(position, document) for position, document, _ in page], end.cursor, len(rows) > limit)

    def head(self, holding: str) -> Head:
        """See Log.head."""
        with reading(self._connection):
            epoch = self._epoch(holding)
            last = self._connection.execute(
                "SELECT position, chain FROM log NOT INDEXED WHERE holding = ? ORDER BY position DESC LIMIT 1",
                (holding,),
            ).fetchone()
        return Head(epoch, last[0], last[1]) if last else Head(epoch, 0, CHAIN_START)

    def count(self, holding: str) -> int:
        """See Log.count."""
        with reading(self._connection):
            self._epoch(holding)
            (n,) = self._connection.execute("SELECT count(*) FROM log WHERE holding = ?", (holding,)).fetchone()
        return int(n)

    def snapshot(self, holding: str, destination: Path) -> None:
        """See Log.snapshot. The copy is the whole file: devices come along, so that they stay paired."""
        with typed_faults():
            self._epoch(holding)
            self._connection.execute("VACUUM INTO ?", (str(destination),))

    def _epoch(self, holding: str) -> str:
        row = self._connection.execute("SELECT epoch FROM holdings WHERE id = ?", (holding,)).fetchone()
        if row is None:
            raise NotFound("There is no such holding.")
        return str(row[0])

    def _known(self, holding: str, entries: Sequence[Entry]) -> dict[str, tuple[str, int | None]]:
        known: dict[str, tuple[str, int | None]] = {}
        for start in range(0, len(entries), _IDS_AT_ONCE):
            ids = [entry.id for entry in entries[start : start + _IDS_AT_ONCE]]
            marks = ",".join("?" * len(ids))
            rows = self._connection.execute(
                f"SELECT id, sha256, position FROM log WHERE holding = ? AND id IN ({marks})", (holding, *ids)
            )
            known.update((row[0], (row[1], row[2])) for row in rows)
        return known

    def _last_used(self) -> int:
        """The last position ever given in this file; AUTOINCREMENT's own memory, so that none comes back."""
        row = self._connection.execute("SELECT seq FROM sqlite_sequence WHERE name = 'log'").fetchone()
        return int(row[0]) if row else 0

    def _last_chain(self, holding: str) -> str:
        row = self._connection.execute(
            "SELECT chain FROM log NOT INDEXED WHERE holding = ? ORDER BY position DESC LIMIT 1", (holding,)
        ).fetchone()
        return str(row[0]) if row else CHAIN_START

    def _chain_at(self, holding: str, position: int) -> str | None:
        if position == 0:
            return CHAIN_START
        row = self._connection.execute(
            "SELECT chain FROM log WHERE position = ? AND holding = ?", (position, holding)
        ).fetchone()
        return str(row[0]) if row else None


def _against(known: dict[str, tuple[str, int | None]], entry_id: str, sha256: str) -> Placed | None:
    """Duplicate or clash, or None for an id that is new."""
    if entry_id not in known:
        return None
    held, position = known[entry_id]
    return Placed(entry_id, "duplicate", position) if held == sha256 else Placed(entry_id, "clash", None)
