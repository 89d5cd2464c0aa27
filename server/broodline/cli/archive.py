"""`broodline import`: the book as JSON lines, beside a running server or without one."""

from argparse import Namespace, _SubParsersAction
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any, BinaryIO

from broodline.cli.place import add_place, open_book
from broodline.cli.printing import say, say_json, warn, with_progress
from broodline.errors import WrongUse
from broodline.exchange.archive import BadLine, GoodLine, Line, read_lines
from broodline.store.log import Log, Placed

LINES_AT_ONCE = 200  # short transactions: a server beside this command goes on taking pushes
LONGEST_LINE = 64 * 1024  # far over what an entry may take; the rest of a longer line is passed over
BROUGHT_BY = "import"
SHEETS = frozenset({".csv", ".tsv", ".xls", ".xlsx", ".ods"})


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    take = commands.add_parser("import", help="take entries from a file of JSON lines")
    add_place(take, json=True)
    take.add_argument("file", type=Path)
    take.add_argument("--dry-run", action="store_true", help="say what would be added, and add nothing")
    take.set_defaults(run=run_import)


def run_import(options: Namespace) -> int:
    """Take the good lines, name the bad ones. 1 where any line was not taken."""
    if options.file.suffix.lower() in SHEETS:
        raise WrongUse(
            f"{options.file} is a table, and tables cannot be taken in yet.",
            remedy="Import a copy that the app or `broodline export` wrote: one entry a line, ending in .jsonl.",
        )
    counts = {"stored": 0, "duplicate": 0, "clash": 0}
    bad: list[BadLine] = []
    try:
        source = options.file.open("rb")
    except OSError as fault:
        raise WrongUse(f"{options.file} cannot be read: {fault.strerror}.", remedy="Name a file to import.") from fault
    with source, open_book(options) as shelf:
        holding = shelf.holdings.current().id
        lines = with_progress(read_lines(short_lines(source)), "lines read")
        for placed, line in place_lines(shelf.log, holding, lines, dry_run=options.dry_run):
            if isinstance(line, BadLine):
                bad.append(line)
            elif placed is not None:
                counts[placed.status] += 1
                if placed.status == "clash":
                    bad.append(_clash(line))
    if options.json:
        say_json(
            {
                "added": counts["stored"],
                "known": counts["duplicate"],
                "dry_run": options.dry_run,
                "bad": [{"line": b.number, "field": b.field, "message": b.message, "remedy": b.remedy} for b in bad],
            }
        )
    else:
        for line in bad:
            warn(f"line {line.number}, {line.field}: {line.message}")
        verb = "would be added" if options.dry_run else "added"
        say(f"{counts['stored']} entries {verb}, {counts['duplicate']} known already, {len(bad)} lines not taken.")
    return 1 if bad else 0


def place_lines(
    log: Log, holding: str, lines: Iterator[Line], *, dry_run: bool = False
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


def short_lines(source: BinaryIO) -> Iterator[bytes]:
    """The lines of a file, each cut off where it is far too long to be an entry, so that none fills the memory."""
    while line := source.readline(LONGEST_LINE):
        if not line.endswith(b"\n"):
            while (rest := source.readline(LONGEST_LINE)) and not rest.endswith(b"\n"):
                pass
        yield line


def _clash(line: Line) -> BadLine:
    return BadLine(
        line.number,
        "id",
        "The book has another entry under this id; that one stays.",
        "If this line is a correction, give it an id of its own and name the other in amends.",
    )
