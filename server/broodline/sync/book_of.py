"""The standing of a book, kept until its log grows. A reader of the log like any phone: it goes on from a cursor."""

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.book.wire import Entry, stored_entry
from broodline.errors import ResetNeeded
from broodline.store.log import MOST_ROWS, Log


class BookOf:
    """The standings of one log. Its owner lets one thread at a time ask."""

    def __init__(self, log: Log) -> None:
        self._log = log
        self._holding: str | None = None
        self._cursor: str | None = None
        self._entries: list[Entry] = []
        self._standing: Standing | None = None

    def standing(self, holding: str) -> tuple[Standing, int]:
        """What the book adds up to now, and how many entries that saw."""
        head = self._log.head(holding).cursor
        if self._standing is None or holding != self._holding or head != self._cursor:
            self._read_on(holding)
            self._standing = fold(self._entries)
        return self._standing, len(self._entries)

    def _read_on(self, holding: str) -> None:
        if holding != self._holding:
            self._holding, self._cursor, self._entries = holding, None, []
        try:
            self._take_pages(holding)
        except ResetNeeded:  # the log was restored from an older copy: begin again
            self._cursor, self._entries = None, []
            self._take_pages(holding)

    def _take_pages(self, holding: str) -> None:
        more = True
        while more:
            page = self._log.read(holding, self._cursor, MOST_ROWS)
            self._entries += [stored_entry(document) for _, document in page.rows]
            self._cursor, more = page.cursor, page.more
