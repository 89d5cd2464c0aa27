"""A log in memory: short enough to see at a glance that it is right, and held to the same suite as the real one."""

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from broodline.book.wire import Entry, content_hash
from broodline.errors import NotFound
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


@dataclass(slots=True)
class _Shelf:
    epoch: str
    rows: list[tuple[str, bytes, str]] = field(default_factory=list)  # id, bytes, chain; position = index + 1
    places: dict[str, int] = field(default_factory=dict)
    clashes: set[tuple[str, bytes]] = field(default_factory=set)

    def chain_at(self, position: int) -> str:
        return self.rows[position - 1][2] if position else CHAIN_START


class MemoryLog:
    """Entries of any number of holdings, gone with the process."""

    def __init__(self, new_epoch: Callable[[], str]) -> None:
        self._new_epoch = new_epoch
        self._shelves: dict[str, _Shelf] = {}

    def found(self, holding: str) -> None:
        """Begin the log of a holding."""
        self._shelves.setdefault(holding, _Shelf(self._new_epoch()))

    def append(self, holding: str, entries: Sequence[Entry], brought_by: str | None) -> list[Placed]:
        """See Log.append."""
        shelf = self._shelf(holding)
        return [self._place(shelf, entry) for entry in entries]

    def weigh(self, holding: str, entries: Sequence[Entry]) -> list[Placed]:
        """See Log.weigh."""
        held = self._shelf(holding)
        trial = _Shelf(held.epoch, list(held.rows), dict(held.places))
        end = len(held.rows)
        placed = [self._place(trial, entry) for entry in entries]
        return [
            Placed(p.id, p.status, p.position if p.position is not None and p.position <= end else None) for p in placed
        ]

    def read(self, holding: str, cursor: str | None, limit: int) -> Page:
        """See Log.read."""
        shelf = self._shelf(holding)
        start = 0
        if cursor is not None:
            place = parse_cursor(cursor)
            start = place.position
            if place.epoch != shelf.epoch or start > len(shelf.rows) or shelf.chain_at(start) != place.chain:
                raise foreign_cursor()
        end = min(start + max(1, min(limit, MOST_ROWS)), len(shelf.rows))
        rows = [(n + 1, shelf.rows[n][1]) for n in range(start, end)]
        return Page(rows, Head(shelf.epoch, end, shelf.chain_at(end)).cursor, end < len(shelf.rows))

    def head(self, holding: str) -> Head:
        """See Log.head."""
        shelf = self._shelf(holding)
        return Head(shelf.epoch, len(shelf.rows), shelf.chain_at(len(shelf.rows)))

    def count(self, holding: str) -> int:
        """See Log.count."""
        return len(self._shelf(holding).rows)

    def clashes(self, holding: str) -> set[tuple[str, bytes]]:
        """What was kept apart: (id, canonical bytes)."""
        return set(self._shelf(holding).clashes)

    def snapshot(self, holding: str, destination: Path) -> None:
        """See Log.snapshot."""
        rows = [document.decode("utf-8") for _, document, _ in self._shelf(holding).rows]
        destination.write_text(json.dumps({"holding": holding, "documents": rows}), encoding="utf-8")

    def restore(self, source: Path) -> None:
        """Put a holding's log back to a snapshot, under a new epoch."""
        kept = json.loads(source.read_text(encoding="utf-8"))
        shelf = _Shelf(self._new_epoch())
        for text in kept["documents"]:
            self._write(shelf, json.loads(text)["id"], text.encode("utf-8"))
        self._shelves[kept["holding"]] = shelf

    def _shelf(self, holding: str) -> _Shelf:
        if holding not in self._shelves:
            raise NotFound("There is no such holding.")
        return self._shelves[holding]

    def _place(self, shelf: _Shelf, entry: Entry) -> Placed:
        place = shelf.places.get(entry.id)
        if place is None:
            return Placed(entry.id, "stored", self._write(shelf, entry.id, entry.canonical))
        if shelf.rows[place - 1][1] == entry.canonical:
            return Placed(entry.id, "duplicate", place)
        shelf.clashes.add((entry.id, entry.canonical))
        return Placed(entry.id, "clash", None)

    def _write(self, shelf: _Shelf, entry_id: str, document: bytes) -> int:
        link = next_link(shelf.chain_at(len(shelf.rows)), entry_id, content_hash(document))
        shelf.rows.append((entry_id, document, link))
        shelf.places[entry_id] = len(shelf.rows)
        return len(shelf.rows)
