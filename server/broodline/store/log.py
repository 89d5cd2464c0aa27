"""The log: what every store of entries must do, whatever it is made of.

An entry that was appended never changes and never goes. Each has a position; positions only grow, and may have gaps.
Each also has a link of a chain, chain_n = sha256(chain_(n-1) + id + content hash), so that a cursor proves which
history it belongs to: a log restored from an older copy answers a foreign cursor with ResetNeeded, and the phones
then bring back what it lost. tests/server/store/log_suite.py holds every log to this.
"""

import hashlib
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, NamedTuple, Protocol

from broodline.book.wire import Entry
from broodline.errors import ResetNeeded

CHAIN_START = "0" * 64
MOST_ROWS = 500

Status = Literal["stored", "duplicate", "clash"]

_CURSOR = re.compile(r"([0-9a-z-]{1,64})\.(0|[1-9][0-9]{0,17})\.([0-9a-f]{64})")


class Placed(NamedTuple):
    """What became of one entry. A clash (a known id with another content) has no position: the first stays."""

    id: str
    status: Status
    position: int | None


@dataclass(frozen=True, slots=True)
class Head:
    """The end of a log: its epoch (new after every restore), the last position, and the chain up to there."""

    epoch: str
    position: int
    chain: str

    @property
    def cursor(self) -> str:
        """The opaque text that stands for this place in this history."""
        return f"{self.epoch}.{self.position}.{self.chain}"


@dataclass(frozen=True, slots=True)
class Page:
    """Rows after a cursor, ascending: (position, canonical bytes). `more` says whether rows are left."""

    rows: Sequence[tuple[int, bytes]]
    cursor: str
    more: bool


class Log(Protocol):
    """A store of immutable entries. Every call names the holding; one holding never sees another's."""

    def append(self, holding: str, entries: Sequence[Entry], brought_by: str | None) -> list[Placed]:
        """Store what is new, all of it or (on an error) nothing; answers for every entry, in order.

        When it returns, the entries are on the disk. brought_by: the device that sent them. Raises DiskFull, Busy.
        """
        ...

    def weigh(self, holding: str, entries: Sequence[Entry]) -> list[Placed]:
        """What append would answer, without storing; a new entry has no position."""
        ...

    def read(self, holding: str, cursor: str | None, limit: int) -> Page:
        """At most `limit` rows (never over 500) after the cursor; None is the start.

        Raises ResetNeeded for a cursor that cannot be read or belongs to another history.
        """
        ...

    def head(self, holding: str) -> Head:
        """The end of the log as it is now, entries of other connections included."""
        ...

    def count(self, holding: str) -> int:
        """How many entries there are."""
        ...

    def snapshot(self, holding: str, destination: Path) -> None:
        """Write a consistent copy of the log to a new file, while others go on writing."""
        ...


def next_link(chain: str, entry_id: str, sha256: str) -> str:
    """The chain after one more entry: SHA-256 over the ASCII text of all three, in hex."""
    return hashlib.sha256(f"{chain}{entry_id}{sha256}".encode("ascii")).hexdigest()


def parse_cursor(text: str) -> Head:
    """The place a cursor stands for. Raises ResetNeeded for any text that is no cursor."""
    found = _CURSOR.fullmatch(text)
    if found is None:
        raise ResetNeeded("The place the app remembers cannot be read.")
    return Head(found[1], int(found[2]), found[3])


def foreign_cursor() -> ResetNeeded:
    """The answer to a cursor of another history."""
    return ResetNeeded("The place the app remembers is not part of this book's history.")


def all_rows(log: Log, holding: str, cursor: str | None = None) -> Iterator[tuple[int, bytes]]:
    """Every row after a cursor, page by page, up to the end as it is when it gets there."""
    while True:
        page = log.read(holding, cursor, MOST_ROWS)
        yield from page.rows
        if not page.more:
            return
        cursor = page.cursor
