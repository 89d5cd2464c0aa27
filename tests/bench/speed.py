"""How fast the server is, each figure beside a yardstick of the same run: `make bench`.

Ratios are what counts; absolute figures are those of the machine. Every figure is the median of several runs, the
two sides of a ratio taking turns, so that a slow moment of the machine meets both.
"""

import gc
import hashlib
import secrets
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from broodline.book.fold import Fold, fold
from broodline.book.wire import stored_entry
from broodline.cli.main import COLLECT_AFTER
from broodline.store.log import MOST_ROWS
from broodline.store.shelf import Shelf, open_shelf
from broodline.sync.pull import page_bytes, pull
from broodline.sync.push import push
from tests.bench.large_book import id_in, large_book, push_requests

RUNS = 5
# With --process the time of this process alone counts: on a busy machine the only figure that means anything, but it
# leaves out waiting for the disk.
clock = time.process_time if "--process" in sys.argv else time.perf_counter
INGESTED, AT_ONCE = 20_000, 200
WHOLE_BOOK = 200_000

BARE_TABLE = """
CREATE TABLE log (
    position INTEGER PRIMARY KEY AUTOINCREMENT, holding TEXT NOT NULL, id TEXT NOT NULL, document BLOB NOT NULL,
    sha256 TEXT NOT NULL, chain TEXT NOT NULL, brought_by TEXT, received_ms INTEGER NOT NULL, UNIQUE (holding, id)
) STRICT
"""


def main() -> None:
    gc.set_threshold(*COLLECT_AFTER)  # as the command does
    book = large_book(WHOLE_BOOK)
    size = sum(map(len, book)) / len(book)
    print(f"A book of {len(book)} entries, {size:.0f} bytes each on average.")
    measure_ingest(book[:INGESTED])
    measure_fold(book)
    measure_pull(book)


def measure_ingest(book: list[bytes]) -> None:
    """From request bytes to the disk, against sqlite3 alone inserting the same rows in the same batches."""
    requests, rows = push_requests(book, AT_ONCE), finished_rows(book)
    ours, bare = [], []
    for _ in range(RUNS):
        with tempfile.TemporaryDirectory() as folder:
            ours.append(seconds(partial(ingest, Path(folder) / "book", requests)))
            bare.append(seconds(partial(insert_bare, Path(folder) / "bare.db", rows)))
    ratio = statistics.median(b / o for b, o in zip(bare, ours, strict=True))
    told(f"ingest in batches of {AT_ONCE}", per_second(book, ours), "entries/s")
    told("  sqlite3 alone, same rows and batches", per_second(book, bare), "entries/s")
    told("  ratio (target at least 0.35)", ratio, "")


def measure_fold(book: list[bytes]) -> None:
    """The whole book into a standing, from parsed entries (target 2 s) and from bytes (target 4 s); then 200 more."""
    parsed = [stored_entry(document) for document in book]
    told("fold of parsed entries (target 2.0)", statistics.median(seconds(lambda: fold(parsed)) for _ in range(3)), "s")
    cold = [seconds(lambda: fold([stored_entry(document) for document in book])) for _ in range(3)]
    told("fold from bytes (target 4.0)", statistics.median(cold), "s")
    growing = Fold()
    growing.take(parsed[: -AT_ONCE * RUNS])
    growing.standing()
    more = [book[start : start + AT_ONCE] for start in range(len(book) - AT_ONCE * RUNS, len(book), AT_ONCE)]
    going_on = [seconds(partial(go_on, growing, documents)) for documents in more]
    told(f"fold that goes on, {AT_ONCE} more from bytes", statistics.median(going_on), "s")


def go_on(growing: Fold, documents: list[bytes]) -> None:
    growing.take([stored_entry(document) for document in documents])
    growing.standing()


def measure_pull(book: list[bytes]) -> None:
    """A new phone reads the whole book, page by page, as bytes ready to be sent; against reading the bare rows."""
    with tempfile.TemporaryDirectory() as folder, shelf_in(Path(folder) / "book") as shelf:
        ingest_into(shelf, push_requests(book, AT_ONCE))
        ours, bare = [], []
        for _ in range(RUNS):
            ours.append(seconds(lambda: pull_all(shelf)))
            bare.append(seconds(lambda: read_bare(Path(folder) / "book" / "book.db")))
    told(f"pull in pages of {MOST_ROWS}", per_second(book, ours), "entries/s")
    told("  sqlite3 alone, same rows and pages", per_second(book, bare), "entries/s")
    told("  ratio", statistics.median(b / o for b, o in zip(bare, ours, strict=True)), "")


def seconds(work: Callable[[], object]) -> float:
    """How long the work takes; rubbish of earlier work is collected before, not during it."""
    gc.collect()
    start = clock()
    work()
    return clock() - start


def per_second(book: list[bytes], taken: list[float]) -> float:
    return len(book) / statistics.median(taken)


def told(what: str, figure: float, unit: str) -> None:
    shown = f"{figure:,.0f}" if figure >= 1000 else f"{figure:.2f}"
    print(f"{what:<46}{shown:>12} {unit}")


def shelf_in(folder: Path) -> Shelf:
    return open_shelf(
        folder, now_ms=lambda: time.time_ns() // 1_000_000, random_bytes=secrets.token_bytes, checkpoints=True
    )


def ingest(folder: Path, requests: list[bytes]) -> None:
    with shelf_in(folder) as shelf:
        ingest_into(shelf, requests)


def ingest_into(shelf: Shelf, requests: list[bytes]) -> None:
    holding = shelf.holdings.current().id
    for request in requests:
        push(shelf.log, holding, request, "phone-1")


def finished_rows(book: list[bytes]) -> list[tuple[object, ...]]:
    """Everything sqlite3 alone is spared: ids, hashes and the chain are worked out before the clock runs."""
    chain = "0" * 64
    rows: list[tuple[object, ...]] = []
    for document in book:
        entry_id, sha256 = id_in(document), hashlib.sha256(document).hexdigest()
        chain = hashlib.sha256(f"{chain}{entry_id}{sha256}".encode()).hexdigest()
        rows.append(("holding", entry_id, document, sha256, chain, "phone-1", 1_740_000_000_000))
    return rows


def insert_bare(path: Path, rows: list[tuple[object, ...]]) -> None:
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute(BARE_TABLE)
    for start in range(0, len(rows), AT_ONCE):
        connection.execute("BEGIN IMMEDIATE")
        connection.executemany(
            "INSERT INTO log (holding, id, document, sha256, chain, brought_by, received_ms) VALUES (?,?,?,?,?,?,?)",
            rows[start : start + AT_ONCE],
        )
        connection.execute("COMMIT")
    connection.close()


def pull_all(shelf: Shelf) -> None:
    holding, cursor, more = shelf.holdings.current().id, None, True
    while more:
        page = pull(shelf.log, holding, cursor, str(MOST_ROWS))
        page_bytes(page, 0)
        cursor, more = page.cursor, page.more


def read_bare(path: Path) -> None:
    connection = sqlite3.connect(path, isolation_level=None)
    position = 0
    while rows := connection.execute(
        "SELECT position, document, chain FROM log WHERE position > ? ORDER BY position LIMIT ?", (position, MOST_ROWS)
    ).fetchall():
        position = rows[-1][0]
    connection.close()


if __name__ == "__main__":
    main()
