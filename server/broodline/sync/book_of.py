"""The standing of a book, kept until its log grows. A reader of the log like any phone: it goes on from a cursor."""

from broodline.book.fold import Fold
from broodline.book.standing import Standing
from broodline.book.wire import stored_entry
from broodline.errors import ResetNeeded
from broodline.store.log import MOST_ROWS, Log


class BookOf:
    """The standings of one log. Its owner lets one thread at a time ask."""

    def __init__(self, log: Log) -> None:
        self._log = log
        self._holding = ""
        self._cursor: str | None = None
        self._fold = Fold()
        self._standing: Standing | None = None

    def standing(self, holding: str) -> tuple[Standing, int]:
        """What the book adds up to now, and how many entries that saw."""
        head = self._log.head(holding).cursor
        if self._standing is None or holding != self._holding or head != self._cursor:
            if holding != self._holding:
                self._begin(holding)
            self._standing = None  # until all is taken in
            self._read_on()
            self._standing = self._fold.standing()
        return self._standing, len(self._fold)

    def _begin(self, holding: str) -> None:
        self._holding, self._cursor = holding, None
        self._fold, self._standing = Fold(), None

    def _read_on(self) -> None:
        try:
            self._take_pages()
        except ResetNeeded:  # the log was restored from an older copy: begin again
            self._begin(self._holding)
            self._take_pages()

    def _take_pages(self) -> None:
        more = True
        while more:
            page = self._log.read(self._holding, self._cursor, MOST_ROWS)
            try:
                self._fold.take([stored_entry(document) for _, document in page.rows])
            except BaseException:  # a fold that was broken off half way is worth nothing
                self._begin(self._holding)
                raise
            self._cursor, more = page.cursor, page.more
