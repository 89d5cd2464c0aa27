"""What is worth a word before a server starts: the SQLite it was given, and whether the file is sound."""

import sqlite3

from broodline.errors import BookDamaged
from broodline.store.database import reading
from broodline.store.verification import find_losses

# Two connections that write and checkpoint at once could damage a file in write-ahead mode: introduced with that mode
# in 3.7.0, mended in 3.51.3 and in two older lines (from memory of sqlite.org/wal.html, not read again).
_BEFORE_WRITE_AHEAD = (3, 7, 0)
_MENDED = (3, 51, 3)
_MENDED_LINES = {(3, 44): 6, (3, 50): 7}


def warnings_at_start(connection: sqlite3.Connection) -> list[str]:
    """Plain words about what a keeper should know; an empty list where all is well. Never raises for a bad file."""
    return [*_about_library(sqlite3.sqlite_version_info), *_about_file(connection)]


def has_reset_fault(version: tuple[int, ...]) -> bool:
    """Whether this version of SQLite has the fault at the reset of its write-ahead file."""
    if not _BEFORE_WRITE_AHEAD <= version < _MENDED:
        return False
    mended_from = _MENDED_LINES.get((version[0], version[1]))
    return mended_from is None or version[2] < mended_from


def _about_library(version: tuple[int, ...]) -> list[str]:
    if not has_reset_fault(version):
        return []
    words = ".".join(map(str, version))
    return [
        f"Python on this machine uses SQLite {words}, which can in rare cases damage a file that two programs write at"
        " once (mended in 3.51.3). Broodline keeps to what avoids it; update Python or the system when you can."
    ]


def _about_file(connection: sqlite3.Connection) -> list[str]:
    try:
        with reading(connection):
            (verdict,) = connection.execute("PRAGMA quick_check(1)").fetchone()
            damaged = verdict != "ok" or find_losses(connection)
    except BookDamaged:
        damaged = True
    if not damaged:
        return []
    return ["The book's file is damaged. Run `broodline check` to see how, and restore the latest backup."]
