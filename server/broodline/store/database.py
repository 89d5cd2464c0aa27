"""Opening the one SQLite file, always with the same promises."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from broodline.store.faults import typed_faults
from broodline.store.migrations import migrate

FILE_NAME = "book.db"
BUSY_TIMEOUT_S = 5.0
PAGES_BEFORE_CHECKPOINT = 1000


def open_database(path: Path, *, checkpoints: bool = False) -> sqlite3.Connection:
    """A connection to the book at `path`, made and migrated if need be.

    A commit is on the disk when it returns: phones are told "on the server" on the strength of it. Only the
    server's writer checkpoints; commands beside it never do, so that two connections never move pages at once.
    The connection may travel between threads; its owner lets one thread at a time use it.
    Raises DiskFull, Busy or BookDamaged.
    """
    with typed_faults():
        connection = sqlite3.connect(path, timeout=BUSY_TIMEOUT_S, isolation_level=None, check_same_thread=False)
        try:
            _promise(connection, checkpoints)
            migrate(connection)
        except BaseException:
            connection.close()
            raise
        return connection


@contextmanager
def writing(connection: sqlite3.Connection) -> Iterator[None]:
    """One transaction that owns the pen from its first moment; all of it is written, or nothing.

    BEGIN IMMEDIATE, because a transaction that reads first and writes later can be refused halfway.
    """
    with typed_faults():
        connection.execute("BEGIN IMMEDIATE")
        try:
            yield
            connection.execute("COMMIT")
        except BaseException:
            # SQLite has already rolled back by itself where the disk was full.
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise


@contextmanager
def reading(connection: sqlite3.Connection) -> Iterator[None]:
    """One consistent view for several reads; keep it short, a long one holds back checkpoints."""
    with typed_faults():
        connection.execute("BEGIN")
        try:
            yield
        finally:
            if connection.in_transaction:
                connection.execute("COMMIT")


def _promise(connection: sqlite3.Connection, checkpoints: bool) -> None:
    connection.execute(f"PRAGMA wal_autocheckpoint = {PAGES_BEFORE_CHECKPOINT if checkpoints else 0}")
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA trusted_schema = OFF")
