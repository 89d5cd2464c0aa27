"""A copy of a book, line by line: stored in short transactions, so that a server beside it goes on taking pushes."""

from collections.abc import Iterator, Sequence
from itertools import islice

from broodline.exchange.archive import BadLine, GoodLine, Line
from broodline.store.log import Log, Placed

LINES_AT_ONCE = 200
BROUGHT_BY = "import"


class CopyTaken:
    """What became of a copy's lines so far. counts: good ones that were stored, duplicate or clash. bad: lines that
    were not taken, and why."""

    def __init__(self, holding: str, *, dry_run: bool = False) -> None:
        self.counts = {"stored": 0, "duplicate": 0, "clash": 0}
        self.bad: list[BadLine] = []
        self._holding = holding
        self._dry_run = dry_run
        self._first_seen: dict[str, str] = {}

    def take(self, log: Log, batch: Sequence[Line]) -> None:
        """Take the good ones of some lines, in their order, in one transaction."""
        entries = [line.entry for line in batch if isinstance(line, GoodLine)]
        if self._dry_run:
            weighed = zip(log.weigh(self._holding, entries), entries, strict=True)
            placed = iter([self._again(found, entry.sha256) for found, entry in weighed])
        else:
            placed = iter(log.append(self._holding, entries, BROUGHT_BY) if entries else [])
        for line in batch:
            if isinstance(line, BadLine):
                self.bad.append(line)
                continue
            status = next(placed).status
            self.counts[status] += 1
            if status == "clash":
                self.bad.append(_clash(line))

    def _again(self, found: Placed, sha256: str) -> Placed:
        """In a dry run nothing is stored, so lines of earlier batches are remembered here."""
        if found.status != "stored":
            return found
        if found.id not in self._first_seen:
            self._first_seen[found.id] = sha256
            return found
        return Placed(found.id, "duplicate" if self._first_seen[found.id] == sha256 else "clash", None)


def in_batches(lines: Iterator[Line]) -> Iterator[list[Line]]:
    """Lines, as many at a time as are taken at once; each batch is read when it is asked for."""
    while batch := list(islice(lines, LINES_AT_ONCE)):
        yield batch


def _clash(line: Line) -> BadLine:
    return BadLine(
        line.number,
        "id",
        "The book has another entry under this id; that one stays.",
        "If this line is a correction, give it an id of its own and name the other in amends.",
    )
