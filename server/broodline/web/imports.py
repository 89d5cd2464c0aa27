"""What comes into the book whole: a spreadsheet as one act, taken in, tried or undone. For routes and commands."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.book.wire import Entry
from broodline.exchange.sheets_in import SheetsIn, matched_json, read_sheets, undo_entries
from broodline.exchange.told_in import Told
from broodline.store.log import Log


@dataclass(frozen=True, slots=True)
class ReadSheet:
    """A spreadsheet as it was read. undo: whether it is to be taken back; entries: then those that do it."""

    found: SheetsIn
    entries: Sequence[Entry]
    undo: bool


def read_sheet(standing: Standing, name: str, content: bytes, told: Told, now: datetime, *, undo: bool) -> ReadSheet:
    """Read a spreadsheet beside the book as it stands. now: aware. Raises EnvelopeError, TooLarge."""
    found = read_sheets(name, content, told, standing, now)
    return ReadSheet(found, undo_entries(found, standing, now) if undo else found.entries, undo)


def store_sheet(log: Log, holding: str, read: ReadSheet, *, dry_run: bool) -> dict[str, Any]:
    """{dry_run, undo, tables, other_sheets, asked, added, known, kinds: {kind: n}, bad: [{sheet, number, field,
    message, remedy, taken, as_read}]}. asked: "species", "breed" where rows do not say them.

    All entries go in together or, on a fault of the disk, none. Raises DiskFull, Busy.
    """
    known: set[str] = set()
    if not read.undo:
        known = {placed.id for placed in log.weigh(holding, read.entries) if placed.status != "stored"}
        known |= read.found.brought.roots
    new = [entry for entry in read.entries if entry.id not in known]
    if new and not dry_run:
        log.append(holding, new, "import")
    return _answer(read.found, new, len(known), dry_run, read.undo)


def _answer(found: SheetsIn, new: Sequence[Entry], known: int, dry_run: bool, undo: bool) -> dict[str, Any]:
    return {
        "dry_run": dry_run,
        "undo": undo,
        "tables": [matched_json(table, found.days[table.table.name]) for table in found.tables],
        "other_sheets": list(found.others),
        "asked": list(found.asked),
        "added": len(new),
        "known": known,
        "kinds": dict(sorted(Counter(entry.kind for entry in new).items())),
        "bad": [asdict(one) for one in found.bad],
    }
