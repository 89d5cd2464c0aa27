"""Phones and servers that are wrong in one way each. The schedules must find every one of them."""

import hashlib
from collections.abc import Generator, Sequence
from typing import Any

from broodline.book.wire import Entry
from broodline.store.log import Head, Page, Placed, parse_cursor
from broodline.store.sqlite_log import SqliteLog
from tests.faults.phone_model import Answer, Phone, Step, Transaction

Rows = list[tuple[int, str, str]]


class KeepsRowsFirst(Phone):
    """Rows in one transaction, the cursor in another: dying between them leaves places that no cursor covers."""

    def keep_page(self, rows: Rows, cursor: str) -> Generator[Step, Answer, None]:
        yield Transaction(lambda: self.storage.put_rows(rows))
        yield Transaction(lambda: self.storage.put_cursor(cursor))


class KeepsCursorFirst(Phone):
    """The cursor in one transaction, the rows in another: dying between them skips a page for good."""

    def keep_page(self, rows: Rows, cursor: str) -> Generator[Step, Answer, None]:
        yield Transaction(lambda: self.storage.put_cursor(cursor))
        yield Transaction(lambda: self.storage.put_rows(rows))


class TrustsAcknowledgements(Phone):
    """What was acknowledged once is never offered again, not even to a server that was put back."""

    acknowledged: frozenset[str] = frozenset()

    def waiting(self) -> list[tuple[str, str]]:
        return [entry for entry in self.storage.waiting() if entry[0] not in self.acknowledged]

    def note_acknowledged(self, results: list[Any]) -> None:
        self.acknowledged = self.acknowledged | {result["id"] for result in results}


class OffersOnlyItsOwn(Phone):
    """After a reset it brings back what it wrote itself, and leaves the rest to phones that may be gone."""

    def waiting(self) -> list[tuple[str, str]]:
        own = [f'"device":"{device}"' for device in self.devices]
        return [entry for entry in self.storage.waiting() if any(device in entry[1] for device in own)]


def link_of_id_alone(chain: str, entry_id: str, content: str) -> str:
    """A chain that is none: the cursor proves which entry stands there, and nothing of what stood before."""
    return hashlib.sha256(entry_id.encode()).hexdigest()


class ProvesOnlyTheId(Phone):
    """The phone's side of a cursor that proves only the last entry."""

    def link(self, chain: str, entry_id: str, content: str) -> str:
        return link_of_id_alone(chain, entry_id, content)


class ChecksNoHistory(SqliteLog):
    """Any cursor is believed: its position alone says what comes next."""

    def read(self, holding: str, cursor: str | None, limit: int) -> Page:
        place = parse_cursor(cursor) if cursor is not None else None
        chain = self._chain_at(holding, place.position) if place is not None else None
        if place is None or chain is None:
            return super().read(holding, None, limit) if place is None else Page([], cursor or "", False)
        own = super().read(holding, Head(self.head(holding).epoch, place.position, chain).cursor, limit)
        return own if own.rows else Page([], cursor or "", False)


class RemembersTheChain(SqliteLog):
    """Goes on from the link it wrote itself last, whatever another connection wrote meanwhile."""

    remembered: str | None = None

    def _last_chain(self, holding: str) -> str:
        return self.remembered or super()._last_chain(holding)

    def append(self, holding: str, entries: Sequence[Entry], brought_by: str | None) -> list[Placed]:
        placed = super().append(holding, entries, brought_by)
        self.remembered = super()._last_chain(holding)
        return placed


class AnswersFirst(SqliteLog):
    """Answers with the position an entry is going to have, and writes it with the next push."""

    unwritten: Sequence[Entry] = ()

    def append(self, holding: str, entries: Sequence[Entry], brought_by: str | None) -> list[Placed]:
        super().append(holding, self.unwritten, brought_by)
        self.unwritten = entries
        position, placed = self._last_used(), []
        for found in self.weigh(holding, entries):
            position += found.status == "stored"
            placed.append(Placed(found.id, found.status, position if found.status == "stored" else found.position))
        return placed
