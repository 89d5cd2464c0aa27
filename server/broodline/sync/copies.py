"""A copy of a book, line by line: stored in short transactions, so that a server beside it goes on taking pushes."""

from collections.abc import Iterator
from itertools import islice

from broodline.exchange.archive import BadLine, GoodLine, Line
from broodline.store.log import Log, Placed

LINES_AT_ONCE = 200
BROUGHT_BY = "import"


def take_lines(
    log: Log, holding: str, lines: Iterator[Line], *, dry_run: bool = False
) -> tuple[dict[str, int], list[BadLine]]:
    """Take the good lines: how many were stored, duplicate or clash, and which lines were not taken and why."""
    counts = {"stored": 0, "duplicate": 0, "clash": 0}
    bad: list[BadLine] = []
    for placed, line in _place_lines(log, holding, lines, dry_run=dry_run):
        if isinstance(line, BadLine):
            bad.append(line)
        elif placed is not None:
            counts[placed.status] += 1
            if placed.status == "clash":
                bad.append(_clash(line))
    return counts, bad


def _place_lines(
    log: Log, holding: str, lines: Iterator[Line], *, dry_run: bool
) -> Iterator[tuple[Placed | None, Line]]:
    """Store good lines in batches, in the order of the file; yields every line with what became of it."""
    first_seen: dict[str, str] = {}
    while batch := list(islice(lines, LINES_AT_ONCE)):
        entries = [line.entry for line in batch if isinstance(line, GoodLine)]
        if dry_run:
            placed = iter(
                [
                    _again(first_seen, found, entry.sha256)
                    for found, entry in zip(log.weigh(holding, entries), entries, strict=True)
                ]
            )
        else:
            placed = iter(log.append(holding, entries, BROUGHT_BY) if entries else [])
        for line in batch:
            yield (next(placed) if isinstance(line, GoodLine) else None), line


def _again(first_seen: dict[str, str], found: Placed, sha256: str) -> Placed:
    """In a dry run nothing is stored, so lines of earlier batches are remembered here."""
    if found.status != "stored":
        return found
    if found.id not in first_seen:
        first_seen[found.id] = sha256
        return found
    return Placed(found.id, "duplicate" if first_seen[found.id] == sha256 else "clash", None)


def _clash(line: Line) -> BadLine:
    return BadLine(
        line.number,
        "id",
        "The book has another entry under this id; that one stays.",
        "If this line is a correction, give it an id of its own and name the other in amends.",
    )
