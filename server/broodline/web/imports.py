"""What comes into the book whole: a spreadsheet as one act, taken in, tried or undone. For routes and commands."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict
from datetime import datetime
from typing import Any

from broodline.book.standing import Standing
from broodline.book.wire import Entry
from broodline.exchange.sheets_in import SheetsIn, matched_json, read_sheets, undo_entries
from broodline.exchange.told_in import Told
from broodline.store.log import Log


def take_sheet(
    log: Log,
    holding: str,
    standing: Standing,
    name: str,
    content: bytes,
    told: Told,
    now: datetime,
    *,
    dry_run: bool,
    undo: bool,
) -> dict[str, Any]:
    """{dry_run, undo, tables, other_sheets, asked, added, known, kinds: {kind: n}, bad: [{sheet, number, field,
    message, remedy, taken, as_read}]}. asked: "species", "breed" where rows do not say them.

    All entries go in together or, on a fault of the disk, none. now: aware. Raises EnvelopeError, TooLarge, DiskFull,
    Busy.
    """
    found = read_sheets(name, content, told, standing, now)
    if undo:
        return _answer(found, _store(log, holding, undo_entries(found, standing, now), dry_run), 0, dry_run, undo)
    known = {placed.id for placed in log.weigh(holding, found.entries) if placed.status != "stored"}
    new = [entry for entry in found.entries if entry.id not in known]
    return _answer(found, _store(log, holding, new, dry_run), len(known), dry_run, undo)


def _store(log: Log, holding: str, entries: Sequence[Entry], dry_run: bool) -> Sequence[Entry]:
    if entries and not dry_run:
        log.append(holding, entries, "import")
    return entries


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
