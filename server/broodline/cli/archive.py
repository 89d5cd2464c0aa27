"""`broodline import`: entries from JSON lines, or rows of a table, beside a running server or without one."""

from argparse import Namespace, _SubParsersAction
from collections.abc import Iterator
from pathlib import Path
from typing import Any, BinaryIO

from broodline.cli.place import add_place, open_book
from broodline.cli.printing import say, say_json, warn, with_progress
from broodline.cli.table_import import add_table_options, import_sheet
from broodline.errors import WrongUse
from broodline.exchange.archive import read_lines
from broodline.sync.copies import CopyTaken, in_batches

LONGEST_LINE = 64 * 1024  # far over what an entry may take; the rest of a longer line is passed over
SHEETS = frozenset({".csv", ".tsv", ".txt", ".xls", ".xlsx", ".xlsm", ".ods"})


def declare(commands: "_SubParsersAction[Any]") -> None:
    """Declare the command."""
    take = commands.add_parser("import", help="take in FILE.jsonl (entries) or a table: FILE.csv, FILE.xlsx")
    add_place(take, json=True)
    take.add_argument("file", type=Path)
    take.add_argument("--dry-run", action="store_true", help="say what would be added, and add nothing")
    add_table_options(take)
    take.set_defaults(run=run_import)


def run_import(options: Namespace) -> int:
    """Take the good lines, name the bad ones. 1 where any line was not taken."""
    if options.file.suffix.lower() in SHEETS:
        return import_sheet(options)
    if options.undo:
        raise WrongUse("Only a table can be undone as one.", remedy="Take entries back one by one in the app.")
    try:
        source = options.file.open("rb")
    except OSError as fault:
        raise WrongUse(f"{options.file} cannot be read: {fault.strerror}.", remedy="Name a file to import.") from fault
    with source, open_book(options) as shelf:
        holding = shelf.holdings.current().id
        taken = CopyTaken(holding, dry_run=options.dry_run)
        for batch in in_batches(with_progress(read_lines(short_lines(source)), "lines read")):
            taken.take(shelf.log, batch)
    counts, bad = taken.counts, taken.bad
    if options.json:
        say_json(
            {
                "added": counts["stored"],
                "known": counts["duplicate"],
                "dry_run": options.dry_run,
                "bad": [line.as_json() for line in bad],
            }
        )
    else:
        for line in bad:
            warn(f"line {line.number}, {line.field}: {line.message}")
        verb = "would be added" if options.dry_run else "added"
        say(f"{counts['stored']} entries {verb}, {counts['duplicate']} known already, {len(bad)} lines not taken.")
    return 1 if bad else 0


def short_lines(source: BinaryIO) -> Iterator[bytes]:
    """The lines of a file, each cut off where it is far too long to be an entry, so that none fills the memory."""
    while line := source.readline(LONGEST_LINE):
        if not line.endswith(b"\n"):
            while (rest := source.readline(LONGEST_LINE)) and not rest.endswith(b"\n"):
                pass
        yield line
